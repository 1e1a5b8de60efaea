package identify

import (
	"cmp"
	"slices"

	"matchmark/internal/trade/catalogue"
)

// group puts items of one envelope together as one candidate and ranks the
// candidates by probability, ties in table order. The likeliest member names
// the candidate, the others and all their equivalents are listed with it.
func group(items []catalogue.Item, ps []float64) []Candidate {
	list := make([]Candidate, 0, len(items))
	best := make([]float64, 0, len(items))
	at := make(map[string]int, len(items))
	for i, it := range items {
		key := it.Envelope()
		k, known := at[key]
		if !known {
			at[key] = len(list)
			list = append(list, Candidate{Item: it, P: ps[i], Equivalents: it.Equivalents})
			best = append(best, ps[i])
			continue
		}
		c := &list[k]
		other := it
		if ps[i] > best[k] {
			best[k] = ps[i]
			other, c.Item = c.Item, it
		}
		c.P += ps[i]
		c.Equivalents = joined(c, other)
	}
	slices.SortStableFunc(list, func(x, y Candidate) int { return cmp.Compare(y.P, x.P) })
	return list
}

// joined is the equivalents of a candidate with another member added, each once
// and the candidate's own name left out. It never writes into a shared slice.
func joined(c *Candidate, other catalogue.Item) []string {
	var all []string
	for _, names := range [][]string{c.Equivalents, c.Item.Equivalents, {other.Designation}, other.Equivalents} {
		for _, n := range names {
			if n != c.Item.Designation && !slices.Contains(all, n) {
				all = append(all, n)
			}
		}
	}
	return all
}
