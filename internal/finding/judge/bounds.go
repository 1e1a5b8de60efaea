package judge

import (
	"cmp"
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
	low, high, newLow, newHigh string // as shown; empty where there is no bound
	hard                       bool   // Low is NewLow: a rebuilt fit below it is too tight
	crossed                    bool   // no value can keep to it
}

// shown parts the ruling limit from the others.
func (l limits) shown() (Bounds, []Bounds) {
	none := unbound(machine.Limit{})
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
func (b *bench) limits(c *machine.Check, s scale, step float64) limits {
	out := limits{ruling: -1}
	size := b.sizeOf(c, s)
	out.working = append(out.working, size.lines...)
	rebuilt := rebuilt(c)
	for _, l := range c.Limits {
		if !l.Known() {
			if l.Find != "" && out.wanted == "" {
				out.wanted = "find the limit: " + l.Find
			}
			continue
		}
		bd := b.workOut(c, l, size, rebuilt, decimals(step, 0))
		out.list = append(out.list, bd)
		if out.ruling < 0 && bd.Missing == "" || out.ruling < 0 && bd.crossed {
			out.ruling = len(out.list) - 1
			out.working = append(out.working, b.limitWorking(bd, l, s)...)
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

// unbound is a limit without bounds.
func unbound(l machine.Limit) Bounds {
	return Bounds{NewLow: math.Inf(-1), NewHigh: math.Inf(1), Low: math.Inf(-1), High: math.Inf(1),
		Words: limitWords(l), From: l.From, Source: l.Source}
}

// workOut evaluates the four formulas of a limit and says what the verdict is
// made against. digits are the places to print at least.
func (b *bench) workOut(c *machine.Check, l machine.Limit, size sizeValue, rebuilt bool, digits int) bounds {
	out := bounds{Bounds: unbound(l)}
	fields := []struct {
		text  string
		value *float64
		shown *string
	}{{l.NewLow, &out.NewLow, &out.newLow}, {l.NewHigh, &out.NewHigh, &out.newHigh}, {l.Low, &out.Low, &out.low}, {l.High, &out.High, &out.high}}
	for _, f := range fields {
		if f.text == "" {
			continue
		}
		v, used, err := b.eval(f.text, size)
		if err != nil {
			out = bounds{Bounds: unbound(l)}
			out.Missing = err.Error()
			return out
		}
		*f.value, *f.shown = v, shownBound(f.text, v, used, digits)
		if used {
			out.Size = size.words
		}
	}
	if l.NewLow+l.NewHigh+l.Low+l.High == "" {
		out.Missing = "it is in words only: " + out.Words
		return out
	}
	out.settleLow(c.By, l, rebuilt)
	out.checkOrder()
	return out
}

// settleLow says which bounds the verdict is made against: the wear limits;
// where there are none, the new ones; and on a rebuilt fit the new low as
// well. The zero of a magnitude is no bound, for nothing can be below it: of
// a form, wear or size always, of a direct reading the zero of a new part. A
// wear limit of zero means what it says, and a clearance can be below zero.
func (b *bounds) settleLow(by string, l machine.Limit, rebuilt bool) {
	newCounts := l.NewLow != "" && !(by == machine.ByReading && b.NewLow == 0)
	if l.Low == "" && l.High == "" {
		b.High, b.high = b.NewHigh, b.newHigh
		if newCounts {
			b.Low, b.low = b.NewLow, b.newLow
		}
	}
	if rebuilt && newCounts && b.NewLow >= b.Low {
		b.Low, b.low, b.hard = b.NewLow, b.newLow, true
	}
	if b.Low <= 0 && by != machine.ByClearance && by != machine.ByReading {
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
		b.Missing = fmt.Sprintf("its new low, %s, is above its new high, %s: correct the limit", b.newLow, b.newHigh)
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
	lines   []string
}

// parsed is a formula or its fault.
type parsed struct {
	formula.Expr
	names []string
	err   error
}

func (b *bench) parse(text string) parsed {
	p, known := b.formulas[text]
	if !known {
		p.Expr, p.err = formula.Parse(text)
		p.names = p.Vars()
		b.formulas[text] = p
	}
	return p
}

// eval works one bound out; used tells whether it needed the size.
// Errors: what to enter or to correct, in words.
func (b *bench) eval(text string, z sizeValue) (v float64, used bool, err error) {
	p := b.parse(text)
	used = len(p.names) > 0
	switch {
	case p.err != nil:
		return 0, false, fmt.Errorf("%v: correct the limit", p.err)
	case used && z.symbol == "":
		return 0, true, fmt.Errorf("formula %q: the check does not say what %s is: correct the check", text, p.names[0])
	case z.missing != "" && len(p.names) == 1 && p.names[0] == z.symbol:
		return 0, true, errors.New(z.missing)
	}
	v, err = p.Eval(map[string]float64{z.symbol: z.value})
	if err != nil {
		return 0, used, fmt.Errorf("%v: correct the limit", err)
	}
	return v, used, nil
}

// sizeOf finds the variable of a check's formulas: a feature's nominal size,
// else the one its unworn surface leaves no doubt of, else the mean of its
// present readings, else the value of a datum.
func (b *bench) sizeOf(c *machine.Check, s scale) sizeValue {
	if c.Size == nil {
		return sizeValue{}
	}
	z := sizeValue{symbol: c.Size.Symbol}
	ft := b.m.Feature(c.Size.Feature)
	if ft != nil && ft.Nominal != nil {
		return z.with(ft.Nominal.MM, fmt.Sprintf("%s mm, nominal, %s", figure(ft.Nominal.MM, 3), ft.Nominal.From))
	}
	if size, words, line := b.proposedSize(ft, c.Tool); words != "" {
		return z.with(size, words)
	} else if line != "" {
		z.lines = append(z.lines, line)
	}
	if ft != nil {
		if mean, ok := b.meanReading(c.Tool, ft); ok {
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
func (b *bench) meanReading(usual string, ft *machine.Feature) (float64, bool) {
	takes, _ := b.usable(ft.Current(), cmp.Or(ft.Tool, usual), b.scaleOf("mm"), true)
	sum := 0.0
	for _, t := range takes {
		sum += t.value
	}
	return sum / float64(max(len(takes), 1)), len(takes) > 0
}
