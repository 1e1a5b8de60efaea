package quantity

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// printable draws a unit that prints a symbol.
func printable(t *rapid.T) unit {
	u := rapid.SampledFrom(units).Draw(t, "unit")
	if u.symbol == "" {
		t.Skip("plain number")
	}
	return u
}

func TestReadPrintRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := printable(t)
		v := rapid.Float64Range(1e-3, 1e6).Draw(t, "value")
		text := Format(v, u.dim, u.symbol, -1)
		q, err := Parse(text, u.dim, "")
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		again := Format(q.Value, q.Dim, q.Unit, -1)
		// The first printing rounds to a float of the typed unit; an offset
		// of up to 460 degrees can cost that much of the last place.
		if tol := 1e-15*math.Abs(v) + 2e-13*offset(u); math.Abs(q.Value-v) > tol {
			t.Errorf("%v → %q → %v → %q", v, text, q.Value, again)
		}
	})
}

// offset is 1 for units with a zero of their own.
func offset(u unit) float64 {
	if u.add != nil {
		return 1
	}
	return 0
}

func TestCommaIsPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strconv.FormatFloat(rapid.Float64Range(-1e6, 1e6).Draw(t, "value"), 'f',
			rapid.IntRange(1, 6).Draw(t, "digits"), 64)
		a, errA := Parse(text, Length, "mm")
		b, errB := Parse(strings.Replace(text, ".", ",", 1), Length, "mm")
		if errA != nil || errB != nil || a.Value != b.Value || a.Step != b.Step {
			t.Errorf("%q: %+v (%v), with comma %+v (%v)", text, a, errA, b, errB)
		}
		if want, _ := strconv.ParseFloat(text, 64); a.Value != want {
			t.Errorf("%q: got %v, want %v", text, a.Value, want)
		}
	})
}

func TestUnitChangeRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := printable(t), rapid.SampledFrom(units).Draw(t, "other")
		if a.dim != b.dim {
			t.Skip("another dimension")
		}
		v := rapid.Float64Range(0.01, 1e5).Draw(t, "value")
		there, err := Convert(v, a.dim, a.symbol, b.symbol)
		if err != nil {
			t.Fatal(err)
		}
		back, err := Convert(there, a.dim, b.symbol, a.symbol)
		if err != nil || math.Abs(back-v) > 4e-16*math.Abs(v)+2e-13*max(offset(a), offset(b)) {
			t.Errorf("%v %s → %v %s → %v, %v", v, a.symbol, there, b.symbol, back, err)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{"52,013", `1 1/2"`, "5.5 kgf·m", "40 ft-lbf", "28 kgf/cm²", "15 PS", "Ra 0.4",
		"22:1", "1e-3 mm", "1.234,5 mm", "½ in", "-40 °F", "0.3 0.05", "\u22121 mm", "1\u202f234 rpm", "5 1/min", "NaN", "''"} {
		for i := range dimensions {
			f.Add(seed, i, "mm")
		}
	}
	f.Fuzz(func(t *testing.T, text string, which int, deflt string) {
		want := AnyDimension
		if which >= 0 {
			want = dimensions[which%len(dimensions)].dim
		}
		q, err := Parse(text, want, deflt)
		if err != nil {
			if err.Error() == "" {
				t.Errorf("%q: empty error", text)
			}
			return
		}
		if math.IsNaN(q.Value) || math.IsInf(q.Value, 0) || !(q.Step > 0) || math.IsInf(q.Step, 0) {
			t.Errorf("%q: %+v", text, q)
		}
		if want != AnyDimension && q.Dim != want {
			t.Errorf("%q: %s, want %s", text, q.Dim, want)
		}
		Format(q.Value, q.Dim, q.Unit, 3)
	})
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, err := Parse("5.5 kgf·m", Torque, ""); err != nil {
			b.Fatal(err)
		}
	}
}
