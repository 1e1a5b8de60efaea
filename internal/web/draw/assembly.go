package draw

import (
	"slices"
	"strings"
)

// Assembly lays out the parts of one assembly: shafts with what is threaded on
// them along their axes, then covers and the like in rows, what stands on both
// sides in pairs, and what repeats in banks.
func (m Machine) Assembly(sheet string) Sheet {
	var s Sheet
	plan := m.sortOut(m.kinds(func(it Item) bool { return it.Sheet == sheet }))
	y := margin + inset
	y = s.layRows(rowsOf(plan.runs), y)
	for _, p := range plan.pairs {
		y = s.layPairs(p, y)
	}
	y = s.layBanks(plan.banks, y)
	s.Height = max(y-rowGap+inset+margin, 300)
	return s
}

// plan is an assembly sorted out for laying.
type plan struct {
	runs  []run
	pairs []pair
	banks []bank
}

// sortOut parts kinds by how often they stand, and threads what it can on
// shafts. Kinds keep their order.
func (m Machine) sortOut(kinds []kind) plan {
	var p plan
	var single, ends []kind
	for _, k := range kinds {
		switch n := len(k.items); {
		case n == 1:
			single = append(single, k)
		case n == 2 && m.shaftOf(k, kinds) >= 0:
			ends = append(ends, k)
		case n == 2:
			p.pairUp(k)
		default:
			p.bankUp(k)
		}
	}
	p.runs = m.thread(single, ends)
	p.loosen()
	return p
}

// loosen makes ordinary cells of pairs that are too short to be worth two
// axes.
func (p *plan) loosen() {
	long := p.pairs[:0:0]
	for _, pr := range p.pairs {
		if len(pr.kinds) > 2 {
			long = append(long, pr)
			continue
		}
		for _, k := range pr.kinds {
			p.runs = append(p.runs, run{cells: []cell{{kind: k}, {kind: k, item: 1}}, axis: k.threaded()})
		}
	}
	p.pairs = long
}

// shaftOf is the first single shaft that a kind meets, as its place in the
// list, or -1.
func (m Machine) shaftOf(k kind, list []kind) int {
	if !k.threaded() {
		return -1
	}
	return slices.IndexFunc(list, func(s kind) bool {
		return len(s.items) == 1 && s.first().Type != k.first().Type && s.carries() && slices.Contains(k.first().Meets, s.first().Type)
	})
}

// thread makes a run of every shaft that carries something, with a bearing
// that stands at two ends on both sides of it; the rest follows as it comes.
func (m Machine) thread(single, ends []kind) []run {
	on := make([][]kind, len(single))
	taken := map[string]bool{}
	for _, k := range single {
		if i := m.shaftOf(k, single); i >= 0 && !k.carries() {
			on[i] = append(on[i], k)
			taken[k.first().Type] = true
		}
	}
	both := make([][]kind, len(single))
	for _, k := range ends {
		i := m.shaftOf(k, single)
		both[i] = append(both[i], k)
	}
	var runs []run
	for i, k := range single {
		if len(on[i])+len(both[i]) > 0 && !taken[k.first().Type] {
			r := run{axis: true}
			for _, e := range both[i] {
				r.cells = append(r.cells, cell{kind: e})
			}
			r.cells = append(r.cells, cell{kind: k})
			for _, e := range both[i] {
				r.cells = append(r.cells, cell{kind: e, item: 1})
			}
			for _, o := range on[i] {
				r.cells = append(r.cells, cell{kind: o})
			}
			runs = append(runs, r)
			taken[k.first().Type] = true
		}
	}
	return append(runs, rest(single, taken)...)
}

// rest makes runs of what is on no shaft: neighbours that have an axis share
// one.
func rest(single []kind, taken map[string]bool) []run {
	var runs []run
	for _, k := range single {
		if taken[k.first().Type] {
			continue
		}
		n := len(runs)
		if n > 0 && runs[n-1].axis == k.threaded() {
			runs[n-1].cells = append(runs[n-1].cells, cell{kind: k})
			continue
		}
		runs = append(runs, run{cells: []cell{{kind: k}}, axis: k.threaded()})
	}
	return runs
}

func placesOf(k kind) []string {
	var out []string
	for _, it := range k.items {
		out = append(out, it.Place)
	}
	return out
}

// pairUp adds a kind to the pair of its two places.
func (p *plan) pairUp(k kind) {
	places := placesOf(k)
	for i := range p.pairs {
		if slices.Equal(p.pairs[i].places[:], places) {
			p.pairs[i].kinds = append(p.pairs[i].kinds, k)
			return
		}
	}
	p.pairs = append(p.pairs, pair{[2]string(places), []kind{k}})
}

// bankUp adds a kind to the bank of its places.
func (p *plan) bankUp(k kind) {
	places := placesOf(k)
	for i := range p.banks {
		if p.banks[i].family == k.first().Family && slices.Equal(p.banks[i].places, places) {
			p.banks[i].kinds = append(p.banks[i].kinds, k)
			return
		}
	}
	p.banks = append(p.banks, bank{strings.TrimSpace(k.first().Family), places, []kind{k}})
}
