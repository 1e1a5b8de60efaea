package formula

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"matchmark/internal/reftest"
	"pgregory.net/rapid"
)

type in struct {
	text string
	vars map[string]float64
}

func TestEval(t *testing.T) {
	shaft := map[string]float64{"d": 42, "D": 82, "p0": 120, "Vn": 12}
	rows := []reftest.Row[in]{
		{ID: "plain", In: in{"-0.005", nil}, Want: -0.005, Source: "by hand", Kind: reftest.ByHand},
		{ID: "size", In: in{"0.0014*d", shaft}, Want: 0.0588, Tol: 1e-16, Source: "by hand: 0.0014 × 42", Kind: reftest.ByHand},
		{ID: "case", In: in{"D - d", shaft}, Want: 40, Source: "by hand: 82 − 42", Kind: reftest.ByHand},
		{ID: "pressure", In: in{"0.85*p0", shaft}, Want: 102, Tol: 1e-13, Source: "by hand: 0.85 × 120", Kind: reftest.ByHand},
		{ID: "volts", In: in{"1.05*Vn", shaft}, Want: 12.6, Tol: 1e-14, Source: "by hand: 1.05 × 12", Kind: reftest.ByHand},
		{ID: "left to right", In: in{"20-6-4", nil}, Want: 10, Source: "by hand: (20−6)−4; the other way is 18", Kind: reftest.ByHand},
		{ID: "divide left to right", In: in{"80/4/2", nil}, Want: 10, Source: "by hand: (80/4)/2; the other way is 40", Kind: reftest.ByHand},
		{ID: "rank", In: in{"2+3*4", nil}, Want: 14, Source: "by hand: product before sum", Kind: reftest.ByHand},
		{ID: "brackets", In: in{"(2+3)*4", nil}, Want: 20, Source: "by hand", Kind: reftest.ByHand},
		{ID: "sign of product", In: in{"-2*-3", nil}, Want: 6, Source: "by hand", Kind: reftest.ByHand},
		{ID: "sign before bracket", In: in{"-(2-5)", nil}, Want: 3, Source: "by hand", Kind: reftest.ByHand},
		{ID: "double sign", In: in{"1 - -1", nil}, Want: 2, Source: "by hand", Kind: reftest.ByHand},
		{ID: "power of ten", In: in{"2e-3*d", shaft}, Want: 0.084, Tol: 1e-16, Source: "by hand: 0.002 × 42", Kind: reftest.ByHand},
		{ID: "point first", In: in{".5", nil}, Want: 0.5, Source: "by hand", Kind: reftest.ByHand},
		{ID: "letter", In: in{"µ1*2", map[string]float64{"µ1": 3}}, Want: 6, Source: "by hand", Kind: reftest.ByHand},
	}
	reftest.Run(t, rows, func(i in) (float64, error) { return Value(i.text, i.vars) })
}

func TestFaultColumns(t *testing.T) {
	for _, c := range []struct {
		text   string
		column int
		word   string
	}{
		{"", 1, "missing"}, {"  ", 3, "missing"}, {"2d", 2, "operator"}, {"0,5*d", 2, "comma"},
		{"(1+2", 5, "closing bracket is missing"}, {"1+2)", 4, "without an opening"}, {"1*/2", 3, "not \"/\""},
		{"1+", 3, "missing"}, {"a b", 3, "operator"}, {"d^2", 2, "no meaning"}, {"µ*?", 3, "not \"?\""},
		{"1..2", 3, "operator"}, {".", 1, "not a number"}, {"1e999", 1, "not a number"}, {"2e", 2, "operator"},
		{"()", 2, "wanted"}, {"(1 2)", 4, "operator"}, {"\xff", 1, "readable"},
		{strings.Repeat("(", 50), 42, "too deep"}, {strings.Repeat("-", 60) + "1", 42, "too deep"},
		{strings.Repeat("1+", 300), 1, "too long"},
	} {
		_, err := Parse(c.text)
		var f FaultError
		if !errors.As(err, &f) || f.Column != c.column || !strings.Contains(f.Why, c.word) {
			t.Errorf("%q: got %v; want column %d and %q", c.text, err, c.column, c.word)
		}
	}
}

