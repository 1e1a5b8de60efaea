package reckon

import (
	"strings"

	"matchmark/internal/trade/fastener"
	"matchmark/internal/trade/quantity"
)

func threadInput() Input {
	return text("thread", "thread as named, M10x1.25 or 1/2-13 UNC; M10 alone is the coarse one: measure the pitch").need()
}

func classInput() Input {
	return text("class", "mark on the bolt head: 8.8, or 5 for a grade of an inch bolt").need()
}

// jointInputs is what a bolt and the rubbing under it are described by.
func jointInputs() []Input {
	var states []string
	for _, f := range fastener.Frictions() {
		states = append(states, f.State)
	}
	return []Input{threadInput(), classInput(),
		choice("friction", "state of thread and head", states...).deflt("clean and oiled"),
		plain("mu", "friction as one figure, where a lubricant's own sheet gives it; takes the place of the words", ""),
		length("flats", "size across the flats of the head; left out, a usual hexagon head"),
		length("hole", "hole under the head; needed with flats"),
		length("neck", "thinnest diameter of a waisted bolt; left out, none"),
	}
}

// joint puts a bolt together.
func (v Values) joint() (fastener.Joint, error) {
	var j fastener.Joint
	var err error
	if j.Thread, err = fastener.Named(v.word("thread")); err != nil {
		return j, err
	}
	if j.Class, err = fastener.ClassOf(j.Thread, v.word("class")); err != nil {
		return j, err
	}
	if j.Friction, err = v.friction(); err != nil {
		return j, err
	}
	j.Neck = v.num("neck")
	switch {
	case v.has("flats") != v.has("hole"):
		key := "hole"
		if v.has("flats") {
			key = "flats"
		}
		return j, v.wrong(key, "size across flats and hole under the head were wanted together")
	case v.has("flats"):
		j.Head, err = fastener.Across(v.num("flats"), v.num("hole"))
	default:
		j.Head, err = fastener.HexHead(j.Thread)
	}
	return j, err
}

func (v Values) friction() (fastener.Friction, error) {
	if !v.has("mu") {
		return fastener.FrictionOf(v.word("friction"))
	}
	mu := v.num("mu")
	if !(mu >= 0.03 && mu <= 0.5) {
		return fastener.Friction{}, v.wrong("mu", "a coefficient of friction from 0.03 to 0.5 was wanted")
	}
	b := fastener.Band{Lo: mu, Hi: mu}
	return fastener.Friction{State: "as typed", Thread: b, Head: b, Source: "figure typed"}, nil
}

// doubts says what of a joint rests on an assumption.
func (v Values) doubts(j fastener.Joint) []string {
	var out []string
	if list, err := fastener.Threads(); err == nil && !strings.ContainsAny(v.word("thread"), "x×*-") {
		if twins := list.Twins(j.Thread); len(twins) > 0 {
			out = append(out, j.Thread.Designation+" was taken; the same diameter is also cut as "+join(twins, ", ")+": measure the pitch")
		}
	}
	if !v.has("flats") {
		out = append(out, "the head was taken as a usual hexagon ("+j.Head.Source+"); old heads are often wider: measure and give flats and hole")
	}
	if v.has("mu") {
		out = append(out, "friction is one typed figure, so the range has no width; real friction scatters")
	}
	return out
}

func seatInputs() []Input {
	var names []string
	for _, p := range fastener.Parents() {
		names = append(names, p.Name)
	}
	return []Input{
		choice("into", "metal that the thread is cut in", names...),
		length("engaged", "thread that bears, without chamfers; the length of an insert"),
		yesNo("insert", "a wire thread insert is fitted"),
	}
}

func shareInput() Input {
	return ofDim("share", "share of the proof stress to aim at", quantity.Ratio, "%").deflt("70 %")
}
