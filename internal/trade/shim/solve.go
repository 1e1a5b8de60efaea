package shim

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"matchmark/internal/trade/metrology"
)

// slack is what a reading may pass its limit by through the rounding of
// floats, mm.
const slack = 1e-9

// solver holds the thicknesses that each position can take.
type solver struct {
	Coupled
	kinds []kind
	sums  [][]group
}

// half is one choice of thicknesses for some of the positions: places in sums
// and the part it has in every reading.
type half struct {
	at   []int
	part []float64
}

// halfOf lists all choices of the positions from up to below to.
func (s solver) halfOf(from, to int) (list []half, cut bool) {
	list = []half{{part: make([]float64, len(s.Outcomes))}}
	for p := from; p < to; p++ {
		var next []half
		for _, h := range list {
			for g, sum := range s.sums[p] {
				if len(next) >= mostHalf {
					return next, true
				}
				n := half{at: append(slices.Clone(h.at), g), part: slices.Clone(h.part)}
				for o, out := range s.Outcomes {
					n.part[o] += out.Influence.PerMM[p] * (float64(sum.um)/1000 - out.Influence.Ref[p])
				}
				next = append(next, n)
			}
		}
		list = next
	}
	return list, false
}

// landing lists the choices of thicknesses that bring every reading within its
// limits widened by more.
func (s solver) landing(more float64) (found [][]int, incomplete string) {
	middle := (len(s.Positions) + 1) / 2
	a, cutA := s.halfOf(0, middle)
	b, cutB := s.halfOf(middle, len(s.Positions))
	if cutA || cutB {
		incomplete = fmt.Sprintf("more than %d choices in one half of the positions; fewer shims in a pack would do", mostHalf)
	}
	key := s.tightest()
	slices.SortStableFunc(a, func(x, y half) int { return cmp.Compare(x.part[key], y.part[key]) })
	checks := 0
	for _, h := range b {
		base := s.Outcomes[key].Influence.Base + h.part[key]
		lo, hi := s.Outcomes[key].Lo-more-slack-base, s.Outcomes[key].Hi+more+slack-base
		start, _ := slices.BinarySearchFunc(a, lo, func(x half, v float64) int { return cmp.Compare(x.part[key], v) })
		for i := start; i < len(a) && a[i].part[key] <= hi; i++ {
			if checks++; checks > mostChecks {
				return found, fmt.Sprintf("stopped after %d pairs; narrower limits or fewer shims in a pack would do", mostChecks)
			}
			if !s.lands(a[i], h, more) {
				continue
			}
			if len(found) >= mostKept {
				return found, fmt.Sprintf("stopped at %d sets that land; narrower limits would do", mostKept)
			}
			found = append(found, append(slices.Clone(a[i].at), h.at...))
		}
	}
	return found, incomplete
}

func (s solver) lands(a, b half, more float64) bool {
	for o, out := range s.Outcomes {
		v := out.Influence.Base + a.part[o] + b.part[o]
		if v < out.Lo-more-slack || v > out.Hi+more+slack {
			return false
		}
	}
	return true
}

// tightest is the outcome whose limits leave the smallest share of what the
// packs can move it by: the one to sort by.
func (s solver) tightest() int {
	best, least := 0, math.Inf(1)
	for o, out := range s.Outcomes {
		span := 0.0
		for p, groups := range s.sums {
			span += math.Abs(out.Influence.PerMM[p]) * float64(groups[len(groups)-1].um-groups[0].um) / 1000
		}
		if share := (out.Hi - out.Lo) / (span + 1e-12); share < least {
			best, least = o, share
		}
	}
	return best
}

// draft is a choice of thicknesses that lands, with its best case: each
// position has the fewest shims it could have alone.
type draft struct {
	at      []int
	n       int
	atLeast float64
}

