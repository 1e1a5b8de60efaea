package identify

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"matchmark/internal/trade/catalogue"
)

// wearMost is the most wear drawn on a worn surface, mm; half of the surfaces
// that wear are worn, evenly from 0 to wearMost.
const wearMost = 0.1

// draw measures all dimensions of an item: a true size anywhere in the
// tolerance, wear where the surface wears, and a normal error of the usual
// uncertainty (calliper 0.02 mm; pitch over 10 turns 0.002; belt tape 2 mm;
// angle gauge 1°; taper 0.003).
func draw(it catalogue.Item, specs []catalogue.Spec, rnd *rand.Rand) []Measured {
	var ms []Measured
	for _, d := range it.Dims {
		u := specs[specIndex(specs, d.Name)].UsualU
		m := Measured{Dim: d.Name, U: u}
		m.Value = d.Nominal + d.Lo + (d.Hi-d.Lo)*rnd.Float64() + u*rnd.NormFloat64()
		if d.Wears != catalogue.Keeps && rnd.Float64() < 0.5 {
			m.Worn = true
			m.Value += float64(d.Wears) * wearMost * rnd.Float64()
		}
		ms = append(ms, m)
	}
	return ms
}

type tally struct{ n, inSet, top, setSize int }

func (s tally) share(k int) float64 { return float64(k) / float64(max(1, s.n)) }

// simulated are the kinds with a table of their own sizes; gears are drawn in
// gear_test.go.
func simulated() []catalogue.Kind {
	return slices.DeleteFunc(catalogue.Kinds(), func(k catalogue.Kind) bool { return k == catalogue.GearRack })
}

// TestTenThousandParts draws over the whole catalogue, each kind alike often.
func TestTenThousandParts(t *testing.T) {
	std, err := catalogue.Standard()
	if err != nil {
		t.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(20, 26))
	kinds := simulated()
	var all tally
	var cal calibration
	for ki, kind := range kinds {
		items, specs := std.Of(kind), catalogue.Specs(kind)
		n := 10000 / len(kinds)
		if ki < 10000%len(kinds) {
			n++
		}
		var s tally
		for range n {
			it := items[rnd.IntN(len(items))]
			ans, err := Part(Ask{Kind: kind, Measured: draw(it, specs, rnd)})
			if err != nil {
				continue // a draw that no part can have, such as a circlip groove worn past its shaft
			}
			s.n++
			s.setSize += len(ans.Set95)
			place := slices.IndexFunc(ans.Ranked, func(c Candidate) bool { return c.Item.Twin(it) })
			in := slices.Contains(ans.Set95, ans.Ranked[place].Item.Designation)
			if in {
				s.inSet++
			}
			right := place == 0 && ans.None < ans.Ranked[0].P
			if right {
				s.top++
			}
			cal.add(ans.Ranked[0].P, right)
		}
		if n-s.n > n/100 {
			t.Errorf("%s: %d of %d draws were refused", kind, n-s.n, n)
		}
		t.Logf("%-17s %4d drawn: in the 95 %% set %.1f %%, top %.1f %%, set size %.2f", kind, s.n, 100*s.share(s.inSet), 100*s.share(s.top), float64(s.setSize)/float64(s.n))
		all.n, all.inSet, all.top = all.n+s.n, all.inSet+s.inSet, all.top+s.top
	}
	t.Logf("all %d: in the 95 %% set %.2f %%, top %.2f %%", all.n, 100*all.share(all.inSet), 100*all.share(all.top))
	if all.share(all.inSet) < 0.95 {
		t.Errorf("the true part is in the 95 %% set %.2f %% of the time, want 95", 100*all.share(all.inSet))
	}
	if all.share(all.top) < 0.95 {
		t.Errorf("the true size is first %.2f %% of the time, want 95", 100*all.share(all.top))
	}
	cal.check(t)
}

// calibration sorts answers by the probability they gave their first candidate.
type calibration [10]struct {
	n, right int
	p        float64
}

func (c *calibration) add(p float64, right bool) {
	b := &c[min(9, int(p*10))]
	b.n++
	b.p += p
	if right {
		b.right++
	}
}