func TestNoValue(t *testing.T) {
	var missing MissingError
	if _, err := Value("0.002*D", map[string]float64{"d": 1}); !errors.As(err, &missing) || missing.Name != "D" {
		t.Errorf("unknown name: got %v", err)
	}
	for _, c := range []struct {
		text string
		d    float64
	}{
		{"1/0", 0}, {"1/d", 0}, {"1/(d-d)", 3}, {"1e300*1e300", 0}, {"d", math.NaN()}, {"d", math.Inf(1)}, {"1/(1e300*1e300)", 0},
	} {
		v, err := Value(c.text, map[string]float64{"d": c.d})
		var e ValueError
		if !errors.As(err, &e) {
			t.Errorf("%s with d=%g: got %g, %v; want a ValueError", c.text, c.d, v, err)
		}
	}
	if _, err := (Expr{}).Eval(nil); err == nil {
		t.Error("the empty formula has a value")
	}
	if v, err := Value("-0*d", map[string]float64{"d": 2}); err != nil || math.Signbit(v) {
		t.Errorf("minus zero came out as %g, %v", v, err)
	}
}

func TestVars(t *testing.T) {
	e, err := Parse(" 0.002*D + d/2 - D ")
	if err != nil || strings.Join(e.Vars(), ",") != "D,d" || e.String() != "0.002*D + d/2 - D" {
		t.Errorf("got %v, %q, %v", e.Vars(), e, err)
	}
	if e.Words() != "0.002 × D + d / 2 - D" {
		t.Errorf("words: %q", e.Words())
	}
}

// tree is a formula made at random with its value by exact fractions: the
// second route.
type tree struct {
	text  string
	value *big.Rat // nil where it divides by zero
}

func drawTree(t *rapid.T, depth int) tree {
	if depth == 0 || rapid.IntRange(0, 3).Draw(t, "leaf") == 0 {
		n := rapid.IntRange(0, 999).Draw(t, "number")
		r := big.NewRat(int64(n), 8)
		return tree{r.FloatString(3), r}
	}
	a, b := drawTree(t, depth-1), drawTree(t, depth-1)
	o := rapid.SampledFrom([]string{"+", "-", "*", "/", "neg"}).Draw(t, "op")
	out := tree{text: "(" + a.text + " " + o + " " + b.text + ")"}
	if o == "neg" {
		out.text = "-(" + a.text + ")"
	}
	if a.value == nil || b.value == nil && o != "neg" {
		return out
	}
	switch o {
	case "+":
		out.value = new(big.Rat).Add(a.value, b.value)
	case "-":
		out.value = new(big.Rat).Sub(a.value, b.value)
	case "*":
		out.value = new(big.Rat).Mul(a.value, b.value)
	case "/":
		if b.value.Sign() != 0 {
			out.value = new(big.Rat).Quo(a.value, b.value)
		}
	case "neg":
		out.value = new(big.Rat).Neg(a.value)
	}
	return out
}

func TestAgainstExactFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		made := drawTree(t, 3)
		got, err := Value(made.text, nil)
		if made.value == nil {
			return // rounding decides whether a float route meets the zero too
		}
		want, _ := made.value.Float64()
		if err != nil {
			t.Fatalf("%s: %v", made.text, err)
		}
		if math.Abs(got-want) > 1e-6*(1+math.Abs(want)) {
			t.Fatalf("%s: got %g, want %g", made.text, got, want)
		}
	})
}

func FuzzFormula(f *testing.F) {
	for _, s := range []string{"0.0014*d", "-(1+2)/d", "1e5", "((((", "0,5", "\xff(", "d--1"} {
		f.Add(s, 2.0)
	}
	f.Fuzz(func(t *testing.T, text string, d float64) {
		e, err := Parse(text)
		if err != nil {
			var fault FaultError
			if !errors.As(err, &fault) || fault.Column < 1 || fault.Column > len(text)+1 {
				t.Fatalf("%q: fault %v", text, err)
			}
			return
		}
		vars := map[string]float64{}
		for _, name := range e.Vars() {
			vars[name] = d
		}
		v, err := e.Eval(vars)
		if err == nil && !finite(v) {
			t.Fatalf("%q with %g: value %g left the package", text, d, v)
		}
		again, err2 := Value(e.String(), vars)
		if (err == nil) != (err2 == nil) || err == nil && again != v {
			t.Fatalf("%q read back as %q gives %g, %v; was %g, %v", text, e, again, err2, v, err)
		}
	})
}
