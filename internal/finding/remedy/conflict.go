package remedy

// conflict shrinks the musts of a problem that cannot be met to an irreducible
// set: any one of them left out, the others can be met. It tries each in turn
// and leaves out those that are not needed for the contradiction. Where a
// search is cut short the need is kept, so the set may then be larger than it
// has to be. Cost: one search for each must.
func (b *budget) conflict(p *problem) []int {
	gone := make([]bool, len(p.needs))
	for n := range p.needs {
		if !p.needs[n].must {
			continue
		}
		gone[n] = true
		if yes, sure := b.possible(p.without(gone)); yes || !sure {
			gone[n] = false
		}
	}
	var out []int
	for n := range p.needs {
		if p.needs[n].must && !gone[n] {
			out = append(out, n)
		}
	}
	return out
}
