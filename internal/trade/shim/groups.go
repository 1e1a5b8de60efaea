package shim

import (
	"cmp"
	"fmt"
	"slices"
)

// use is some shims of one kind.
type use struct{ kind, n int }

// pile is a pack as uses of the kinds of the stock, thickest first.
type pile struct {
	uses []use
	n    int
}

// group is all piles of one thickness at one position, fewest shims first.
type group struct {
	um    int
	piles []pile
}

// groupsOf lists the thicknesses that a position can take, thinnest first.
// Errors: more than mostPacks piles.
func groupsOf(kinds []kind, p Position) ([]group, error) {
	if n := pilesOf(kinds, p.MaxShims); n > mostPacks {
		return nil, fmt.Errorf("%s: %d kinds of shim, up to %d in a pack, give %d packs; at most %d were wanted, so fewer shims in a pack",
			p.Name, len(kinds), p.MaxShims, n, mostPacks)
	}
	byUM := map[int][]pile{}
	var uses []use
	var walk func(i, left, um int)
	walk = func(i, left, um int) {
		if i == len(kinds) || left == 0 {
			byUM[um] = append(byUM[um], pile{slices.Clone(uses), p.MaxShims - left})
			return
		}
		for n := min(left, kinds[i].count); n > 0; n-- {
			uses = append(uses, use{i, n})
			walk(i+1, left-n, um+n*kinds[i].um)
			uses = uses[:len(uses)-1]
		}
		walk(i+1, left, um)
	}
	walk(0, p.MaxShims, 0)
	groups := make([]group, 0, len(byUM))
	for um, piles := range byUM { // the walk met the thickest first
		slices.SortStableFunc(piles, func(a, b pile) int { return cmp.Compare(a.n, b.n) })
		groups = append(groups, group{um, piles})
	}
	slices.SortFunc(groups, func(a, b group) int { return cmp.Compare(a.um, b.um) })
	return groups, nil
}

// pilesOf counts the packs of up to most shims.
func pilesOf(kinds []kind, most int) int {
	ways := make([]int, most+1) // by number of shims
	ways[0] = 1
	for _, k := range kinds {
		next := make([]int, most+1)
		for n := range next {
			for c := 0; c <= min(n, k.count); c++ {
				next[n] += ways[n-c]
			}
		}
		ways = next
	}
	sum := 0
	for _, w := range ways {
		sum += w
	}
	return sum
}

// share finds piles for all groups with the fewest shims in sum that the stock
// can give together; nil where it cannot. below is a bound that must be beaten.
func share(kinds []kind, groups []group, below int) []pile {
	used, now := make([]int, len(kinds)), make([]pile, len(groups))
	least := make([]int, len(groups)+1) // of the groups from i on, each alone
	for i := len(groups) - 1; i >= 0; i-- {
		least[i] = least[i+1] + groups[i].piles[0].n
	}
	var best []pile
	var walk func(i, n int)
	walk = func(i, n int) {
		if n+least[i] >= below {
			return
		}
		if i == len(groups) {
			best, below = slices.Clone(now), n
			return
		}
		for _, p := range groups[i].piles {
			if n+p.n+least[i+1] >= below {
				return // sorted: no later pile is smaller
			}
			if !take(used, p.uses, kinds) {
				continue
			}
			now[i] = p
			walk(i+1, n+p.n)
			for _, u := range p.uses {
				used[u.kind] -= u.n
			}
		}
	}
	walk(0, 0)
	return best
}

// take books uses, or leaves the books as they were where the stock ends.
func take(used []int, uses []use, kinds []kind) bool {
	for _, u := range uses {
		if used[u.kind]+u.n > kinds[u.kind].count {
			return false
		}
	}
	for _, u := range uses {
		used[u.kind] += u.n
	}
	return true
}
