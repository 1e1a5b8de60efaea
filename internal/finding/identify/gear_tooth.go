package identify

import (
	"math"

	spur "matchmark/internal/trade/gear"
)

// Beliefs about unknown gears. Half of them are cut without profile shift, the
// others with a shift of 0.35 or so either way; teeth are cut thinner than the
// theory by 0.02 modules for backlash; tips are turned to about 0.02 modules;
// neighbouring teeth differ by 0.01 mm. Common practice, no source.
const (
	shiftNone, shiftSome = 0.03, 0.35
	thinPerModule        = 0.02
	tipPerModule         = 0.02
	pitchError           = 0.01
)

// logShift is the log density of a profile shift beforehand.
func logShift(x, extra float64) float64 {
	return logSum([]float64{logNormal(x, math.Hypot(shiftNone, extra)), logNormal(x, math.Hypot(shiftSome, extra))}) - math.Ln2
}

// tooth is what was measured on a gear: z and k are 0 where not counted.
type tooth struct {
	z, k     int
	wk, wk1  Measured
	tip      Measured
	hasW     bool
	hasW1    bool
	hasTip   bool
	wearMean float64
}

// shift is a profile shift with its standard deviation.
type shift struct{ mean, sd float64 }

// logStep is the log density of the difference of the two spans.
func (t tooth) logStep(m, alpha float64) float64 {
	return logNormal(t.wk1.Value-t.wk.Value-spur.BasePitch(m, alpha), t.stepU())
}

func (t tooth) stepU() float64 { return math.Hypot(math.Hypot(t.wk.U, t.wk1.U), pitchError) }

// tipU is the standard deviation of the tip diameter about m(z + 2 + 2x).
func (t tooth) tipU(m float64) float64 {
	u := math.Hypot(t.tip.U, tipPerModule*m)
	if t.tip.Worn {
		u = math.Hypot(u, t.wearMean)
	}
	return u
}

// thinNodes is how many equal shares the thinning of the teeth is cut into.
const thinNodes = 16

// logShape is the log density of span and tip diameter for one rack, over all
// profile shifts, with the shift that follows. The span gives the shift but for
// what the teeth lost to backlash and wear, an exponential; the tip diameter
// then weighs each.
func (t tooth) logShape(m, alpha float64) (float64, shift) {
	if !t.hasW {
		return t.logTipAlone(m), shift{}
	}
	perX := 2 * m * math.Sin(alpha*math.Pi/180)
	at0 := (t.wk.Value - spur.Span(m, alpha, t.z, t.k, 0)) / perX
	tau := thinPerModule * m
	if t.wk.Worn {
		tau += t.wearMean
	}
	logs := make([]float64, 0, thinNodes*len(hermite))
	xs := make([]float64, 0, cap(logs))
	for i := range thinNodes {
		thin := -tau * math.Log(1-(float64(i)+0.5)/thinNodes)
		for _, node := range hermite {
			x := at0 + (thin+node[0]*t.wk.U)/perX
			l := math.Log(node[1]/thinNodes) + logShift(x, 0)
			if t.hasTip {
				l += logNormal(t.tip.Value-m*(float64(t.z)+2+2*x), t.tipU(m))
			}
			logs, xs = append(logs, l), append(xs, x)
		}
	}
	all := logSum(logs)
	return all - math.Log(perX), meanOf(xs, logs, all)
}

// logTipAlone is the log density of the tip diameter when no span is known.
func (t tooth) logTipAlone(m float64) float64 {
	if !t.hasTip {
		return 0
	}
	x := (t.tip.Value/m - float64(t.z) - 2) / 2
	return logShift(x, t.tipU(m)/(2*m)) - math.Log(2*m)
}

// meanOf is mean and standard deviation of values with log weights summing to all.
func meanOf(xs, logs []float64, all float64) shift {
	var s shift
	for i, x := range xs {
		s.mean += x * math.Exp(logs[i]-all)
	}
	for i, x := range xs {
		s.sd += (x - s.mean) * (x - s.mean) * math.Exp(logs[i]-all)
	}
	s.sd = math.Sqrt(s.sd)
	return s
}
