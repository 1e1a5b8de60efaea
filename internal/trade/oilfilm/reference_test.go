package oilfilm

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"matchmark/internal/reftest"
)

var figure = regexp.MustCompile(`[-+]?\d+(?:\.\d+)?(?:e[-+]?\d+)?`)

// numbers finds the figures of a text in order; the 0 of "h0" is none.
func numbers(t *testing.T, text string) []float64 {
	t.Helper()
	return reftest.Figures(t, figure, text)
}

// shigley is the journal of examples 12-1 to 12-4 in metric units: µ 4 µreyn,
// 30 rev/s, 500 lbf, r 0.75, c 0.0015, l 1.5 in. All from memory.
var shigley = Journal{38.1, 38.1, 0.0762}
var shigleyDuty = Duty{RPM: 1800, LoadN: 500 * 4.4482216152605, ViscosityMPaS: 4 * 6.894757293168}

// notUsed are rows that no function here answers, with the reason.
var notUsed = map[string]string{
	"JRN-037": "a rule of thumb for clearance, common practice: it is a limit of the kits, not a function",
	"JRN-038": "a usual wear limit, range only, never pass or fail: a limit of the kits",
}

// TestSharedJournal walks 6_journal.csv. JRN-001 to 022 are from memory in the
// file; the second route of reynolds_test.go confirms them. JRN-023 to 036 are
// arithmetic redone from the formula, no outside figure.
func TestSharedJournal(t *testing.T) {
	tab := reftest.Load(t, "reference/6_journal.csv")
	for _, id := range tab.IDs {
		if why, skip := notUsed[id]; skip {
			tab.List(t, why, id)
			continue
		}
		rec := tab.Row(t, id)
		in, want := numbers(t, rec["inputs"]), numbers(t, rec["expected"])
		var err error
		switch q := rec["quantity"]; {
		case q == "Raimondi-Boyd table point":
			err = tablePoint(in, want)
		case id == "JRN-023" || id == "JRN-024":
			err = trumplerRow(in[0]*25.4, want[1])
		case q == "Trumpler criteria": // at 1 inch
			err = trumplerRow(25.4, want[0]*25400+want[1]*25400)
		case q == "short bearing (Ocvirk)":
			err = shortRow(in[0], want[len(want)-2], want[len(want)-1])
		case q == "Petroff friction":
			err = petroffRow(in, want[0])
		case strings.HasPrefix(q, "oil film worked"):
			err = workedRow(in, want)
		case id == "JRN-039":
			err = near("1 ureyn", shigleyDuty.ViscosityMPaS/4, want[0], 1e-4*want[0])
		default:
			err = exampleRow(id, want)
		}
		if err != nil {
			tab.Fail(t, id, err.Error())
		}
	}
	tab.Report(t)
}

func near(what string, got, want, tol float64) error {
	if !reftest.Near(got, want, tol) {
		return fmt.Errorf("%s: got %.5g, want %.5g within %.2g", what, got, want, tol)
	}
	return nil
}

func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// tablePoint runs a real bearing with the point's S through Film and wants the
// point back: inputs L/D, h0/c and eccentricity; expected S, attitude, friction
// and flow. friction follows S by a formula, and the published S at L/D 1, eccentricity
// 0.4 is 1.4 % above the one that Reynolds' equation and the friction give.
func tablePoint(in, want []float64) error {
	j := Journal{40, 40 * in[0], 0.04}
	d := Duty{RPM: 1500, ViscosityMPaS: 20}
	d.LoadN = 1000 * 1000 * d.ViscosityMPaS * 1e-9 * 25 / want[0] * j.DiameterMM * j.LengthMM
	f, err := j.Film(d)
	if err != nil {
		return err
	}
	flow := f.FlowMM3S / (20 * 0.02 * 25 * j.LengthMM)
	return first(near("h0/c", f.LeastUM/20, in[1], 0.002), near("attitude", f.AttitudeDeg, want[1], 0.2),
		near("(R/c)f", f.Friction*1000, want[2], 0.015*want[2]), near("flow", flow, want[3], 0.01))
}

func trumplerRow(diameterMM, wantUM float64) error {
	got, err := Trumpler(diameterMM)
	return first(err, near("Trumpler film, µm", got, wantUM, 0.005))
}

func shortRow(e, s, attitude float64) error {
	gotS, gotA, err := Short(e)
	return first(err, near("S(L/D)²", gotS, s, 0.5e-5), near("attitude", gotA, attitude, 0.5e-3))
}

// petroffRow: µ in Pa·s, N in rev/s, P in Pa, R/c.
func petroffRow(in []float64, want float64) error {
	j := Journal{50, 25, 50 / in[len(in)-1]}
	got, err := j.Petroff(Duty{RPM: in[1] * 60, ViscosityMPaS: in[0] * 1000, LoadN: in[2] * 1e-6 * 50 * 25})
	return first(err, near("friction", got, want, 1e-6))
}

// workedRow: the row's clearance is radial; its eccentricity is read along a
// straight line between table points, hence its own tolerance of 0.03.
func workedRow(in, want []float64) error {
	j := Journal{in[0], in[1], 2 * in[2] / 1000}
	f, err := j.Film(Duty{RPM: in[4], LoadN: in[5], ViscosityMPaS: in[3] * 1000})
	return first(err, near("S", f.S, want[0], 0.001*want[0]), near("eccentricity", f.Eccentricity, want[1], 0.03),
		near("h0", f.LeastUM, want[2], 0.03*j.ClearanceMM*500))
}

// exampleRow: JRN-017 to 021, from memory, tolerances of the rows.
func exampleRow(id string, want []float64) error {
	f, err := shigley.Film(shigleyDuty)
	if err != nil {
		return err
	}
	const cubicInch = 25.4 * 25.4 * 25.4
	switch id {
	case "JRN-017":
		return first(near("P, psi", f.MeanMPa/0.006894757, want[0], 0.01*want[0]), near("S", f.S, want[1], 0.01*want[1]), near("l/d", f.LengthRatio, 1, 1e-12))
	case "JRN-018":
		return first(near("h0/c", f.LeastUM/38.1, want[0], 0.03*want[0]), near("h0, in", f.LeastUM/25400, want[1], 0.03*want[1]), near("eccentricity", f.Eccentricity, want[2], 0.03*want[2]))
	case "JRN-019":
		return first(near("(r/c)f", f.Friction*500, want[0], 0.03*want[0]), near("f", f.Friction, want[1], 0.03*want[1]),
			near("torque, lbf in", f.TorqueNM*8.850746, want[2], 0.03*want[2]), near("power, hp", f.LossW/745.7, want[3], 0.03*want[3]))
	case "JRN-020":
		return first(near("Q, in³/s", f.FlowMM3S/cubicInch, want[1], 0.03*want[1]), near("Qs/Q", f.SideMM3S/f.FlowMM3S, want[2], 0.03*want[2]),
			near("side, in³/s", f.SideMM3S/cubicInch, want[3], 0.03*want[3]))
	case "JRN-021":
		return first(near("P/pmax", f.MeanMPa/f.PeakMPa, want[0], 0.03*want[0]), near("pmax, psi", f.PeakMPa/0.006894757, want[1], 0.03*want[1]))
	}
	return fmt.Errorf("no function answers this row; answer it or list it with a reason")
}