// check prints the table. No bin may claim more than it holds, but for three
// standard deviations of the count; it may hold more than it claims, as nothing
// here is drawn from "none of these", which keeps its share of belief.
func (c *calibration) check(t *testing.T) {
	t.Helper()
	for i, b := range c {
		if b.n == 0 {
			continue
		}
		said, was := b.p/float64(b.n), float64(b.right)/float64(b.n)
		noise := 3 * math.Sqrt(said*(1-said)/float64(b.n))
		if was < said-noise {
			t.Errorf("said %.3f, was right %.3f of %d: boasts by more than the noise %.3f", said, was, b.n, noise)
		}
		t.Logf("top probability %.1f-%.1f: %5d answers, said %.3f, right %.3f, noise %.3f", float64(i)/10, float64(i+1)/10, b.n, said, was, noise)
	}
}

// TestRoughReadings leaves sizes out and measures the others with u from 0.02
// to 0.5 mm, so that many answers are doubtful: the set must still hold 95 %.
func TestRoughReadings(t *testing.T) {
	std, err := catalogue.Standard()
	if err != nil {
		t.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(7, 1))
	var cal calibration
	n, in := 0, 0
	for _, kind := range simulated() {
		items, specs := std.Of(kind), catalogue.Specs(kind)
		for range 300 {
			it := items[rnd.IntN(len(items))]
			var ms []Measured
			for _, m := range draw(it, specs, rnd) {
				rough := math.Exp(rnd.Float64() * math.Log(25))
				m.Value += m.U * math.Sqrt(rough*rough-1) * rnd.NormFloat64()
				m.U *= rough
				if rnd.Float64() < 0.6 {
					ms = append(ms, m)
				}
			}
			ans, err := Part(Ask{Kind: kind, Measured: ms})
			if err != nil {
				continue // nothing kept, or sizes that no part can have
			}
			n++
			place := slices.IndexFunc(ans.Ranked, func(c Candidate) bool { return c.Item.Twin(it) })
			if slices.Contains(ans.Set95, ans.Ranked[place].Item.Designation) {
				in++
			}
			if ans.None < ans.Ranked[0].P {
				cal.add(ans.Ranked[0].P, place == 0)
			}
		}
	}
	t.Logf("%d rough questions: the true size is in the 95 %% set %.2f %%", n, 100*float64(in)/float64(n))
	if float64(in) < 0.95*float64(n) {
		t.Errorf("the 95 %% set holds the true size %d times of %d", in, n)
	}
	cal.check(t)
}

// strange draws sizes that are in no table: evenly over the box from the least
// to the greatest nominal of each dimension, kept when every item is 0.3 mm or
// more away in some dimension (a dimension not in mm cannot do it) and one part
// could have them. Away is from the nominal or, by the fair rule, from the
// item's own tolerance: a size within that is the item, not a stranger.
func strange(items []catalogue.Item, specs []catalogue.Spec, rnd *rand.Rand, fair bool) ([]Measured, bool) {
	first := items[0]
	for _, it := range items {
		if len(it.Dims) > len(first.Dims) {
			first = it
		}
	}
	var ms []Measured
	for _, d := range first.Dims {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, it := range items {
			if o, ok := it.Dim(d.Name); ok {
				lo, hi = min(lo, o.Nominal), max(hi, o.Nominal)
			}
		}
		s := specs[specIndex(specs, d.Name)]
		ms = append(ms, Measured{Dim: d.Name, Value: lo + (hi-lo)*rnd.Float64(), U: s.UsualU, Worn: d.Wears != 0 && rnd.Float64() < 0.5})
	}
	return ms, far(ms, items, specs, fair)
}

func far(ms []Measured, items []catalogue.Item, specs []catalogue.Spec, fair bool) bool {
	for _, it := range items {
		away := false
		for _, m := range ms {
			d, ok := it.Dim(m.Dim)
			if !ok || specs[specIndex(specs, m.Dim)].Unit != "mm" {
				continue
			}
			off := math.Abs(m.Value - d.Nominal)
			if d.Range || fair {
				off = max(0, d.Nominal+d.Lo-m.Value, m.Value-d.Nominal-d.Hi)
			}
			away = away || off >= 0.3
		}
		if !away {
			return false
		}
	}
	return true
}

// askStrange draws up to 300 strange parts of a kind and counts those that are
// called none of these.
func askStrange(kind catalogue.Kind, rnd *rand.Rand, fair bool) (drawn, none int, err error) {
	std, err := catalogue.Standard()
	if err != nil {
		return 0, 0, err
	}
	items, specs := std.Of(kind), catalogue.Specs(kind)
	for try := 0; drawn < 300 && try < 30000; try++ {
		ms, ok := strange(items, specs, rnd, fair)
		if !ok {
			continue
		}
		for i := range ms {
			ms[i].Value += ms[i].U * rnd.NormFloat64()
		}
		ans, err := Part(Ask{Kind: kind, Measured: ms})
		if err != nil {
			continue
		}
		drawn++
		if ans.None >= 0.5 {
			none++
		}
	}
	return drawn, none, nil
}

