package bench

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestSizesAsTyped(t *testing.T) {
	rows := []struct {
		kind, typed, tool string
		value, u          float64
		worn              bool
		from              string
	}{
		{"ball bearing", "d=25.02", "", 25.02, 0.02, false, "usual for it, common practice"},
		{"Ball-Bearing", "d=25,02~", "", 25.02, 0.02, true, "usual for it, common practice"},
		{"ball", "d=25.02±0.005", "", 25.02, 0.005, false, "as typed"},
		{"ball", "d = 25.02 +/- 0.005 ~", "", 25.02, 0.005, true, "as typed"},
		{"ball", "d=0.985 in ± 0.001 in", "", 25.019, 0.0254, false, "as typed"},
		{"ball", "d=0.985±0.001 in", "", 25.019, 0.0254, false, "as typed"},
		{"ball", "d=0.985 in ± 1 thou", "", 25.019, 0.0254, false, "as typed"},
		{"ball", "d=63/64 in", "", 25.003125, 0.02, false, "usual for it, common practice"},
		// By hand: 0.1/√12 = 0.02887; half a millimetre, 0.14434.
		{"ball", "d=25.0", "", 25, 0.0288675, false, "the last figure typed"},
		{"ball", "d=25", "", 25, 0.1443376, false, "the last figure typed"},
		// By hand: micrometer ±0.002 as a rectangle, hand 0.0016, step 0.001 as one:
		// √(0.001155² + 0.0016² + 0.000289²) = 0.001994.
		{"ball", "d=25.021", "micrometer", 25.021, 0.001994, false, "outside micrometer 0.01, thousandths by vernier or eye"},
		{"thread", "pitch=20 tpi", "", 1.27, 0.002, false, "usual for it, common practice"},
		{"thread", "pitch=20 tpi ± 0.01", "", 1.27, 0.01, false, "as typed"},
		{"thread", "angle=60", "", 60, 1, false, "usual for it, common practice"},
		{"thread", "taper=1:16", "", 0.0625, 0.003, false, "usual for it, common practice"},
		{"gear", "z=32", "", 32, 0, false, "counted"},
		// By hand: ±0.003 as a rectangle, hand 0.0024, and the step typed, 0.01, as
		// one: √(0.001732² + 0.0024² + 0.002887²) = 0.004137.
		{"bore", "size=90.17", "bore-gauge-ring", 90.17, 0.004137, false, "bore gauge set in a ring"},
	}
	for _, r := range rows {
		_, got, err := TypedSizes{Kind: r.kind, Sizes: []string{r.typed}, Tool: r.tool}.Read()
		if err != nil {
			t.Errorf("%s %s: %v", r.kind, r.typed, err)
			continue
		}
		if s := got[0]; math.Abs(s.Value-r.value) > 1e-9 || math.Abs(s.U-r.u) > 1e-5 || s.Worn != r.worn || s.UFrom != r.from {
			t.Errorf("%s %s %s: %v, u %v, worn %v, %q", r.kind, r.typed, r.tool, s.Value, s.U, s.Worn, s.UFrom)
		}
	}
}

func TestSizesRefused(t *testing.T) {
	rows := []struct {
		in   TypedSizes
		want string
	}{
		{TypedSizes{Kind: "gizmo"}, `"gizmo" is no kind of standard part; choose one of ball bearing, `},
		{TypedSizes{Kind: ""}, "is no kind"},
		{TypedSizes{Kind: "circlip"}, `"circlip" may be circlip on shaft or circlip in bore; say which`},
		{TypedSizes{Kind: "ball", Sizes: []string{"x=2"}}, `"x=2" is no size of a ball bearing; write NAME=VALUE with one of d (bore), D (outside diameter), B (width)`},
		{TypedSizes{Kind: "ball", Sizes: []string{"25"}}, "write NAME=VALUE"},
		{TypedSizes{Kind: "ball", Sizes: []string{"d="}}, "d (bore): "},
		{TypedSizes{Kind: "ball", Sizes: []string{"d=25 kg"}}, "is a mass; a length was wanted"},
		{TypedSizes{Kind: "ball", Sizes: []string{"d=2 pints"}}, "d (bore): "},
		{TypedSizes{Kind: "ball", Sizes: []string{"d=25±x"}}, "d (bore): "},
		{TypedSizes{Kind: "ball", Sizes: []string{"d=25"}, Tool: "hammer"}, `"hammer" is no instrument for lengths; choose one of micrometer, `},
		{TypedSizes{Kind: "ball", Sizes: []string{"d=25"}, Tool: "multimeter-volt"}, "is no instrument for lengths"},
		{TypedSizes{Kind: "ball", Sizes: []string{"d=25"}, Worn: []string{"D"}}, `"D" is said to be worn`},
	}
	for _, r := range rows {
		_, _, err := r.in.Read()
		var in *InputError
		if !errors.As(err, &in) || !strings.Contains(in.Say, r.want) {
			t.Errorf("%+v: %v, want %q", r.in, err, r.want)
		}
	}
}
