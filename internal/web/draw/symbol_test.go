package draw

import (
	"maps"
	"slices"
	"strings"
	"testing"
)

// everySort lists the symbols of all tables.
func everySort() []string {
	var all []string
	for _, table := range []map[string]Symbol{turnings, engineParts, castings, fittings, bodyParts} {
		all = slices.AppendSeq(all, maps.Keys(table))
	}
	return slices.Sorted(slices.Values(slices.AppendSeq(all, maps.Keys(counted))))
}

// TestSymbolsKeepToTheirBoxes: every symbol reads, has a body, and draws
// nothing outside its box but a hair, lying and standing.
func TestSymbolsKeepToTheirBoxes(t *testing.T) {
	for _, sort := range everySort() {
		for _, n := range []int{0, 1, 2, 4, 9, 60} {
			s := Of(sort, n)
			for _, text := range []string{s.body, s.fine} {
				if _, err := parse(text); err != nil {
					t.Fatalf("%s: %v", sort, err)
				}
			}
			for _, turned := range []bool{false, true} {
				w, h := s.size(turned)
				d := s.trace(w, h, turned)
				if len(d.edges) < 3 {
					t.Errorf("%s, %d: no outline", sort, n)
				}
				room := box{0, 0, w, h}.grown(2.5)
				for _, e := range d.edges {
					if !room.holds(box{e.to.x, e.to.y, 0, 0}) {
						t.Errorf("%s, %d: draws at %.1f, %.1f outside %.0f by %.0f", sort, n, e.to.x, e.to.y, w, h)
						break
					}
				}
			}
		}
	}
}

// TestNoSymbolTwice: a sort stands in one table only, and every word leads to
// a sort that is there.
func TestNoSymbolTwice(t *testing.T) {
	all := everySort()
	for i := 1; i < len(all); i++ {
		if all[i] == all[i-1] {
			t.Errorf("%q stands in two tables", all[i])
		}
	}
	for word, sort := range words {
		if !slices.Contains(all, sort) {
			t.Errorf("%q leads to %q, which is no symbol", word, sort)
		}
		if word != strings.ToLower(word) {
			t.Errorf("%q has a capital and is never found", word)
		}
	}
}

// TestNoSymbolIdle: every symbol is one that some word means.
func TestNoSymbolIdle(t *testing.T) {
	meant := map[string]bool{"block-plain": true}
	for _, sort := range words {
		meant[sort] = true
	}
	for _, sort := range everySort() {
		if !meant[sort] {
			t.Errorf("no word means the symbol %q", sort)
		}
	}
}

func TestPathFaults(t *testing.T) {
	for _, bad := range []string{"M0", "X1 2", "M0 0Z1", "L1 a", "A1 2 3", "Q1 2 3"} {
		if _, err := parse(bad); err == nil {
			t.Errorf("%q reads as a path", bad)
		}
	}
}

// TestSortOf names parts as kits do and as a user might.
func TestSortOf(t *testing.T) {
	for _, row := range []struct {
		it   Item
		want string
	}{
		{Item{Kind: "Clutch cover bolt"}, "bolt"},
		{Item{Kind: "Clutch (bell) housing"}, "bell"},
		{Item{Kind: "Injection pump drive gear"}, "gear"},
		{Item{Kind: "Injection pump body"}, "injpump"},
		{Item{Kind: "Crank pulley bolt/nut or starting dog"}, "bolt"},
		{Item{Kind: "Rim to disc bolt"}, "bolt"},
		{Item{Kind: "Return pipe to tank"}, "pipe"},
		{Item{Kind: "Timing cover gasket"}, "gasket"},
		{Item{Kind: "Tappet bore (of the block)"}, "tappetbore"},
		{Item{Kind: "Pinion rear (head) taper bearing"}, "taper"},
		{Item{Kind: "Valve spring retainer"}, "retainer"},
		{Item{Kind: "Seals"}, "seal"},
		{Item{Kind: "Thingummy", Journals: 2}, "shaft"},
		{Item{Kind: "Thingummy", Bores: 1}, "bush"},
		{Item{Kind: "Thingummy", MassKg: 20}, "housing"},
		{Item{Kind: "Thingummy", Material: "paper"}, "gasket"},
		{Item{Kind: "Thingummy"}, "block-plain"},
		{Item{Kind: ""}, "block-plain"},
	} {
		if got := SortOf(row.it); got != row.want {
			t.Errorf("%+v is drawn as %q, want %q", row.it, got, row.want)
		}
	}
}

// TestCountedSymbols: what a symbol shows several of, it shows that many of.
func TestCountedSymbols(t *testing.T) {
	for n := 1; n <= 6; n++ {
		if got := strings.Count(engineBlock(n).fine, "M") - 3; got%n != 0 || got == 0 {
			t.Errorf("a block of %d shows %d strokes of bores", n, got)
		}
		if got := strings.Count(headGasket(n).body, "O"); got != n {
			t.Errorf("a head gasket of %d has %d bores", n, got)
		}
		if got := strings.Count(manifold(n).body, "V100"); got != n {
			t.Errorf("a manifold of %d has %d branches", n, got)
		}
		if got := strings.Count(injectionPump(n).body, "V0"); got != n {
			t.Errorf("an injection pump of %d has %d unions", n, got)
		}
		if got := strings.Count(crankshaft(n).fine, "M"); got != n {
			t.Errorf("a crankshaft of %d has %d pins", n, got)
		}
		if got := strings.Count(cylinderHead(n).fine, "O"); got != 2*n {
			t.Errorf("a head of %d has %d ports", n, got)
		}
	}
	for _, teeth := range []int{12, 17, 24, 38} {
		// Half the teeth are in view, with a line between each two of them.
		if got := strings.Count(gear(teeth).fine, "H80"); got != teeth/2-1 {
			t.Errorf("a gear of %d teeth shows %d lines", teeth, got)
		}
	}
}