// TestStrangeSizesAreNone: by the fair rule each kind alone is called none 9
// times of 10 or more; by distance from the nominal all together are, and the
// share of each is told: an O-ring is made to some per cent of its bore, so that
// one 0.3 mm from every nominal is still within the tolerance of several.
func TestStrangeSizesAreNone(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 9))
	drawn, none := 0, 0
	for _, kind := range simulated() {
		n, k, err := askStrange(kind, rnd, false)
		if err != nil {
			t.Fatal(err)
		}
		fairN, fairK, err := askStrange(kind, rnd, true)
		if err != nil {
			t.Fatal(err)
		}
		share := float64(fairK) / float64(max(1, fairN))
		t.Logf("%-17s 0.3 mm from every nominal: %d drawn, none of these %.1f %%; from every tolerance: %d drawn, %.1f %%", kind, n, 100*float64(k)/float64(max(1, n)), fairN, 100*share)
		if share < 0.9 {
			t.Errorf("%s: sizes outside every tolerance get none %.1f %% of the time, want 90", kind, 100*share)
		}
		drawn, none = drawn+n, none+k
	}
	share := float64(none) / float64(drawn)
	t.Logf("all %d: none of these %.2f %%", drawn, 100*share)
	if share < 0.9 {
		t.Errorf("strange sizes get none %.2f %% of the time, want 90", 100*share)
	}
}

// TestNearMisses moves one size of an item to 0.3 to 1 mm outside its tolerance:
// much harder than strange sizes. Where the place is not worn it must be none 9
// times of 10; where it is said to be worn, that much wear is possible, and the
// share is only told.
func TestNearMisses(t *testing.T) {
	std, err := catalogue.Standard()
	if err != nil {
		t.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(3, 3))
	for _, kind := range []catalogue.Kind{catalogue.Ball, catalogue.Taper, catalogue.OilSeal, catalogue.Thread} {
		items, specs := std.Of(kind), catalogue.Specs(kind)
		var n, k [2]int
		for n[0] < 300 || n[1] < 300 {
			it := items[rnd.IntN(len(items))]
			ms := draw(it, specs, rnd)
			by := 0.3 + 0.7*rnd.Float64() + it.Dims[0].Hi
			if rnd.Float64() < 0.5 {
				by = it.Dims[0].Lo - 0.3 - 0.7*rnd.Float64()
			}
			ms[0].Value = it.Dims[0].Nominal + by + ms[0].U*rnd.NormFloat64()
			ans, err := Part(Ask{Kind: kind, Measured: ms})
			if !far(ms, items, specs, false) || err != nil {
				continue
			}
			worn := 0
			if ms[0].Worn {
				worn = 1
			}
			n[worn]++
			if ans.None >= 0.5 {
				k[worn]++
			}
		}
		sound, worn := float64(k[0])/float64(n[0]), float64(k[1])/float64(n[1])
		t.Logf("%-15s bore or shaft 0.3 to 1 mm off: none of these %.1f %% where sound, %.1f %% where worn", kind, 100*sound, 100*worn)
		if sound < 0.9 {
			t.Errorf("%s: a sound place 0.3 mm off is none only %.1f %%", kind, 100*sound)
		}
	}
}

func BenchmarkLargestTable(b *testing.B) {
	std, err := catalogue.Standard()
	if err != nil {
		b.Fatal(err)
	}
	var kind catalogue.Kind
	for _, k := range catalogue.Kinds() {
		if len(std.Of(k)) > len(std.Of(kind)) {
			kind = k
		}
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	it, _ := std.Find(kind, "6205")
	ms := draw(it, catalogue.Specs(kind), rnd)
	for _, c := range []struct {
		name string
		ms   []Measured
	}{{"all sizes", ms}, {"one size", ms[:1]}} {
		b.Run(fmt.Sprintf("%s of %d, %s", kind, len(std.Of(kind)), c.name), func(b *testing.B) {
			for b.Loop() {
				if _, err := Part(Ask{Kind: kind, Measured: c.ms}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
