package judge

import (
	"errors"
	"fmt"
	"math"

	"matchmark/internal/machine"
	"matchmark/internal/trade/formula"
	"matchmark/internal/trade/quantity"
)

// limits are the limits of a check worked out, best provenance first.
type limits struct {
	list    []bounds
	ruling  int // index in list, -1 where none can rule
	wanted  string
	working []string
}

// bounds is one limit with its formulas worked out and its figures as text.
type bounds struct {
	Bounds
	low, high, newHigh string // as shown; empty where there is no bound
	hard               bool   // Low is NewLow: a rebuilt fit below it is too tight
	crossed            bool   // no value can keep to it
}

// shown parts the ruling limit from the others.
func (l limits) shown() (Bounds, []Bounds) {
	none := Bounds{NewLow: math.Inf(-1), NewHigh: math.Inf(1), Low: math.Inf(-1), High: math.Inf(1)}
	var others []Bounds
	for i, b := range l.list {
		if i == l.ruling {
			none = b.Bounds
		} else {
			others = append(others, b.Bounds)
		}
	}
	return none, others
}

// limits works out every known limit of a check. The first whose formulas can
// be worked out rules; one whose low lies above its high rules as well, so
// that it is corrected rather than passed over, and then nothing can be judged.
func (b *bench) limits(c *machine.Check, s scale) limits {
	out := limits{ruling: -1}
	size := b.sizeOf(c, s)
	rebuilt := rebuilt(c)
	for _, l := range c.Limits {
		if !l.Known() {
			if l.Find != "" && out.wanted == "" {
				out.wanted = "find the limit: " + l.Find
			}
			continue
		}
		bd := workOut(c, l, size, rebuilt)
		out.list = append(out.list, bd)
		if out.ruling < 0 && bd.Missing == "" || out.ruling < 0 && bd.crossed {
			out.ruling = len(out.list) - 1
			out.working = append(out.working, bd.words(l, s)...)
			if bd.crossed {
				out.wanted = bd.Missing
			}
			continue
		}
		if bd.Missing != "" {
			out.working = append(out.working, fmt.Sprintf("limit, %s: %s", bd.From, bd.Missing))
			if out.wanted == "" {
				out.wanted = bd.Missing
			}
		}
	}
	return out
}

// rebuilt tells whether the fit is a new one: remade, reworked or renewed.
func rebuilt(c *machine.Check) bool {
	if len(c.Done) > 0 {
		return true
	}
	for _, ft := range []*machine.Feature{c.Outer, c.Inner} {
		if ft != nil && (ft.Version > 0 || ft.Part != nil && ft.Part.Version > 0) {
			return true
		}
	}
	for _, p := range c.Parts {
		if p.Version > 0 {
			return true
		}
	}
	return false
}

// workOut evaluates the four formulas of a limit and says what the verdict is
// made against.
func workOut(c *machine.Check, l machine.Limit, size sizeValue, rebuilt bool) bounds {
	out := bounds{Bounds: Bounds{NewLow: math.Inf(-1), NewHigh: math.Inf(1), Low: math.Inf(-1), High: math.Inf(1),
		Words: limitWords(l), From: l.From, Source: l.Source}}
	var newLow string
	fields := []struct {
		text  string
		value *float64
		shown *string
	}{{l.NewLow, &out.NewLow, &newLow}, {l.NewHigh, &out.NewHigh, &out.newHigh}, {l.Low, &out.Low, &out.low}, {l.High, &out.High, &out.high}}
	for _, f := range fields {
		if f.text == "" {
			continue
		}
		v, used, err := size.eval(f.text)
		if err != nil {
			return bounds{Bounds: Bounds{NewLow: math.Inf(-1), NewHigh: math.Inf(1), Low: math.Inf(-1), High: math.Inf(1),
				Words: out.Words, From: l.From, Source: l.Source, Missing: err.Error()}}
		}
		*f.value, *f.shown = v, shownBound(f.text, v, used)
		if used {
			out.Size = size.words
		}
	}
	if l.NewLow+l.NewHigh+l.Low+l.High == "" {
		out.Missing = "it is in words only: " + out.Words
		return out
	}
	if l.Low == "" && l.High == "" { // only a new limit is known: it is the limit
		out.Low, out.High, out.low, out.high = out.NewLow, out.NewHigh, newLow, out.newHigh
	}
	if rebuilt && out.NewLow >= out.Low && l.NewLow != "" {
		out.Low, out.low, out.hard = out.NewLow, newLow, true
	}
	out.dropNothing(c.By)
	out.checkOrder()
	return out
}

