package shim

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// MostShown is the most picks that an answer lists.
const MostShown = 100

// Pick is a pack that does.
type Pick struct {
	Pack   Pack
	OffMM  float64 // pack less target
	Chance float64 // of landing in the limits, for the uncertainties given
}

// Answer lists every pack that is equally good, nearest to the target first.
type Answer struct {
	Picks []Pick
	More  bool // there are more than MostShown
}

// none stands for a sum that no pack reaches.
const none = math.MaxInt32

// OneGap picks packs from the stock for one gap.
// Method: bounded dynamic programming over whole µm, exact; all picks with
// the fewest shims that the aim leaves are listed, the thickest shims first
// among equals. Cost: kinds · µm · pieces, below a millisecond for 60 shims
// and 2 mm.
// Errors: UnreachableError with the nearest packs below and above; RangeError
// for the inputs.
func OneGap(stock []Shim, w Want) (Answer, error) {
	kinds, err := readStock(stock)
	if err != nil {
		return Answer{}, err
	}
	if err := w.check(); err != nil {
		return Answer{}, err
	}
	lo, hi := int(math.Ceil(w.Lo*1000-1e-6)), int(math.Floor(w.Hi*1000+1e-6))
	t := fill(kinds, max(hi, 0)+kinds[0].um)
	sums := t.best(w, max(lo, 0), hi)
	if len(sums) == 0 {
		return Answer{}, t.unreachable(w, lo, hi)
	}
	var a Answer
	for _, um := range sums {
		for _, p := range t.packs(um, MostShown+1) {
			a.Picks = append(a.Picks, Pick{Pack: p, OffMM: float64(um)/1000 - w.Target, Chance: w.chance(um, p.Count())})
		}
	}
	slices.SortFunc(a.Picks, func(x, y Pick) int {
		return cmp.Or(cmp.Compare(math.Round(1e6*math.Abs(x.OffMM)), math.Round(1e6*math.Abs(y.OffMM))), thickFirst(x.Pack, y.Pack))
	})
	if len(a.Picks) > MostShown {
		a.Picks, a.More = a.Picks[:MostShown], true
	}
	return a, nil
}

// table holds fewest[i][um]: the fewest shims of kinds i and on that sum to um.
type table struct {
	kinds  []kind
	fewest [][]int
}

func fill(kinds []kind, top int) table {
	t := table{kinds: kinds, fewest: make([][]int, len(kinds)+1)}
	last := make([]int, top+1)
	for um := range last {
		last[um] = none
	}
	last[0] = 0
	t.fewest[len(kinds)] = last
	for i := len(kinds) - 1; i >= 0; i-- {
		row, after, k := make([]int, top+1), t.fewest[i+1], kinds[i]
		for um := range row {
			row[um] = after[um]
			for n := 1; n <= k.count && n*k.um <= um; n++ {
				if rest := after[um-n*k.um]; rest+n < row[um] {
					row[um] = rest + n
				}
			}
		}
		t.fewest[i] = row
	}
	return t
}

// reach is the fewest shims for a sum, or none where the limit forbids it.
func (t table) reach(um, most int) int {
	if um < 0 || um >= len(t.fewest[0]) {
		return none
	}
	n := t.fewest[0][um]
	if most > 0 && n > most {
		return none
	}
	return n
}

// best lists the sums in lo to hi that the aim likes best, each to be made of
// its fewest shims.
func (t table) best(w Want, lo, hi int) (sums []int) {
	least := [2]float64{math.Inf(1), math.Inf(1)}
	for um := lo; um <= hi; um++ {
		n := t.reach(um, w.MaxShims)
		if n == none {
			continue
		}
		key := [2]float64{float64(n), 0}
		switch w.Aim {
		case Nearest:
			key = [2]float64{math.Round(1e6 * math.Abs(float64(um)/1000-w.Target)), float64(n)}
		case Surest:
			key = [2]float64{math.Round(1e9 * (1 - w.chance(um, n))), float64(n)}
		}
		switch c := slices.Compare(key[:], least[:]); {
		case c < 0:
			least, sums = key, []int{um}
		case c == 0:
			sums = append(sums, um)
		}
	}
	return sums
}

// packs lists up to most packs that sum to um with the fewest shims.
func (t table) packs(um, most int) (out []Pack) {
	var uses []use
	var walk func(i, left, shims int)
	walk = func(i, left, shims int) {
		if len(out) >= most {
			return
		}
		if i == len(t.kinds) {
			out = append(out, packOf(t.kinds, uses))
			return
		}
		k := t.kinds[i]
		for n := min(k.count, left/k.um); n >= 0; n-- {
			rest := left - n*k.um
			if t.fewest[i+1][rest]+n != shims {
				continue
			}
			if n == 0 {
				walk(i+1, rest, shims)
				continue
			}
			uses = append(uses, use{i, n})
			walk(i+1, rest, shims-n)
			uses = uses[:len(uses)-1]
		}
	}
	walk(0, um, t.fewest[0][um])
	return out
}

// UnreachableError says that no pack of the stock lies in the limits, and which
// come nearest on either side.
type UnreachableError struct {
	Lo, Hi       float64 // mm, as wanted
	Below, Above *Pick   // nil where there is none
}

func (e UnreachableError) Error() string {
	text := fmt.Sprintf("no pack of the stock is %.3f to %.3f mm thick", e.Lo, e.Hi)
	for _, side := range []struct {
		word string
		pick *Pick
	}{{"below", e.Below}, {"above", e.Above}} {
		if side.pick != nil {
			text += fmt.Sprintf("; the nearest %s is %.3f mm (%s)", side.word, side.pick.Pack.MM(), side.pick.Pack)
		}
	}
	return text
}

func (t table) unreachable(w Want, lo, hi int) error {
	e := UnreachableError{Lo: w.Lo, Hi: w.Hi}
	at := func(um int) *Pick {
		p := t.packs(um, 1)[0]
		return &Pick{Pack: p, OffMM: float64(um)/1000 - w.Target, Chance: w.chance(um, p.Count())}
	}
	for um := min(lo, hi+1) - 1; um >= 0 && e.Below == nil; um-- {
		if t.reach(um, w.MaxShims) != none {
			e.Below = at(um)
		}
	}
	for um := max(hi, lo-1) + 1; um < len(t.fewest[0]) && e.Above == nil; um++ {
		if t.reach(um, w.MaxShims) != none {
			e.Above = at(um)
		}
	}
	return e
}
