package fastener

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"matchmark/internal/reftest"
)

func pattern(t testing.TB, bolts []Bolt, r Rules) Pattern {
	t.Helper()
	p, err := PatternOf(bolts, r)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// C6a and C6b: customary star orders, from memory, brought by the rule.
func TestSharedPatterns(t *testing.T) {
	tab := reftest.Load(t, "reference/method-checks.csv")
	for id, n := range map[string]int{"C6a": 8, "C6b": 12} {
		if got, want := pattern(t, Circle(n, 120), Rules{}).String(), tab.Row(t, id)["expected"]; got != want {
			tab.Fail(t, id, got)
		}
	}
	tab.Report(t)
}

// Customary orders, from memory; two rows of five from a prototype's own run.
func TestCustomary(t *testing.T) {
	line := []Bolt{{1, 0, 0, ""}, {2, 30, 0, ""}, {3, 60, 0, ""}, {4, 90, 0, ""}, {5, 120, 0, ""}}
	for _, c := range []struct {
		what  string
		bolts []Bolt
		want  string
	}{
		{"circle of 3", Circle(3, 80), "1-2-3"},
		{"circle of 4", Circle(4, 80), "1-3-2-4"},
		{"circle of 5", Circle(5, 80), "1-3-5-2-4"},
		{"circle of 6", Circle(6, 80), "1-4-2-5-3-6"},
		{"circle of 7", Circle(7, 80), "1-4-7-3-6-2-5"},
		{"circle of 16", Circle(16, 80), "1-9-5-13-3-11-7-15-2-10-6-14-4-12-8-16"},
		{"two rows of five", Rows(2, 5, 30), "5-6-3-8-4-7-2-9-1-10"},
		{"two rows of three", Rows(2, 3, 30), "3-4-1-6-2-5"},
		{"line of 5", line, "3-2-4-1-5"},
		{"one bolt", Circle(1, 80), "1"},
		{"two bolts", Circle(2, 80), "1-2"},
	} {
		if got := pattern(t, c.bolts, Rules{}).String(); got != c.want {
			t.Errorf("%s: %s, customary %s", c.what, got, c.want)
		}
	}
}

func TestRules(t *testing.T) {
	p := pattern(t, Circle(8, 100), Rules{First: []int{2, 6}}) // two dowel bolts
	if p.Order[0] != 2 || p.Order[1] != 6 || p.Order[2] != 4 || p.Order[3] != 8 {
		t.Errorf("dowels first: %s", p)
	}
	if p := pattern(t, Circle(5, 100), Rules{First: []int{4}}); p.String() != "4-1-3-5-2" {
		t.Errorf("datum of an odd circle: %s", p)
	}
	if p := pattern(t, Rows(2, 5, 30), Rules{Method: Star}); p.Method[0] != Star || len(p.Order) != 10 {
		t.Errorf("star on a head: %s", p)
	}
	field := Circle(4, 50)
	for i := range field {
		field[i].Group = "b M8"
		field = append(field, Bolt{Number: 5 + i, X: 3 * field[i].X, Y: 3 * field[i].Y, Group: "a M12"})
	}
	p = pattern(t, field, Rules{})
	if p.String() != "5-7-6-8-1-3-2-4" || len(p.Stages) != 10 || p.Stages[0].Group != "a M12" {
		t.Errorf("two sizes: %s, %v", p, p.Groups)
	}
	if p := pattern(t, field, Rules{Groups: []string{"b M8", "a M12"}}); p.Order[0] != 1 {
		t.Errorf("named order of groups: %s", p)
	}
}

// Stages rise to full torque and each names every bolt once; loosening is the
// reverse.
func TestStages(t *testing.T) {
	p := pattern(t, Rows(2, 5, 30), Rules{})
	share := -1.0
	for _, s := range p.Stages {
		if s.Share < share || s.Words == "" {
			t.Errorf("stage %+v", s)
		}
		share = s.Share
		if got := slices.Sorted(slices.Values(s.Order)); !slices.Equal(got, []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}) {
			t.Errorf("stage %q has bolts %v", s.Words, got)
		}
	}
	if share != 1 {
		t.Errorf("last stage at %g", share)
	}
	if got := p.Stages[4].Order; !slices.Equal(got, []int{1, 3, 5, 7, 9, 10, 8, 6, 4, 2}) {
		t.Errorf("round the head: %v", got)
	}
	back := p.Loosening()[0].Order
	slices.Reverse(back)
	if !slices.Equal(back, p.Order) {
		t.Errorf("loosening %v", p.Loosening())
	}
	line := pattern(t, []Bolt{{1, 0, 0, ""}, {3, 60, 60, ""}, {2, 30, 30, ""}}, Rules{})
	if got := line.Stages[4].Order; !slices.Equal(got, []int{1, 2, 3}) && !slices.Equal(got, []int{3, 2, 1}) {
		t.Errorf("along the line: %v", got)
	}
}