// within gives the best sets of packs for the limits widened by more.
// The best case of a draft bounds what the shared stock leaves of it, for the
// chance falls with every further shim while the reading is within limits; so
// drafts are taken in order of their bound until none can better the list.
func (s solver) within(more float64, show int) Sets {
	found, incomplete := s.landing(more)
	drafts := make([]draft, len(found))
	for i, at := range found {
		d := draft{at: at}
		packs := make([]float64, len(at))
		counts := make([]int, len(at))
		for p, g := range at {
			packs[p] = float64(s.sums[p][g].um) / 1000
			counts[p] = s.sums[p][g].piles[0].n
			d.n += counts[p]
		}
		_, _, d.atLeast = s.outlook(packs, counts)
		drafts[i] = d
	}
	slices.SortFunc(drafts, func(a, b draft) int {
		return cmp.Or(s.better(a.n, a.atLeast, b.n, b.atLeast), slices.Compare(a.at, b.at))
	})
	out := Sets{Incomplete: incomplete}
	for _, d := range drafts {
		if len(out.List) >= show {
			last := out.List[show-1]
			if s.better(d.n, d.atLeast, last.Shims, last.AtLeast) > 0 {
				break
			}
		}
		if set, ok := s.build(d.at); ok {
			out.Found++
			out.List = append(out.List, set)
			slices.SortStableFunc(out.List, func(a, b Set) int { return s.better(a.Shims, a.AtLeast, b.Shims, b.AtLeast) })
			out.List = out.List[:min(len(out.List), show)]
		}
	}
	return out
}

// better orders by the aim: below zero where a is better. Chances count as
// equal within 1e-9.
func (s solver) better(na int, pa float64, nb int, pb float64) int {
	few, sure := cmp.Compare(na, nb), cmp.Compare(math.Round(1e9*pb), math.Round(1e9*pa))
	if s.Aim == Surest {
		return cmp.Or(sure, few)
	}
	return cmp.Or(few, sure)
}

// build finds packs for a choice of thicknesses in the shared stock.
func (s solver) build(at []int) (Set, bool) {
	groups := make([]group, len(at))
	for p, g := range at {
		groups[p] = s.sums[p][g]
	}
	piles := share(s.kinds, groups, math.MaxInt32)
	if piles == nil {
		return Set{}, false
	}
	set := Set{}
	packs, counts := make([]float64, len(at)), make([]int, len(at))
	for p, pl := range piles {
		set.Packs = append(set.Packs, packOf(s.kinds, pl.uses))
		packs[p], counts[p] = float64(groups[p].um)/1000, pl.n
		set.Shims += pl.n
	}
	set.Readings, set.Chances, set.AtLeast = s.outlook(packs, counts)
	set.Trial = set.AtLeast < surely
	return set, true
}

// outlook is the reading of each outcome, its chance, and the bound for all.
// The shims add PerMM²·n·ShimU² at each position.
func (s solver) outlook(packs []float64, counts []int) (readings []metrology.Estimate, chances []float64, atLeast float64) {
	atLeast = 1
	for _, out := range s.Outcomes {
		e := out.Influence.At(packs)
		v := e.U * e.U
		for p, n := range counts {
			j := out.Influence.PerMM[p] * s.ShimU
			v += j * j * float64(n)
		}
		e.U = math.Sqrt(v)
		p, err := metrology.ConformProbability(e.Value, e.U, out.Lo-slack, out.Hi+slack)
		if err != nil {
			p = 0 // the inputs were checked; a value past all floats lands nowhere
		}
		readings, chances = append(readings, e), append(chances, p)
		atLeast -= 1 - p
	}
	return readings, chances, max(0, atLeast)
}

// nearest finds the least widening of all limits, to a µm, at which some packs
// land; packs of no shim land at some widening.
func (s solver) nearest() error {
	land := func(um int) (Set, bool) {
		out := s.within(float64(um)/1000, 1)
		if len(out.List) == 0 {
			return Set{}, false
		}
		return out.List[0], true
	}
	hi := 1
	best, ok := land(hi)
	for ; !ok && hi < 1<<30; best, ok = land(hi) {
		hi *= 2
	}
	if !ok {
		return fmt.Errorf("no packs of the stock come anywhere near the limits")
	}
	for lo := hi / 2; hi-lo > 1; {
		mid := (lo + hi) / 2
		if set, ok := land(mid); ok {
			hi, best = mid, set
		} else {
			lo = mid
		}
	}
	e := NearestError{Nearest: best}
	for _, p := range s.Positions {
		e.Names = append(e.Names, p.Name)
	}
	for o, r := range best.Readings {
		e.ShortMM = max(e.ShortMM, s.Outcomes[o].Lo-r.Value, r.Value-s.Outcomes[o].Hi)
	}
	return e
}
