package reckon

import (
	"slices"
	"strings"

	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/quantity"
)

// The usual shapes of an Input. need makes one that must be given, deflt one
// that is taken when left out, many a list.

func length(key, ask string) Input {
	return Input{Key: key, Ask: ask, Dim: quantity.Length, Unit: "mm"}
}

func ofDim(key, ask string, dim quantity.Dimension, unit string) Input {
	return Input{Key: key, Ask: ask, Dim: dim, Unit: unit}
}

func plain(key, ask, unit string) Input {
	return Input{Key: key, Ask: ask, Dim: quantity.Number, Unit: unit}
}

func counted(key, ask string) Input {
	return Input{Key: key, Ask: ask, Dim: quantity.Count}
}

func text(key, ask string) Input { return Input{Key: key, Ask: ask} }

func choice(key, ask string, choices ...string) Input {
	return Input{Key: key, Ask: ask, Choices: choices}
}

func yesNo(key, ask string) Input {
	return Input{Key: key, Ask: ask, Choices: []string{"yes", "no"}, Default: "no"}
}

func (in Input) need() Input              { in.Needed = true; return in }
func (in Input) deflt(value string) Input { in.Default = value; return in }
func (in Input) many() Input              { in.Many = true; return in }

// metals names the materials whose expansion is known.
func metals() []string {
	var out []string
	for _, m := range metrology.Materials() {
		out = append(out, strings.ReplaceAll(m.ID, "-", " "))
	}
	return out
}

func metal(word string) metrology.Material {
	m, _ := metrology.MaterialByID(strings.ReplaceAll(word, " ", "-"))
	return m
}

// withAll is inputs of several lists in one.
func withAll(lists ...[]Input) []Input { return slices.Concat(lists...) }
