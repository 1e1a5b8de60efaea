package remedy

import (
	"slices"
	"strconv"

	"matchmark/internal/machine"
)

// worked lists the parts that make a remedy a job of its own: those it
// reworks, else those it renews without one-use parts, else all it renews.
func worked(m *machine.Machine, r *machine.Remedy) []machine.PartID {
	var out []machine.PartID
	for _, f := range r.Reworks {
		out = append(out, f.Part())
	}
	if len(out) == 0 {
		for _, id := range r.Renews {
			if p := m.Part(id); p != nil && !p.OneUse {
				out = append(out, id)
			}
		}
	}
	if len(out) == 0 {
		out = slices.Clone(r.Renews)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// jobThings names what makes options with one key one job: the parts worked on;
// for a remedy that names no part its check and those it mends.
func jobThings(m *machine.Machine, c *machine.Check, r *machine.Remedy) []string {
	var out []string
	for _, p := range worked(m, r) {
		out = append(out, string(p))
	}
	if len(out) > 0 {
		return out
	}
	out = append(out, string(machine.RefCheck(c.ID)))
	for _, id := range r.Mends {
		out = append(out, string(machine.RefCheck(id)))
	}
	return out
}

// workThings names what makes options with one key one piece of work: the
// surfaces reworked, else what makes them one job.
func workThings(m *machine.Machine, c *machine.Check, r *machine.Remedy) []string {
	if len(r.Reworks) == 0 {
		return jobThings(m, c, r)
	}
	out := make([]string, len(r.Reworks))
	for i, f := range r.Reworks {
		out[i] = string(f)
	}
	return out
}

// together numbers the options so that those with one key that have a thing in
// common, directly or through others, get one number, in order of the first.
func (d *draft) together(things func(*machine.Machine, *machine.Check, *machine.Remedy) []string) []int {
	type place struct{ key, thing string }
	owner, root := map[place]int{}, make([]int, len(d.options))
	find := func(i int) int {
		for root[i] != i {
			i = root[i]
		}
		return i
	}
	for i, o := range d.options {
		root[i] = i
		for _, thing := range things(d.m, o.check, o.remedy) {
			at := place{o.remedy.Key, thing}
			if j, ok := owner[at]; ok {
				a, b := find(i), find(j)
				root[max(a, b)] = min(a, b)
			} else {
				owner[at] = i
			}
		}
	}
	index, out := map[int]int{}, make([]int, len(d.options))
	for i := range d.options {
		r := find(i)
		if _, ok := index[r]; !ok {
			index[r] = len(index)
		}
		out[i] = index[r]
	}
	return out
}

// layJobs ties options with one key that work on a common part into one job.
// Its price and time are the greatest any of them states.
func (d *draft) layJobs() {
	for i, j := range d.together(jobThings) {
		if j == len(d.shops) {
			d.shops = append(d.shops, shop{})
		}
		d.options[i].job = j
		d.shops[j].add(i, d.options[i].remedy)
	}
	for _, s := range d.shops {
		d.jobs = append(d.jobs, s.cost)
	}
}

func (s *shop) add(i int, r *machine.Remedy) {
	s.options = append(s.options, i)
	s.cost = max(s.cost, hundredths(r.Cost))
	s.days = max(s.days, hundredths(r.Days))
	if s.group == "" && sized(r) {
		s.group = r.Group
	}
}

// layActs makes the decisions: a size group as a whole, and of every other job
// each piece of work, with all that it does to any check.
func (d *draft) layActs() {
	effects := d.layEffects()
	index := map[string]int{}
	for i, work := range d.together(workThings) {
		j := d.options[i].job
		key := "group " + string(d.shops[j].group)
		if d.shops[j].group == "" {
			key = "work " + strconv.Itoa(work)
		}
		a, ok := index[key]
		if !ok {
			a = len(d.acts)
			index[key] = a
			d.acts = append(d.acts, act{family: d.shops[j].group != ""})
			d.decided = append(d.decided, actFrom{group: d.shops[j].group})
		}
		d.options[i].act = a
		d.decided[a].options = append(d.decided[a].options, i)
		to := &d.acts[a]
		to.jobs = addOnce(to.jobs, j)
		to.days = max(to.days, d.shops[j].days)
		for _, e := range effects[i] {
			to.effects = addOnce(to.effects, e)
		}
		d.layCovers(to, d.options[i])
	}
	for a := range d.acts {
		slices.SortFunc(d.acts[a].covers, func(x, y cover) int { return x.need - y.need })
		if d.acts[a].family {
			d.laySizes(a)
		}
	}
	d.layWords()
}

func addOnce(list []int, n int) []int {
	if slices.Contains(list, n) {
		return list
	}
	return append(list, n)
}

// layEffects numbers what jobs do to values that are judged; a job moves one
// value once, by the greatest amount any of its options states. It gives the
// effects of each option, ascending.
func (d *draft) layEffects() [][]int {
	type hit struct{ job, need int }
	at, out := map[hit]int{}, make([][]int, len(d.options))
	for i, o := range d.options {
		for _, s := range o.remedy.Shifts {
			n, ok := d.at[s.Check]
			by := units(s.By)
			if !ok || !d.needs[n].judged || by == 0 {
				continue
			}
			e, ok := at[hit{o.job, n}]
			if !ok {
				e = len(d.effects)
				at[hit{o.job, n}] = e
				d.effects = append(d.effects, effect{need: n})
			}
			d.effects[e].by = greater(d.effects[e].by, by)
			out[i] = addOnce(out[i], e)
		}
		slices.Sort(out[i])
	}
	return out
}

// greater is the amount of greater size; of equal ones the negative.
func greater(a, b int64) int64 {
	if abs(a) > abs(b) || abs(a) == abs(b) && a < b {
		return a
	}
	return b
}

func abs(a int64) int64 { return max(a, -a) }

// layCovers adds what an option makes good: its own check and those it mends,
// as far as anybody asks for them.
func (d *draft) layCovers(to *act, o option) {
	for _, id := range append([]machine.CheckID{o.check.ID}, o.remedy.Mends...) {
		n, ok := d.at[id]
		if !ok || !(d.needs[n].must || d.needs[n].judged && d.full[id]) {
			continue
		}
		life := lifeOf(d.m, d.f.Of(id), o.remedy)
		if i := slices.IndexFunc(to.covers, func(c cover) bool { return c.need == n }); i >= 0 {
			to.covers[i].life = max(to.covers[i].life, life)
			continue
		}
		to.covers = append(to.covers, cover{n, life})
	}
}

// layWords fixes the checks on which the person has spoken.
func (d *draft) layWords() {
	for _, o := range d.options {
		if w := d.word[o.check.ID]; w != nil && w.Key == o.remedy.Key {
			d.needs[o.need].word = o.act
			if d.acts[o.act].family {
				d.needs[o.need].size = units(w.Step)
			}
		}
	}
}