// Neither the sequence the bolts are given in, nor the unit, nor where and how
// the drawing lies changes the order.
func TestOrderIsOfPlacesOnly(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 32))
	fields := [][]Bolt{Circle(4, 50), Circle(5, 50), Circle(6, 90), Circle(8, 90), Circle(9, 90), Circle(12, 90), Circle(16, 200), Rows(2, 5, 30), Rows(2, 7, 41.3), Rows(3, 4, 25)}
	for range 60 { // and fields without any symmetry
		var f []Bolt
		for i := range 3 + rng.IntN(15) {
			f = append(f, Bolt{Number: i + 1, X: 300 * rng.Float64(), Y: 150 * rng.Float64()})
		}
		fields = append(fields, f)
	}
	for _, f := range fields {
		want := pattern(t, f, Rules{}).String()
		for range 20 {
			turn, scale := rng.Float64()*2*math.Pi, math.Pow(10, 4*rng.Float64()-2)
			dx, dy := 50*rng.Float64()*scale, 50*rng.Float64()*scale
			sin, cos := math.Sincos(turn)
			moved := make([]Bolt, len(f))
			for i, b := range f {
				moved[i] = Bolt{Number: b.Number, X: scale*(b.X*cos-b.Y*sin) + dx, Y: scale*(b.X*sin+b.Y*cos) + dy}
			}
			rng.Shuffle(len(moved), func(i, j int) { moved[i], moved[j] = moved[j], moved[i] })
			if got := pattern(t, moved, Rules{}).String(); got != want {
				t.Fatalf("%v\nturned, moved and shuffled gives %s, else %s", f, got, want)
			}
		}
	}
}

// Each bolt is named once, on any field; after each finished pair of an even
// circle the tightened bolts balance.
func TestPatternProperties(t *testing.T) {
	for n := 3; n <= 40; n++ {
		p := pattern(t, Circle(n, 100), Rules{})
		want := make([]int, n)
		for i := range want {
			want[i] = i + 1
		}
		if !slices.Equal(slices.Sorted(slices.Values(p.Order)), want) {
			t.Fatalf("circle of %d: %s", n, p)
		}
		if n%2 == 1 {
			continue
		}
		x, y, c := 0.0, 0.0, Circle(n, 100)
		for k, number := range p.Order {
			x, y = x+c[number-1].X, y+c[number-1].Y
			if k%2 == 1 && math.Hypot(x, y) > 1e-9 {
				t.Errorf("circle of %d leans after %d bolts of %s", n, k+1, p)
			}
		}
	}
}

// A measured circle is never quite round: a tenth of a millimetre of scatter
// leaves near ties to the lower number only within 1e-6, so it may give
// another order, but still one of opposite pairs.
func TestMeasuredCircleStaysAcross(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	for range 50 {
		c := Circle(8, 100)
		for i := range c {
			c[i].X, c[i].Y = c[i].X+0.1*rng.NormFloat64(), c[i].Y+0.1*rng.NormFloat64()
		}
		p := pattern(t, c, Rules{Method: Star})
		if d := (p.Order[0] - p.Order[1] + 8) % 8; d != 4 {
			t.Errorf("first pair of %s is not across", p)
		}
	}
}

func TestPatternRefuses(t *testing.T) {
	for what, bolts := range map[string][]Bolt{
		"none": nil, "twice": {{1, 0, 0, ""}, {1, 1, 0, ""}}, "one place": {{1, 0, 0, ""}, {2, 0, 0, ""}, {3, 5, 0, ""}},
		"nan": {{1, math.NaN(), 0, ""}}, "all one place": {{1, 2, 2, ""}, {2, 2, 2, ""}}, "too many": Circle(501, 1e6),
		"groups in one place": {{1, 0, 0, "a"}, {2, 0, 0, "b"}, {3, 9, 0, "b"}},
	} {
		if p, err := PatternOf(bolts, Rules{}); err == nil {
			t.Errorf("%s gave %s", what, p)
		}
	}
	for what, r := range map[string]Rules{"first": {First: []int{9}}, "first twice": {First: []int{1, 1}}, "method": {Method: "zigzag"}, "group": {Groups: []string{"a"}}} {
		if p, err := PatternOf(Circle(4, 50), r); err == nil {
			t.Errorf("%s gave %s", what, p)
		}
	}
}

func BenchmarkPattern40(b *testing.B) {
	bolts := Rows(4, 10, 40)
	for b.Loop() {
		if _, err := PatternOf(bolts, Rules{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkStar40(b *testing.B) {
	bolts := Circle(40, 900)
	for b.Loop() {
		if _, err := PatternOf(bolts, Rules{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNamed(b *testing.B) {
	list, err := Threads()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := list.Named("M12x1.25"); err != nil {
			b.Fatal(err)
		}
	}
}
