package coolant

import (
	"fmt"
	"strings"
)

// Metal of a cooling system with its anodic index, volts below gold: the
// larger one of a pair corrodes.
type Metal struct {
	Name   string
	Index  float64
	Memory bool // the index is from memory
}

// Metals lists anodic indexes, the noblest first. Source: MIL-STD-889 and
// MIL-F-14072 as reprinted.
func Metals() []Metal {
	return []Metal{
		{"gold", 0, false}, {"silver", 0.15, false}, {"nickel", 0.30, false}, {"copper", 0.35, false}, {"brass, bronze", 0.40, false},
		{"high brass", 0.45, false}, {"18 % chromium stainless", 0.50, false}, {"chromium plate, tin plate class", 0.60, false},
		{"tin-lead solder", 0.65, false}, {"lead", 0.70, false}, {"2000-series wrought aluminium", 0.75, false},
		{"plain steel, grey iron", 0.85, false}, {"other wrought aluminium, cast Al-Si", 0.90, true},
		{"cadmium, other cast aluminium", 0.95, true}, {"hot-dip zinc", 1.20, true}, {"zinc wrought", 1.25, false},
		{"magnesium", 1.75, false}, {"beryllium", 1.85, true},
	}
}

// MetalNamed finds the first metal whose name holds a word ("iron", "copper",
// "cast Al-Si"). Errors: MetalError.
func MetalNamed(word string) (Metal, error) {
	for _, m := range Metals() {
		if word != "" && strings.Contains(strings.ToLower(m.Name), strings.ToLower(word)) {
			return m, nil
		}
	}
	return Metal{}, MetalError{Got: word}
}

// MetalError says that a metal is not in the list.
type MetalError struct{ Got string }

func (e MetalError) Error() string {
	return fmt.Sprintf("metal is %q; one of the list of anodic indexes was wanted, such as iron, copper or brass", e.Got)
}

// Contact is what comes of two metals that touch in a liquid.
type Contact struct {
	Volts    float64
	Corrodes string // the metal that is eaten; empty where they are alike
	Class    string // where the pair may be: see below
	Advice   string
}

// The classes by difference of index. Source: the limits 0.15, 0.25 and 0.50 V
// that are printed beside the table.
const (
	AnyPlace   = "ok harsh"           // up to 0.15 V: wet and salt too
	Normal     = "ok normal"          // up to 0.25 V
	Controlled = "ok controlled only" // up to 0.50 V: with live inhibitor
	Never      = "not acceptable"     // more
)

// Touch judges two metals. A cooling system counts as controlled while its
// inhibitor lives. The advice is common practice, no source.
func Touch(a, b Metal) Contact {
	if a.Index > b.Index {
		a, b = b, a
	}
	c := Contact{Volts: b.Index - a.Index, Corrodes: b.Name}
	if a.Index == b.Index {
		c.Corrodes = ""
	}
	const dust = 1e-9 // 0.90 − 0.75 must not be a hair over 0.15
	switch {
	case c.Volts <= 0.15+dust:
		c.Class, c.Advice = AnyPlace, "Nothing needed."
	case c.Volts <= 0.25+dust:
		c.Class, c.Advice = Normal, "Keep salt and tap water out."
	case c.Volts <= 0.50+dust:
		c.Class, c.Advice = Controlled, "Only with coolant whose inhibitor is alive: soft water, changed in time."
	default:
		c.Class, c.Advice = Never, "Part them by a hose, a sleeve or a gasket, and use inhibited coolant."
	}
	return c
}
