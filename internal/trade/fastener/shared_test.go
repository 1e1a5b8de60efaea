package fastener

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"matchmark/internal/reftest"
)

var figure = regexp.MustCompile(`-?[0-9]+(?:\.[0-9]+)?`)

func figures(t *testing.T, text string) (out []float64) {
	t.Helper()
	for _, s := range figure.FindAllString(text, -1) {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, v)
	}
	return out
}

func named(t testing.TB, text string) Thread {
	t.Helper()
	th, err := Named(text)
	if err != nil {
		t.Fatal(err)
	}
	return th
}

func classed(t testing.TB, th Thread, mark string) Class {
	t.Helper()
	c, err := ClassOf(th, mark)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// joint is a bolt with a hexagon head and one figure of friction.
func joint(t testing.TB, thread, mark string, mu float64) Joint {
	t.Helper()
	th := named(t, thread)
	h, err := HexHead(th)
	if err != nil {
		t.Fatal(err)
	}
	return Joint{Thread: th, Class: classed(t, th, mark), Head: h, Friction: Friction{State: "test", Thread: Band{mu, mu}, Head: Band{mu, mu}}}
}

// rows holds a table of the shared folder with checks that fail by row.
type rows struct {
	*reftest.Table
	t *testing.T
}

func (r rows) near(id, what string, got, want, tol float64) {
	r.t.Helper()
	r.Row(r.t, id)
	if !(math.Abs(got-want) <= tol) {
		r.Fail(r.t, id, fmt.Sprintf("%s is %.6g, want %.6g within %.2g", what, got, want, tol))
	}
}

func (r rows) wanted(id string) []float64 { return figures(r.t, r.Row(r.t, id)["expected"]) }

// first is the first word of the inputs of a row.
func (r rows) first(id string) string {
	return strings.Fields(r.Row(r.t, id)["inputs"])[0]
}

// TestSharedThreads walks 2_threads.csv. Read in a source: THR-029 to 047, 050,
// 052, 078 to 094, 104 to 107; the rest is from memory or worked from a formula.
func TestSharedThreads(t *testing.T) {
	r := rows{reftest.Load(t, "reference/2_threads.csv"), t}
	for n := 1; n <= 25; n++ {
		id := fmt.Sprintf("THR-%03d", n)
		th, rec := named(t, r.first(id)), r.Row(t, id)
		w := figures(t, strings.NewReplacer("d2", "", "D1", "", "d3", "").Replace(rec["expected"]))
		r.near(id, "d2", th.PitchDiameter(), w[0], 0.0015)
		r.near(id, "D1", th.NutMinor(), w[1], 0.0015)
		r.near(id, "d3", th.Root(), w[2], 0.0015)
		r.near(id, "As", th.StressArea(), w[3], 0.005*w[3])
	}
	sharedProfile(r)
	sharedLoads(r)
	sharedClasses(r)
	for n := 53; n <= 68; n++ {
		id := fmt.Sprintf("THR-%03d", n)
		w := r.wanted(id)[0]
		text := r.Row(t, id)["inputs"]
		th, err := Named(text + " UNC")
		if err != nil {
			th = named(t, text+" UNF")
		}
		r.near(id, "As", th.StressArea()/25.4/25.4, w, 0.005*w)
	}
	sharedFriction(r)
	sharedPreload(r)
	sharedTorque(r)
	sharedRest(r)
	t.Log("not used: THR-026, 027 tapping drills, offered by no function; 051 is marked wrong in the file; 069 to 076 pipe threads, tested in package catalogue; 112 to 114 K of a book, where the three-term relation is used; 123 names the convention that the pattern tests hold")
	r.Report(t)
}

func sharedProfile(r rows) {
	r.Row(r.t, "THR-028")
	for d, want := range map[string][]string{"M10": {"M10x1.25", "M10x1"}, "M12": {"M12x1.5", "M12x1.25"}} {
		list, err := Threads()
		if err != nil {
			r.t.Fatal(err)
		}
		twins := list.Twins(named(r.t, d))
		for _, w := range want {
			if !strings.Contains(strings.Join(twins, " ")+" ", w+" ") {
				r.Fail(r.t, "THR-028", fmt.Sprintf("%s has twins %v", d, twins))
			}
		}
	}
	th := named(r.t, "M8")                                            // P = 1.25
	r.near("THR-029", "5H/8", (th.D-th.NutMinor())/2, 0.676582, 1e-6) // ISO 68-1: D₁ lies 5H/8 in, d₂ 3H/8
	r.near("THR-029", "3H/8", (th.D-th.PitchDiameter())/2, 0.405949, 1e-6)
}

// oddlyPrinted are loads that the standard's tables do not print as the product
// of area and stress to three figures: most are cut instead of rounded (M6 8.8
// is 20.1·580 = 11,658, printed 11,600), two are a little above it (M8 4.8 and
// M10 8.8: 58.0·580 = 33,640, printed 33,700). The rows' "exact to three
// figures" cannot hold for them; one in the third figure is allowed, and two
// for M16 6.8 (157·600 = 94,200, printed 94,000).
var oddlyPrinted = map[string][]string{
	"THR-030": {"8.8"}, "THR-031": {"8.8"}, "THR-032": {"8.8"}, "THR-033": {"5.6", "5.8"}, "THR-034": {"4.8"},
	"THR-035": {"8.8", "12.9"}, "THR-036": {"4.6", "8.8"}, "THR-040": {"8.8"}, "THR-041": {"6.8", "8.8"}, "THR-045": {"5.6"}, "THR-047": {"5.6"},
}

// sharedLoads: the tables print loads to three figures.
func sharedLoads(r rows) {
	all, odd := 0, 0
	marks := strings.Split("4.6,4.8,5.6,5.8,6.8,8.8,9.8,10.9,12.9", ",")
	for n := 30; n <= 47; n++ {
		id := fmt.Sprintf("THR-%03d", n)
		th := named(r.t, r.first(id))
		for i, text := range strings.Split(r.Row(r.t, id)["expected"], ";") {
			if text == "-" {
				if _, err := ClassOf(th, marks[i]); err == nil {
					r.Fail(r.t, id, marks[i]+" was given where the standard has none")
				}
				continue
			}
			want := figures(r.t, text)[0]
			c := classed(r.t, th, marks[i])
			got := c.ProofLoad(th)
			if n%2 == 1 {
				got = c.TensileLoad(th)
			}
			if slices.Contains(oddlyPrinted[id], marks[i]) {
				if id == "THR-041" && marks[i] == "6.8" {
					r.near(id, "oddly printed load of 6.8", got, want, 200)
					odd++
					continue
				}
				unit := math.Pow(10, math.Floor(math.Log10(want))-2)
				r.near(id, "oddly printed load of "+marks[i], got, want, unit)
				if threeFigures(got) == want {
					r.Fail(r.t, id, marks[i]+" is printed as the product rounds: take it off the list")
				}
				odd++
				continue
			}
			all++
			r.near(id, "load of "+marks[i], threeFigures(got), want, 1e-6*want)
		}
	}
	r.t.Logf("loads of ISO 898-1: %d as area times stress to three figures, %d printed up to two in the third figure off it", all, odd)
	m12 := named(r.t, "M12")
	r.near("THR-050", "tensile load 9.8", threeFigures(classed(r.t, m12, "9.8").TensileLoad(m12)), 75900, 1e-3)
	m4 := named(r.t, "M4")
	r.near("THR-052", "tensile load 10.9", threeFigures(classed(r.t, m4, "10.9").TensileLoad(m4)), 9130, 1e-3)
}

func sharedClasses(r rows) {
	small, large := named(r.t, "M16"), named(r.t, "M18")
	proof := []float64{225, 310, 280, 380, 440, 580, 600, 650, 830, 970}
	tensile := []float64{400, 420, 500, 520, 600, 800, 830, 900, 1040, 1220}
	for i, m := range strings.Split("4.6;4.8;5.6;5.8;6.8;8.8;8.8+;9.8;10.9;12.9", ";") {
		th := small
		if strings.HasSuffix(m, "+") {
			th = large
		}
		c := classed(r.t, th, strings.TrimSuffix(m, "+"))
		r.near("THR-048", "proof of "+m, c.Proof, proof[i], 0)
		r.near("THR-048", "tensile of "+m, c.Tensile, tensile[i], 0)
	}
	for _, w := range []struct {
		mark       string
		nom, least float64
	}{{"8.8", 640, 640}, {"10.9", 900, 940}, {"12.9", 1080, 1100}} {
		c := classed(r.t, small, w.mark)
		r.near("THR-049", "nominal yield "+w.mark, c.YieldNominal, w.nom, 0)
		r.near("THR-049", "least yield "+w.mark, c.Yield, w.least, 0)
	}
	r.near("THR-049", "yield 8.8 above 16", classed(r.t, large, "8.8").Yield, 660, 0)
}

func sharedFriction(r rows) {
	for words, want := range map[string]Band{"molybdenum paste": {0.04, 0.10}, "clean and oiled": {0.08, 0.16}, "clean and dry": {0.14, 0.24}, "dry, rusty": {0.20, 0.35}} {
		f, err := FrictionOf(words)
		if err != nil || f.Thread != want || f.Head != want {
			r.Fail(r.t, "THR-077", fmt.Sprintf("%s: %v, %v", words, f, err))
		}
	}
	if _, err := FrictionOf("stainless, dry"); err == nil {
		r.Fail(r.t, "THR-077", "class E has no upper end, yet a band was given")
	}
	r.Row(r.t, "THR-077")
}

// sharedPreload: the fine-thread table of VDI 2230:2001 was read; the coarse
// rows are recalled or worked; the older sheet was read.
func sharedPreload(r rows) {
	for n := 78; n <= 94; n++ {
		id := fmt.Sprintf("THR-%03d", n)
		rec := r.Row(r.t, id)
		mu := figures(r.t, rec["inputs"][strings.Index(rec["inputs"], "mu="):])[0]
		f, m, _ := strings.Cut(rec["expected"], "M=")
		forces, torques := figures(r.t, f), figures(r.t, m)
		for i, mark := range []string{"8.8", "10.9", "12.9"} {
			j := joint(r.t, r.first(id), mark, mu)
			force, torque := atYield(r.t, j, mu, j.Class.Yield, Plastic)
			r.near(id, "preload "+mark, force/1000, forces[i], 0.012*forces[i])
			r.near(id, "torque "+mark, torque, torques[i], 0.03*torques[i])
		}
	}
	for n := 95; n <= 103; n++ {
		id := fmt.Sprintf("THR-%03d", n)
		w := r.wanted(id)
		j := joint(r.t, r.first(id), "8.8", 0.12)
		force, torque := atYield(r.t, j, 0.12, j.Class.Yield, Plastic)
		r.near(id, "preload", force/1000, w[0], 0.03*w[0])
		r.near(id, "torque", torque, w[1], 0.03*w[1])
	}
	for n := 104; n <= 107; n++ { // the older sheet: elastic twist, yield by the name
		id := fmt.Sprintf("THR-%03d", n)
		f, rest, _ := strings.Cut(r.Row(r.t, id)["expected"], "M=")
		m, newer, _ := strings.Cut(rest, "(2001 formula, 8.8:")
		forces, torques := figures(r.t, f), figures(r.t, m)
		for i, mark := range []string{"8.8", "10.9", "12.9"} {
			j := joint(r.t, r.first(id), mark, 0.10)
			force, torque := atYield(r.t, j, 0.10, j.Class.YieldNominal, Elastic)
			r.near(id, "older preload "+mark, force/1000, forces[i], 0.012*forces[i])
			r.near(id, "older torque "+mark, torque, torques[i], 0.03*torques[i])
		}
		j := joint(r.t, r.first(id), "8.8", 0.10)
		force, torque := atYield(r.t, j, 0.10, j.Class.Yield, Plastic)
		r.near(id, "preload 2001", force/1000, figures(r.t, newer)[0], 0.005*force/1000)
		r.near(id, "torque 2001", torque, figures(r.t, newer)[1], 0.005*torque)
	}
}

func atYield(t *testing.T, j Joint, mu, yield float64, e Edition) (force, torque float64) {
	t.Helper()
	force, err := j.PreloadAt(YieldShare, yield, mu, e)
	if err != nil {
		t.Fatal(err)
	}
	b, err := j.Torque(force)
	if err != nil {
		t.Fatal(err)
	}
	return force, b.Lo
}

func sharedTorque(r rows) {
	j := joint(r.t, "M10", "8.8", 0.12)
	part := func(pitch, thread, head float64) float64 { // one term alone
		return pitch*j.Thread.Pitch/(2*math.Pi) + thread*j.Thread.PitchDiameter()/(2*math.Cos(math.Pi/6)) + head*j.Head.mean()/2
	}
	r.near("THR-108", "pitch coefficient", part(1, 0, 0)/j.Thread.Pitch, 0.16, 0.005)
	r.near("THR-108", "thread coefficient", (j.arm(0.2, 0)-j.arm(0, 0))/0.2/j.Thread.PitchDiameter(), 0.577, 0.0005)
	r.near("THR-108", "head coefficient", (j.arm(0, 0.2)-j.arm(0, 0))/0.2/j.Head.mean(), 0.5, 1e-12)
	j.Head = Head{Outer: 14.6, Hole: 11} // D_km 12.8
	b, err := j.Torque(20000)
	if err != nil {
		r.t.Fatal(err)
	}
	w := r.wanted("THR-109")
	r.near("THR-109", "total", b.Lo, w[len(w)-1], 0.001*w[len(w)-1])
	r.near("THR-109", "pitch term", 20*j.arm(0, 0), w[0], 0.005)
	r.near("THR-109", "thread term", 20*(j.arm(0.12, 0)-j.arm(0, 0)), w[1], 0.005)

	shigley := Joint{Thread: named(r.t, "3/4-16 UNF"), Head: Head{Outer: 1.5 * 19.05, Hole: 19.05}} // mean 1.25·d
	shigley.Class = classed(r.t, shigley.Thread, "grade 5")
	shigley.Friction = Friction{Thread: Band{0.15, 0.15}, Head: Band{0.15, 0.15}}
	const lbf, lbfin = 4.4482216, 0.11298483
	long, err := shigley.Torque(25000 * lbf)
	if err != nil {
		r.t.Fatal(err)
	}
	r.near("THR-111", "long form", long.Lo/lbfin, 3551, 0.003*3551)
	k, err := shigley.NutFactor()
	if err != nil {
		r.t.Fatal(err)
	}
	r.near("THR-110", "K of the row against K here, whose torque is 5.3 % less", k.Lo*(1+0.053), 3750/(25000*0.75), 0.003)
}

func sharedRest(r rows) {
	j := joint(r.t, "M10", "8.8", 0.12)
	for i, share := range []float64{0.75, 0.90} {
		a, err := j.Advise(share)
		if err != nil {
			r.t.Fatal(err)
		}
		// The row takes the printed proof load 33,700; area times stress is 33,634.
		r.near("THR-115", "preload", a.PreloadN, r.wanted("THR-115")[i], 0.0025*a.PreloadN)
	}
	for id, in := range map[string][3]float64{"THR-116": {100, 400, 50}, "THR-117": {60, 300, 100}, "THR-118": {120, 500, -40}} {
		got, err := WrenchSetting(in[0], in[1], in[2], 0)
		if err != nil {
			r.t.Fatal(err)
		}
		r.near(id, "setting", got, r.wanted(id)[0], 0.01)
	}
	for _, id := range []string{"THR-119", "THR-120", "THR-121"} {
		w := r.wanted(id)[0]
		r.near(id, "engagement", named(r.t, r.first(id)).EqualStrength(), w, 0.01*w)
	}
	r.Row(r.t, "THR-122") // 1.0 d ; 1.25-1.5 d ; 1.5-2.0 d
	for name, want := range map[string]Band{"steel": {1, 1}, "cast iron": {1.25, 1.5}, "aluminium": {1.5, 2}} {
		p, err := ParentOf(name)
		if err != nil || p.RuleD != want {
			r.Fail(r.t, "THR-122", fmt.Sprintf("%s: %v, %v", name, p.RuleD, err))
		}
	}
}
