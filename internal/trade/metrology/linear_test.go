package metrology

import (
	"math"
	"math/rand/v2"
	"testing"

	"matchmark/internal/reftest"
)

// Second route to a stack: deck height less throw less rod, two of them read
// with one gauge and corrected by one setting, by simulation.
func TestLinearBySimulation(t *testing.T) {
	source := rand.New(rand.NewPCG(11, 12))
	const scale, setting = 0.004, 0.003
	alone := []float64{0.002, 0.005, 0.006}
	list := make([]Estimate, 3)
	for i, u := range []float64{math.Hypot(scale, setting), math.Hypot(scale, setting), 0} {
		list[i] = Estimate{Value: float64(100 * (i + 1)), U: math.Hypot(alone[i], u)}
	}
	for _, times := range [][]float64{{1, -1, -1}, {1, 1, 1}, {1, -0.5, 2}, {0, 1, -1}} {
		sum := 0.0
		for range draws {
			s, k := scale*source.NormFloat64(), setting*source.NormFloat64()
			d := times[2] * alone[2] * source.NormFloat64()
			for i := range 2 {
				d += times[i] * (s + k + alone[i]*source.NormFloat64())
			}
			sum += d * d
		}
		e := reftest.Must[Estimate](t)(Linear(list, times, func(i, j int) float64 {
			if j == 2 {
				return 0
			}
			return math.Hypot(scale, setting)
		}))
		if got := math.Sqrt(sum / draws); !within(got, e.U, e.U/math.Sqrt2, draws) {
			t.Errorf("%v: simulated %g, computed %g", times, got, e.U)
		}
		if want := 100*times[0] + 200*times[1] + 300*times[2]; math.Abs(e.Value-want) > 1e-9 {
			t.Errorf("%v: value %g, want %g", times, e.Value, want)
		}
	}
}

// The few degrees of freedom of a hand stay with the hand when the scale
// cancels. By hand: two readings of one gauge, scale 3, hand 4 with 8 degrees,
// so each has u 5 and 8·(5/4)⁴ = 19.53; the difference is √2·4 with 16.
func TestDifferenceFreedom(t *testing.T) {
	one := Estimate{U: 5, Dof: 8 * math.Pow(5.0/4, 4)}
	d := reftest.Must[Estimate](t)(Difference(one, one, 3))
	if math.Abs(d.U-4*math.Sqrt2) > 1e-12 || math.Abs(d.Dof-16) > 1e-9 {
		t.Errorf("got %+v, want u %.4f with 16", d, 4*math.Sqrt2)
	}
	// Nothing shared: 19.53 each, u √50: 2500/(2·625/19.53) = 39.06.
	if d = reftest.Must[Estimate](t)(Difference(one, one, 0)); math.Abs(d.Dof-39.0625) > 1e-9 {
		t.Errorf("apart: %+v", d)
	}
}

// A setting piece of 50.000 ± 0.001 that reads 50.003: 0.003 too much. By hand
// u² = 0.001² + 0.002² + 0.006²/12 = 8e-6.
func TestSettingShift(t *testing.T) {
	in := Instrument{ID: "own", Step: 0.006, HalfWidth: 0.1, Repeat: 0.002}
	e := reftest.Must[Estimate](t)(SettingShift(Estimate{Value: 50, U: 0.001}, 50.003, in))
	if math.Abs(e.Value-0.003) > 1e-12 || math.Abs(e.U*e.U-8e-6) > 1e-15 {
		t.Errorf("%+v", e)
	}
	// Welch-Satterthwaite by hand: u⁴/(0.002⁴/8) = 64e-12/2e-12 = 32.
	if math.Abs(e.Dof-32) > 1e-6 {
		t.Errorf("degrees of freedom %g", e.Dof)
	}
	if _, err := SettingShift(Estimate{Value: 50}, math.NaN(), in); err == nil {
		t.Error("a reading that is no number was taken")
	}
}

// A piece at 5 °C is what ToReference brings back to its size.
func TestAtTemperature(t *testing.T) {
	steel, _ := MaterialByID("steel")
	cold := Estimate{Value: 5, U: 0.5}
	at := reftest.Must[Estimate](t)(AtTemperature(Estimate{Value: 80}, steel, cold))
	// By hand: 80·11.5e-6·(−15) = −0.0138.
	if math.Abs(at.Value-79.9862) > 1e-9 {
		t.Errorf("%+v", at)
	}
	back := reftest.Must[Estimate](t)(ToReference(Estimate{Value: at.Value}, steel, cold))
	if math.Abs(back.Value-80) > 1e-12 || math.Abs(back.U-at.U) > 1e-3*at.U {
		t.Errorf("there %+v and back %+v", at, back)
	}
}
