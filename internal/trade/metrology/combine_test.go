package metrology

import (
	"math"
	"strings"
	"testing"

	"matchmark/internal/reftest"

	"pgregory.net/rapid"
)

// Twice the standard uncertainty of one reading must give the trade's U at
// 95 %, to a tenth: "common practice, no source".
func TestTradeFigures(t *testing.T) {
	var rows []reftest.Row[string]
	for _, f := range []struct {
		id string
		u  float64
	}{{"micrometer", 0.004}, {"bore-gauge-ring", 0.006}, {"bore-gauge-micrometer", 0.010}, {"dial", 0.010},
		{"feeler", 0.02}, {"plastic-strip", 0.012}, {"vernier", 0.03}, {"rule", 0.5}} {
		rows = append(rows, reftest.Row[string]{ID: f.id, In: f.id, Want: f.u, Tol: 0.02 * f.u,
			Source: "U at 95 %, common practice, no source; two hundredths for the rounded parts", Kind: reftest.Memory})
	}
	reftest.Run(t, rows, func(id string) (float64, error) {
		in, ok := InstrumentByID(id)
		if !ok {
			return 0, RangeError{"instrument " + id, 0, "one of the library"}
		}
		return 2 * in.Single(50).U, nil
	})
}

func TestLibraryIsWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, in := range Instruments() {
		if in.ID == "" || seen[in.ID] || in.Name == "" || in.Kind == "" || in.Unit == "" || in.Source == "" {
			t.Errorf("incomplete or twice: %+v", in)
		}
		seen[in.ID] = true
		if err := in.Check(); err != nil {
			t.Error(err)
		}
		if e := in.Single(10); e.Check() != nil || !(e.U > 0) {
			t.Errorf("%s: one reading %+v", in.ID, e)
		}
	}
	for _, in := range Instruments() {
		if in.SetBy != "" && !seen[in.SetBy] {
			t.Errorf("%s is set by %s, which is not listed", in.ID, in.SetBy)
		}
	}
	for _, m := range Materials() {
		if m.Source == "" || !(m.PerK > 0) || !(m.UPerK > 0) {
			t.Errorf("incomplete: %+v", m)
		}
	}
}

func TestCombineByHand(t *testing.T) {
	// By hand: s² of the five is 7e-5; pooled with 0.002² by 8 degrees:
	// (8·4e-6 + 4·7e-5)/12 = 2.6e-5; over 5 is 5.2e-6. Limit of error
	// 0.003²/3 = 3e-6, step 0.01²/12 = 8.3333e-6. Sum 1.65333e-5.
	in := Instrument{ID: "own", Step: 0.01, HalfWidth: 0.003, Repeat: 0.002}
	r := reftest.Must[Result](t)(Combine([]float64{82.03, 82.04, 82.03, 82.05, 82.04}, in))
	if math.Abs(r.Value-82.038) > 1e-9 || math.Abs(r.U*r.U-1.653333e-5) > 1e-11 {
		t.Errorf("got %+v", r)
	}
	// Welch-Satterthwaite by hand: 12·(1.65333e-5/5.2e-6)² = 121.31.
	if math.Abs(r.Dof-121.31) > 0.01 {
		t.Errorf("degrees of freedom %g", r.Dof)
	}
	if !r.TooSpread {
		t.Error("a spread of 0.02 on an instrument good to 0.0078 was not remarked")
	}
	one := reftest.Must[Result](t)(Combine([]float64{82.03}, in))
	if one.U != in.Single(82.03).U || one.TooSpread {
		t.Errorf("one reading: %+v, want u %g", one, in.Single(82.03).U)
	}
}

func TestCombineRefuses(t *testing.T) {
	good, _ := InstrumentByID("dial")
	for _, readings := range [][]float64{nil, {math.NaN()}, {1, math.Inf(1)}} {
		if _, err := Combine(readings, good); err == nil {
			t.Errorf("%v was taken", readings)
		}
	}
	if _, err := Combine([]float64{1}, Instrument{Step: -1}); err == nil || !strings.Contains(err.Error(), "step") {
		t.Errorf("a negative step: %v", err)
	}
	if _, err := TypeA([]float64{1}); err == nil {
		t.Error("scatter was made from one reading")
	}
}

func TestCombineProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.SampledFrom(Instruments()).Draw(t, "instrument")
		readings := rapid.SliceOfN(rapid.Float64Range(1, 100), 1, 8).Draw(t, "readings")
		r, err := Combine(readings, in)
		if err != nil || r.U < r.Fixed*(1-1e-12) {
			t.Fatalf("%+v, %v", r, err)
		}
		mirrored := make([]float64, len(readings))
		for i, x := range readings {
			mirrored[len(readings)-1-i] = x
		}
		m, _ := Combine(mirrored, in)
		if math.Abs(m.Value-r.Value) > 1e-12*100 || math.Abs(m.U-r.U) > 1e-9*r.U {
			t.Errorf("order changed the result: %+v, %+v", r, m)
		}
	})
}

func TestSharedError(t *testing.T) {
	mic, _ := InstrumentByID("micrometer")
	bore, _ := InstrumentByID("bore-gauge-micrometer")
	ring, _ := InstrumentByID("bore-gauge-ring")
	want := FromHalfWidth(0.002)
	if SharedError(mic, bore) != want || SharedError(bore, mic) != want || SharedError(mic, mic) != want {
		t.Errorf("set by micrometer: %g, want %g", SharedError(mic, bore), want)
	}
	if SharedError(mic, ring) != 0 || SharedError(Instrument{}, Instrument{}) != 0 {
		t.Error("independent instruments share nothing")
	}
	// The clearance so measured is surer than with independent errors.
	a, b := mic.Single(49.985), bore.Single(50.045)
	together := reftest.Must[Estimate](t)(Difference(b, a, SharedError(mic, bore)))
	apart := reftest.Must[Estimate](t)(Difference(b, a, 0))
	if !(together.U < apart.U) || math.Abs(together.Value-0.060) > 1e-9 {
		t.Errorf("together %+v, apart %+v", together, apart)
	}
}

func TestReadTo(t *testing.T) {
	in := Instrument{Step: 0.01}
	for step, want := range map[float64]float64{0.001: 0.001, 0.0001: 0.001, 0.02: 0.02, 0: 0.01, -1: 0.01} {
		if got := in.ReadTo(step).Step; math.Abs(got-want) > 1e-15 {
			t.Errorf("ReadTo(%g): step %g, want %g", step, got, want)
		}
	}
}

// The false tightness that temperature makes: an aluminium piston of 75 mm
// and its iron bore at 30 °C read 0.017 and 0.008 too large, 0.009 apart
// (common practice; 75·10·(23 − 10.5)e-6 = 0.0094 by hand).
func TestTemperatureOfPistonAndBore(t *testing.T) {
	al, _ := MaterialByID("aluminium")
	iron, _ := MaterialByID("cast-iron")
	if got := Expansion(75, al.PerK, 30) - Expansion(75, iron.PerK, 30); math.Abs(got-0.009375) > 1e-12 {
		t.Errorf("false tightness %g", got)
	}
	for _, celsius := range []float64{math.NaN(), -300, 2000} {
		if _, err := ToReference(Estimate{Value: 75}, al, Estimate{Value: celsius}); err == nil {
			t.Errorf("%g °C was taken", celsius)
		}
	}
}

func TestWeightedStack(t *testing.T) {
	// By hand: 2·1.5 − 3 = 0; u² = (2·0.03)² + 0.08² = 0.01.
	e := reftest.Must[Estimate](t)(Weighted([]Estimate{{1.5, 0.03, 0}, {3, 0.08, 0}}, []float64{2, -1}))
	if math.Abs(e.Value) > 1e-15 || math.Abs(e.U-0.1) > 1e-15 || e.Dof != 0 {
		t.Errorf("got %+v", e)
	}
	if _, err := Weighted([]Estimate{{}}, nil); err == nil {
		t.Error("unequal lengths were taken")
	}
}

func TestFormRefuses(t *testing.T) {
	for _, f := range []Form{{}, {[][]float64{{}}}, {[][]float64{{1, 2}, {1}}}, {[][]float64{{math.NaN()}}}} {
		if _, err := f.Taper(); err == nil {
			t.Errorf("%+v was taken", f)
		}
	}
	if _, err := FindOutlier([]float64{1, 2}, 0.05); err == nil {
		t.Error("an outlier was sought among two")
	}
	if o := reftest.Must[Outlier](t)(FindOutlier([]float64{1, 1, 1}, 0.05)); o.Suspect {
		t.Error("equal readings have a suspect")
	}
}
