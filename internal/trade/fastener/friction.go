package fastener

import (
	"fmt"
	"strings"
)

// Friction is a state of thread and head in words, with the friction it gives.
type Friction struct {
	State  string
	Thread Band
	Head   Band
	Advice string
	Source string
}

const vdiFriction = "VDI 2230-1 table A5, class %s, read in two reprints"

// Frictions lists the states in a fixed order, slippery first.
// The bands are those of the friction classes; which class a state of the
// shop falls in follows the examples of the table, and for rust and locking
// compound our own judgement.
func Frictions() []Friction {
	state := func(words, class string, lo, hi float64, advice string) Friction {
		b := Band{lo, hi}
		return Friction{words, b, b, advice, fmt.Sprintf(vdiFriction, class)}
	}
	rusty := state("dry, rusty", "D", 0.20, 0.35, "clean and oil it: the clamp is anybody's guess")
	rusty.Source += "; that rust is class D is our own judgement"
	return []Friction{
		state("molybdenum paste", "A", 0.04, 0.10, "the least torque of all: a figure for oiled threads overloads it"),
		state("zinc, waxed", "B", 0.08, 0.16, "do not oil as well"),
		state("clean and oiled", "B", 0.08, 0.16, "oil on thread and under the head"),
		state("clean and dry", "C", 0.14, 0.24, "as bought, hardly oiled; oil it for a truer clamp"),
		state("locking compound, wet", "C", 0.14, 0.24, "no oil; tighten before it sets"),
		state("zinc, dry", "C to D", 0.14, 0.35, "oil it for a truer clamp"),
		rusty,
	}
}

// FrictionOf finds a state by its words.
// Errors: words that are not known, with the list; stainless or aluminium run
// dry, for which class E has no upper end (0.30 and more) and threads seize.
func FrictionOf(words string) (Friction, error) {
	want := strings.ToLower(strings.TrimSpace(words))
	var names []string
	for _, f := range Frictions() {
		if f.State == want {
			return f, nil
		}
		names = append(names, f.State)
	}
	if want == "stainless, dry" || want == "aluminium, dry" {
		return Friction{}, fmt.Errorf("friction %q has no upper end (VDI 2230-1 class E) and the thread may seize; paste on it was wanted", words)
	}
	return Friction{}, fmt.Errorf("friction %q is not known; one of %s was wanted", words, strings.Join(names, "; "))
}
