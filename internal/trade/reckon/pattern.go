package reckon

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/trade/fastener"
	"matchmark/internal/trade/quantity"
)

const (
	patternSource = "stages common practice after ASME PCC-1, from memory; orders our own rule, held against the customary stars"
	patternSure   = "a sound order where no book gives one; a book's order comes first"
)

func patternTopics() []Topic {
	final := ofDim("torque", "final torque, to give each stage a figure", quantity.Torque, "N·m")
	method := choice("method", "rule of the order; left out, star on a circle, else outward", string(fastener.Star), string(fastener.Outward))
	topic := func(name, title string, do func(Values) (Answer, error), example []string, in ...Input) Topic {
		return Topic{Name: name, Title: title, Group: fasteners, Inputs: append(in, final, method), Source: patternSource, Sure: patternSure, Do: do, Example: example}
	}
	return []Topic{
		topic("bolt-circle", "order of tightening and loosening bolts on a circle, with stages", boltCircle, []string{"bolts=8", "torque=60 N·m"},
			counted("bolts", "bolts on the circle, numbered clockwise from the top").need()),
		topic("bolt-rows", "order of tightening and loosening rows of bolts, as on a head", boltRows, []string{"rows=2", "columns=5"},
			counted("rows", "rows").need(), counted("columns", "bolts in each row; numbered down each column from the left").need()),
		topic("bolt-field", "order of tightening and loosening bolts wherever they lie", boltField, []string{"at=0/0; 80/0; 160/0; 0/70; 80/90; 160/70"},
			text("at", "places x/y of the bolts in mm, x to the right and y up, in the order they are numbered").many().need(),
			Input{Key: "first", Ask: "numbers that must start, as bolts on dowels, in this order", Dim: quantity.Count, Many: true}),
		{Name: "stages", Title: "torque of each stage of tightening", Group: fasteners, Source: patternSource, Sure: patternSure, Do: stages,
			Inputs: []Input{final.need()}, Example: []string{"torque=90 N·m"}},
	}
}

func boltCircle(v Values) (Answer, error) {
	if n := v.count("bolts"); n < 2 || n > 100 {
		return Answer{}, v.wrong("bolts", "2 to 100 bolts were wanted")
	}
	return v.pattern(fastener.Circle(v.count("bolts"), 100), nil)
}

func boltRows(v Values) (Answer, error) {
	r, c := v.count("rows"), v.count("columns")
	if r < 1 || r > 50 {
		return Answer{}, v.wrong("rows", "1 to 50 rows were wanted")
	}
	if c < 1 || c > 50 {
		return Answer{}, v.wrong("columns", "1 to 50 bolts a row were wanted")
	}
	return v.pattern(fastener.Rows(r, c, 100), nil)
}

func boltField(v Values) (Answer, error) {
	var bolts []fastener.Bolt
	for i, at := range v.words("at") {
		x, y, found := strings.Cut(at, "/")
		const want = "places as x/y in mm, parted by semicolons, were wanted"
		if !found {
			return Answer{}, v.wrong("at", want)
		}
		px, err := v.part("at", x, quantity.Length, "mm", want)
		if err != nil {
			return Answer{}, err
		}
		py, err := v.part("at", y, quantity.Length, "mm", want)
		if err != nil {
			return Answer{}, err
		}
		bolts = append(bolts, fastener.Bolt{Number: i + 1, X: px, Y: py})
	}
	var first []int
	for _, n := range v.nums("first") {
		first = append(first, int(n))
	}
	return v.pattern(bolts, first)
}

func (v Values) pattern(bolts []fastener.Bolt, first []int) (Answer, error) {
	p, err := fastener.PatternOf(bolts, fastener.Rules{First: first, Method: fastener.Method(v.word("method"))})
	if err != nil {
		return Answer{}, err
	}
	back := slices.Clone(p.Order)
	slices.Reverse(back)
	a := Answer{Lines: []Line{say("tighten", p.String()), say("rule", string(p.Method[0])), say("loosen", dashed(back)+", a quarter turn each before any comes out")}}
	for i, s := range p.Stages {
		a.Lines = append(a.Lines, v.stage(i+1, s))
	}
	return a, nil
}

func (v Values) stage(n int, s fastener.Stage) Line {
	name := fmt.Sprintf("stage %d", n)
	if !v.has("torque") || s.Share == 0 {
		return say(name, s.Words)
	}
	return value(name, s.Share*v.num("torque"), "N·m", 1).with(s.Words)
}

func dashed(numbers []int) string {
	var out []string
	for _, n := range numbers {
		out = append(out, whole(n))
	}
	return join(out, "-")
}

// stages are those of a pattern, whichever it is.
func stages(v Values) (Answer, error) {
	if !(v.num("torque") > 0) {
		return Answer{}, v.wrong("torque", "a torque above 0 was wanted")
	}
	p, err := fastener.PatternOf(fastener.Circle(4, 100), fastener.Rules{})
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Cautions: []string{"The last round is at the full torque: each bolt slackens its neighbours."}}
	for i, s := range p.Stages {
		a.Lines = append(a.Lines, v.stage(i+1, s))
	}
	return a, nil
}