// dropNothing takes out a low bound that no value can be below: the zero of a
// magnitude. A clearance can be below zero, so its zero stays; of a direct
// reading only the zero of a new part is taken out, for a stand-proud of zero
// as a wear limit means what it says.
func (b *bounds) dropNothing(by string) {
	drop := false
	switch by {
	case machine.ByOval, machine.ByTaper, machine.ByWear, machine.BySize:
		drop = b.Low <= 0
	case machine.ByReading:
		drop = b.Low == 0 && b.NewLow == 0
	}
	if drop {
		b.Low, b.low, b.hard = math.Inf(-1), "", false
	}
}

// checkOrder finds limits that no value can keep to.
func (b *bounds) checkOrder() {
	switch {
	case b.Low > b.High:
		b.Missing = fmt.Sprintf("its low, %s, is above its high, %s: correct the limit", b.low, b.high)
		b.crossed = true
	case b.NewLow > b.NewHigh:
		b.Missing = fmt.Sprintf("its new low, %s, is above its new high, %s: correct the limit", tiny(b.NewLow), tiny(b.NewHigh))
		b.crossed = true
	case math.IsInf(b.Low, -1) && math.IsInf(b.High, 1):
		b.Missing = "it sets no bound that could be passed"
	}
}

// sizeValue is the variable of a check's formulas. It has a value only where
// missing is empty.
type sizeValue struct {
	symbol  string
	value   float64
	words   string // "d = 41.990 mm, measured"
	missing string // "enter system volts"
}

// eval works one bound out; used tells whether it needed the size.
// Errors: what to enter or to correct, in words.
func (z sizeValue) eval(text string) (v float64, used bool, err error) {
	e, err := formula.Parse(text)
	if err != nil {
		return 0, false, fmt.Errorf("%v: correct the limit", err)
	}
	names := e.Vars()
	used = len(names) > 0
	if !used {
		v, err = e.Eval(nil)
	} else if z.symbol == "" {
		return 0, true, fmt.Errorf("formula %q: the check does not say what %s is: correct the check", text, names[0])
	} else if z.missing != "" && len(names) == 1 && names[0] == z.symbol {
		return 0, true, errors.New(z.missing)
	} else {
		v, err = e.Eval(map[string]float64{z.symbol: z.value})
	}
	if err != nil {
		return 0, used, fmt.Errorf("%v: correct the limit", err)
	}
	return v, used, nil
}

// sizeOf finds the variable of a check's formulas: a feature's nominal size,
// else the mean of its present readings, else the value of a datum.
func (b *bench) sizeOf(c *machine.Check, s scale) sizeValue {
	if c.Size == nil {
		return sizeValue{}
	}
	z := sizeValue{symbol: c.Size.Symbol}
	ft := b.m.Feature(c.Size.Feature)
	if ft != nil && ft.Nominal != nil {
		return z.with(ft.Nominal.MM, fmt.Sprintf("%s mm, nominal, %s", figure(ft.Nominal.MM, 3), ft.Nominal.From))
	}
	if ft != nil {
		if mean, ok := b.meanReading(c, ft); ok {
			return z.with(mean, figure(mean, 3)+" mm, measured")
		}
	}
	d := b.m.Datum(c.Size.Datum)
	if d != nil && d.Value != nil {
		v := *d.Value
		// A datum is kept in its own unit; formulas give the check's.
		if other, err := quantity.Convert(v, s.dim, d.Unit, s.unit); !s.plain() && d.Unit != "" && d.Unit != s.unit && err == nil {
			v = other
		}
		from := ""
		if d.From != "" {
			from = ", " + string(d.From)
		}
		return z.with(v, figure(*d.Value, -1)+space(d.Unit)+from)
	}
	z.missing = missingSize(c.Size, ft, d)
	return z
}

func (z sizeValue) with(v float64, words string) sizeValue {
	z.value, z.words = v, z.symbol+" = "+words
	return z
}

// meanReading is the mean of a feature's present readings in mm.
func (b *bench) meanReading(c *machine.Check, ft *machine.Feature) (float64, bool) {
	takes, _ := b.usable(ft.Current(), ft.Tool, b.scaleOf("mm"), true)
	sum := 0.0
	for _, t := range takes {
		sum += t.value
	}
	return sum / float64(max(len(takes), 1)), len(takes) > 0
}
