package heard

import (
	"math"
	"slices"
	"strings"

	"matchmark/internal/machine"
)

// place is where on the machine one of several like things is: "2" of the
// cylinders, "left-front" of the links.
type place struct {
	pieces []string // small letters
	family string   // "cylinder", "main", "valve"; empty for sides and ends
	of     int      // how many places the family has; 1 where there is no place
}

type families []machine.Places

func familiesOf(m *machine.Machine) families { return m.Places }

// of parts a name from its place.
func (f families) of(name string, at machine.Place) (string, place) {
	if at == "" {
		return name, place{of: 1}
	}
	for _, p := range f {
		base, ok := strings.CutSuffix(name, ", "+p.Name+" "+string(at))
		if !ok || !slices.Contains(p.Labels, at) {
			continue
		}
		family := p.Name
		if joining[lastWord(family)] {
			family = ""
		}
		return base, place{pieces: strings.Split(strings.ToLower(string(at)), "-"), family: family, of: len(p.Labels)}
	}
	return name, place{pieces: strings.Split(strings.ToLower(string(at)), "-"), of: 2}
}

func lastWord(text string) string {
	f := strings.Fields(text)
	if len(f) == 0 {
		return ""
	}
	return f[len(f)-1]
}

// dimension groups the pieces of places that exclude one another.
var dimension = map[string]string{"left": "side", "right": "side", "front": "end", "rear": "end", "middle": "end", "upper": "height", "lower": "height", "top": "top",
	"inner": "depth", "outer": "depth", "in": "valve", "ex": "valve", "drive": "starter", "commutator": "starter"}

// placeWords are what people say for the pieces.
var placeWords = map[string]string{"left": "left", "lh": "left", "nearside": "left", "right": "right", "rh": "right", "offside": "right", "front": "front",
	"rear": "rear", "back": "rear", "middle": "middle", "centre": "middle", "center": "middle", "upper": "upper", "lower": "lower", "top": "top", "inner": "inner", "outer": "outer",
	"inlet": "in", "intake": "in", "in": "in", "exhaust": "ex", "ex": "ex", "exh": "ex", "drive": "drive", "commutator": "commutator", "comm": "commutator"}

// ordinals are the places said in words.
var ordinals = map[string]string{"first": "1", "second": "2", "third": "3", "fourth": "4"}

// ordinalWords are the ordinals in figures.
var ordinalWords = map[string]string{"1st": "first", "2nd": "second", "3rd": "third", "4th": "fourth"}

// heardPlace is one piece of a place as heard.
type heardPlace struct {
	word, last int // words of the line, first and last
	piece      string
	sort       string  // dimension, or "number"
	family     string  // "cylinder", where it was said with the number
	sure       float64 // 1 said as a place; less where the words may mean another thing
}

// places lists what of a place is said.
func (r *reader) places() []heardPlace {
	var out []heardPlace
	for i, w := range r.w {
		if w.taken == Way {
			continue
		}
		if p, ok := r.numberPlace(i); ok {
			out = append(out, p)
			continue
		}
		text := w.text
		if (text == "near" || text == "off") && r.at(i+1).text == "side" {
			text += "side"
		}
		piece, ok := placeWords[text]
		if !ok || text == "in" || text == "drive" && r.at(i+1).text != "end" {
			continue
		}
		sure := 1.0
		if w.taken != Between {
			sure = 0.3 // it says where a shim or a bolt sat
		}
		out = append(out, heardPlace{word: i, last: i, piece: piece, sort: dimension[piece], sure: sure})
	}
	return out
}

// numberPlace reads "no 2", "cyl 2", "number two", "2nd", "#3", a bare 2.
func (r *reader) numberPlace(i int) (heardPlace, bool) {
	w := r.free(i)
	p := heardPlace{word: i, last: i, sort: "number", sure: 1}
	switch {
	case ordinals[w.text] != "" && (r.at(i+1).text == "" || r.at(i+1).isMark() || isFiller(r.at(i+1).text) && !r.is(i+1, "and")):
		return p, false // "battery off first"
	case ordinals[w.text] != "":
		p.piece, p.sure = ordinals[w.text], 0.8
		return p, true
	case w.count() < 1 || w.count() > 12:
		return p, false
	}
	p.piece = itoa(w.count())
	if r.is(i+1, "st", "nd", "rd", "th") && r.at(i+1).glued {
		p.last = i + 1
		return p, true
	}
	front := i - 1
	for r.is(front, "no", "number", "nr", "num", ".", "#", "nos") {
		p.word = front
		front--
	}
	switch f := r.at(front).text; {
	case f == "cylinder" || f == "cyl" || f == "cylinders" || f == "pot":
		p.family = "cylinder"
	case f == "main" || f == "mains":
		p.family = "main"
	case p.word == i:
		p.sure = 0.7
	}
	if r.is(p.last+1, "cylinder", "cyl") {
		p.family, p.last = "cylinder", p.last+1
	}
	return p, true
}

// fits weighs a place against what was heard of places, in nats; used tells
// which of it the place explains.
func (p place) fits(said []heardPlace, name func(w string) bool) (score float64, used []int) {
	agree := make([]bool, len(p.pieces))
	for k, s := range said {
		at := slices.Index(p.pieces, s.piece)
		switch {
		case at >= 0 && (s.family == "" || p.family == "" || s.family == p.family || p.family == "valve"):
			agree[at] = true
			used = append(used, k)
			if s.family != "" && s.family == p.family {
				score += 0.5
			}
		case p.clashes(s) && !slices.ContainsFunc(said, func(o heardPlace) bool { return o.sort == s.sort && slices.Contains(p.pieces, o.piece) }):
			if !name(s.piece) {
				score -= 3.5 * s.sure
			}
		case at < 0 && !name(s.piece):
			score -= 1.2 * s.sure
		}
	}
	open := 1.0
	for _, a := range agree {
		if !a {
			open *= math.Pow(float64(p.of), 1/float64(len(p.pieces)))
		}
	}
	if len(p.pieces) > 0 {
		score -= math.Log(open)
	}
	return score, used
}

// clashes tells whether a piece says another place of the same sort.
func (p place) clashes(s heardPlace) bool {
	for _, piece := range p.pieces {
		sort := dimension[piece]
		if sort == "" {
			sort = "number"
		}
		if sort == s.sort && piece != s.piece {
			return true
		}
	}
	return false
}
