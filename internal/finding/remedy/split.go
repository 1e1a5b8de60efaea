package remedy

// piece is a part of the problem that shares nothing with the rest. needs and
// acts give the indexes in the whole.
type piece struct {
	*problem
	need []int
	act  []int
}

// split cuts the problem into its connected pieces, in the order of their
// first need. Acts that cannot be taken tie nothing together, but stay.
func split(p *problem) []piece {
	root := make([]int, len(p.needs)+len(p.jobs))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	join := func(i, j int) { root[max(find(i), find(j))] = min(find(i), find(j)) }
	for _, a := range p.acts {
		first := -1
		tie := func(i int) {
			if first >= 0 {
				join(first, i)
			}
			first = i
		}
		for _, c := range a.covers {
			tie(c.need)
		}
		for _, e := range a.effects {
			tie(p.effects[e].need)
		}
		for _, j := range a.jobs {
			tie(len(p.needs) + j)
		}
	}
	var out []piece
	at := map[int]int{}
	for n := range p.needs {
		r := find(n)
		if _, ok := at[r]; !ok {
			at[r] = len(out)
			out = append(out, piece{problem: &problem{}})
		}
		out[at[r]].need = append(out[at[r]].need, n)
	}
	for a, act := range p.acts {
		if len(act.covers) == 0 {
			continue // no need carries it
		}
		k := at[find(act.covers[0].need)]
		out[k].act = append(out[k].act, a)
	}
	for k := range out {
		out[k].fill(p)
	}
	return out
}

// fill copies the piece's share of the whole under indexes of its own.
func (c *piece) fill(p *problem) {
	needAt, jobAt, effectAt, actAt := map[int]int{}, map[int]int{}, map[int]int{}, map[int]int{}
	for i, n := range c.need {
		needAt[n] = i
	}
	for i, a := range c.act {
		actAt[a] = i
	}
	for _, a := range c.act {
		from := p.acts[a]
		to := act{days: from.days, family: from.family, sizes: from.sizes, wears: from.wears, barred: from.barred}
		for _, j := range from.jobs {
			if _, ok := jobAt[j]; !ok {
				jobAt[j] = len(c.jobs)
				c.jobs = append(c.jobs, p.jobs[j])
			}
			to.jobs = append(to.jobs, jobAt[j])
		}
		for _, v := range from.covers {
			to.covers = append(to.covers, cover{needAt[v.need], v.life})
		}
		for _, e := range from.effects {
			if _, ok := effectAt[e]; !ok {
				effectAt[e] = len(c.effects)
				c.effects = append(c.effects, effect{needAt[p.effects[e].need], p.effects[e].by})
			}
			to.effects = append(to.effects, effectAt[e])
		}
		c.acts = append(c.acts, to)
	}
	for _, n := range c.need {
		own := p.needs[n]
		if own.word >= 0 {
			own.word = actAt[own.word]
		}
		c.needs = append(c.needs, own)
	}
}

// whole gives the acts of a piece by their indexes in the whole.
func (c *piece) whole(acts []int) []int {
	out := make([]int, len(acts))
	for i, a := range acts {
		out[i] = c.act[a]
	}
	return out
}
