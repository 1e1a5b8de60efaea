package identify

import (
	"fmt"
	"math"
	"strconv"

	"matchmark/internal/trade/catalogue"
)

// WornBore and WornJournal ask for the nominal size behind a worn hole or shaft
// and the step that an earlier rework has left it at.
const (
	WornBore    catalogue.Kind = "bore"
	WornJournal catalogue.Kind = "journal"
)

var (
	boreDims    = sizeDims("bore", catalogue.Grows, "bore at the unworn ring above or below the travel")
	journalDims = sizeDims("journal", catalogue.Shrinks, "journal at the fillet or the oil hole, where nothing runs")
)

func sizeDims(what string, wears catalogue.Wear, where string) []catalogue.Spec {
	return []catalogue.Spec{
		{Name: "size", Words: what, Unit: "mm", Wears: wears, UsualU: 0.005, How: what + " where it runs, with a micrometer"},
		{Name: "unworn", Words: what + " at an unworn place", Unit: "mm", Wears: catalogue.Keeps, UsualU: 0.005, How: where},
	}
}

// Figures found with a worn bore or journal: the size it was first made to and
// what rework has added to it, or taken off it, in mm.
const (
	FoundNominal = "nominal"
	FoundRework  = "rework"
)

// nominal is the posterior over preferred sizes with the usual steps of rework:
// 0.25 to 1.00 mm on metric sizes, 0.010 to 0.040 in on inch sizes; bores go
// up, journals down. Common practice, no source.
func nominal(a Ask, specs []catalogue.Spec) (Answer, error) {
	if a.Among != nil {
		return Answer{}, AskError{"items of a worn " + string(a.Kind), "given", "none: sizes are made from preferred numbers"}
	}
	near := a.Measured[0].Value
	reach := 0.6
	for _, m := range a.Measured {
		if m.Value <= 0 {
			return Answer{}, AskError{string(a.Kind) + " " + m.Dim, num(m.Value), "above 0"}
		}
		if m.Dim == "unworn" {
			near = m.Value
		}
		reach = max(reach, 8*m.U)
	}
	given := a.Prior
	a.Prior = map[string]float64{}
	found := map[string][]Figure{}
	for _, sys := range systems {
		a.Among = append(a.Among, sys.sizes(a.Kind, near, reach, a.Prior, found)...)
	}
	for name, w := range given {
		a.Prior[name] = w
	}
	ans := among(a, specs)
	for i := range ans.Ranked {
		ans.Ranked[i].Found = found[ans.Ranked[i].Item.Designation]
	}
	return ans, nil
}

// system is a way of choosing sizes: the finest step of nominals, the steps of
// rework, both in units of unit mm, and how usual a nominal is.
type system struct {
	unit   float64
	grid   float64
	rework []float64
	usual  func(n float64) float64
	name   func(n float64) string
	step   string
}

// cutAgain is how usual each size of rework is against the first size; a guess.
const cutAgain = 0.25

var systems = []system{
	{1, 0.5, []float64{0, 0.25, 0.5, 0.75, 1}, usualMetric, func(n float64) string { return num(n) + " mm" }, "%.2f mm"},
	{25.4, 1. / 64, []float64{0, 0.010, 0.020, 0.030, 0.040}, usualInch, inchName, "%.3f in"},
}

// sizes lists the items within reach of a size and writes their priors and what
// is found with them.
func (s system) sizes(kind catalogue.Kind, near, reach float64, prior map[string]float64, found map[string][]Figure) []catalogue.Item {
	sign, wears, lo, hi, way := 1.0, catalogue.Grows, 0.0, 0.03, "oversize"
	if kind == WornJournal {
		sign, wears, lo, hi, way = -1, catalogue.Shrinks, -0.03, 0, "undersize"
	}
	var items []catalogue.Item
	first := math.Ceil((near - reach - 1.1) / (s.unit * s.grid))
	last := math.Floor((near + reach + 1.1) / (s.unit * s.grid))
	for i := max(1, first); i <= last; i++ {
		n := i * s.grid
		for _, step := range s.rework {
			size := (n + sign*step) * s.unit
			if math.Abs(size-near) > reach || size <= 0 {
				continue
			}
			it := catalogue.Item{Kind: kind, Designation: s.name(n) + ", standard", Series: "standard", Source: "preferred sizes, common practice, no source"}
			weight := s.usual(n)
			if step > 0 {
				it.Series = way
				it.Designation = s.name(n) + ", " + fmt.Sprintf(s.step, step) + " " + way
				weight *= cutAgain
			}
			it.Dims = []catalogue.Dim{{Name: "size", Nominal: size, Lo: lo, Hi: hi, Wears: wears}, {Name: "unworn", Nominal: size, Lo: lo, Hi: hi}}
			prior[it.Designation] = weight
			found[it.Designation] = []Figure{{Name: FoundNominal, Value: n * s.unit}, {Name: FoundRework, Value: sign * step * s.unit}}
			items = append(items, it)
		}
	}
	return items
}

// usualMetric weighs nominals: fives above whole millimetres above halves. A
// guess of common practice, no source.
func usualMetric(n float64) float64 {
	switch {
	case math.Mod(n, 5) == 0:
		return 1
	case math.Mod(n, 1) == 0:
		return 0.7
	}
	return 0.1
}

// usualInch weighs nominals by the coarsest fraction that gives them; a guess.
func usualInch(n float64) float64 {
	for _, f := range []struct{ den, weight float64 }{{8, 0.4}, {16, 0.2}, {32, 0.05}} {
		if math.Mod(n*f.den, 1) == 0 {
			return f.weight
		}
	}
	return 0.02
}

// inchName prints an inch size as a whole number and a fraction: 2-15/16 in.
func inchName(n float64) string {
	whole, num, den := math.Floor(n), int(math.Round((n-math.Floor(n))*64)), 64
	for num > 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	text := ""
	if whole > 0 || num == 0 {
		text = strconv.FormatFloat(whole, 'f', -1, 64)
	}
	if num > 0 {
		if text != "" {
			text += "-"
		}
		text += fmt.Sprintf("%d/%d", num, den)
	}
	return text + " in"
}
