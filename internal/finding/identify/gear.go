package identify

import (
	"fmt"
	"math"

	"matchmark/internal/trade/catalogue"
	spur "matchmark/internal/trade/gear"
)

// gearDims are what can be measured on a gear of unknown rack. Counts have no
// uncertainty.
var gearDims = []catalogue.Spec{
	{Name: "z", Words: "number of teeth", How: "number of teeth, counted from a chalk mark"},
	{Name: "k", Words: "teeth within the shorter span", How: "number of teeth within the span"},
	{Name: "Wk", Words: "span over k teeth", Unit: "mm", Wears: catalogue.Shrinks, UsualU: 0.01, How: "span over k teeth with a disc micrometer or calliper"},
	{Name: "Wk1", Words: "span over k+1 teeth", Unit: "mm", Wears: catalogue.Shrinks, UsualU: 0.01, How: "span over k+1 teeth at the same place"},
	{Name: "da", Words: "tip diameter", Unit: "mm", Wears: catalogue.Shrinks, UsualU: 0.02, How: "tip diameter"},
}

// counted are the dimensions that are whole numbers.
var counted = map[string]bool{"z": true, "k": true}

// noneAngles are the pressure angles a gear of no table may have, degrees.
var noneAngles = []float64{14.5, 17.5, 20, 22.5, 25}

// noneLeast and noneMost bound the module of a gear of no table, mm; any ratio
// between them is as likely as another.
const noneLeast, noneMost = 0.5, 14.0

// gear is the posterior over racks: module or diametral pitch with pressure
// angle. The difference of two spans decides first, as it does not depend on
// the profile shift; span and tip diameter then give the shift and tell racks
// of like base pitch apart. Method: ISO 21771.
func gear(a Ask, specs []catalogue.Spec) (Answer, error) {
	t, err := toothOf(a)
	if err != nil {
		return Answer{}, err
	}
	if a.Among == nil {
		std, err := catalogue.Standard()
		if err != nil {
			return Answer{}, err
		}
		a.Among = std.Of(catalogue.GearRack)
	}
	logs := make([]float64, len(a.Among))
	shifts := make(map[string]shift, len(a.Among))
	for i, it := range a.Among {
		m, alpha := rack(it)
		if t.hasW && t.hasW1 {
			logs[i] = t.logStep(m, alpha)
		}
		if t.z == 0 || logs[i] < -2000 { // so far off that the shape cannot save it
			continue
		}
		l, x := t.logShape(m, alpha)
		logs[i] += l
		shifts[it.Designation] = x
	}
	ans := weigh(a, logs, t.logNone())
	t.say(&ans, shifts)
	return ans, nil
}

func rack(it catalogue.Item) (m, alpha float64) {
	dm, _ := it.Dim("m")
	da, _ := it.Dim("angle")
	return dm.Nominal, da.Nominal
}

// logNone is the log density for a gear whose module is in no table: the module
// that fits best stands for all, with the width over which it fits.
func (t tooth) logNone() float64 {
	terms := make([]float64, 0, len(noneAngles))
	for _, alpha := range noneAngles {
		var perM, value float64 // the reading that fixes the module: value = perM·m
		switch {
		case t.hasW && t.hasW1:
			perM, value = spur.BasePitch(1, alpha), t.wk1.Value-t.wk.Value
		case t.hasTip:
			perM, value = float64(t.z)+2, t.tip.Value
		default:
			perM, value = spur.Span(1, alpha, t.z, t.k, 0), t.wk.Value
		}
		m := value / perM
		if m < noneLeast || m > noneMost {
			continue
		}
		l := -math.Log(m*math.Log(noneMost/noneLeast)) - math.Log(perM)
		if t.z > 0 && t.hasW && (t.hasW1 || t.hasTip) {
			shape, _ := t.logShape(m, alpha)
			l += shape
			if !t.hasW1 { // the tip fixed the module and must not count again
				l += math.Log(t.tipU(m)) + halfLog2Pi
			}
		}
		terms = append(terms, l-math.Log(float64(len(noneAngles))))
	}
	return logSum(terms)
}

// toothOf takes the readings apart. Errors: AskError for counts that are not
// whole, a longer span that is not longer, and readings that need a count.
func toothOf(a Ask) (tooth, error) {
	t := tooth{wearMean: a.WearMean}
	if t.wearMean == 0 {
		t.wearMean = DefaultWear
	}
	for _, m := range a.Measured {
		switch m.Dim {
		case "z":
			t.z = int(m.Value)
		case "k":
			t.k = int(m.Value)
		case "Wk":
			t.wk, t.hasW = m, true
		case "Wk1":
			t.wk1, t.hasW1 = m, true
		case "da":
			t.tip, t.hasTip = m, true
		}
		if counted[m.Dim] && (m.Value != math.Trunc(m.Value) || m.Value < 1 || m.Value > 1000) {
			return t, AskError{m.Dim + " of the gear", num(m.Value), "a whole number from 1 to 1000"}
		}
	}
	return t, t.check()
}

func (t tooth) check() error {
	for _, m := range []Measured{t.wk, t.wk1, t.tip} {
		if m.Dim != "" && m.Value <= 0 {
			return AskError{m.Dim + " of the gear", num(m.Value), "above 0"}
		}
	}
	switch {
	case !t.hasW && t.hasW1:
		return AskError{"span over k+1 teeth", "given alone", "the span over k teeth with it"}
	case t.hasW && t.hasW1 && t.wk1.Value <= t.wk.Value:
		return AskError{"span over k+1 teeth", num(t.wk1.Value), "more than the span over k teeth, " + num(t.wk.Value)}
	case !t.hasW && !t.hasTip:
		return AskError{"what was measured on the gear", "counts only", "two spans or the tip diameter"}
	case t.hasTip && t.z == 0, t.hasW && !t.hasW1 && t.z == 0:
		return AskError{"number of teeth z", "not given", "a count: these readings mean nothing without it"}
	case t.hasW && t.z > 0 && t.k == 0:
		return AskError{"teeth within the span k", "not given", "a count, with z and Wk"}
	case t.z > 0 && t.z < 5, t.z > 0 && t.k >= t.z:
		return AskError{"counts of the gear", fmt.Sprintf("z %d, k %d", t.z, t.k), "z of 5 or more and k below z"}
	}
	return nil
}
