package remedy

import (
	"math"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// draft is the problem of a machine with where each index comes from.
type draft struct {
	*problem
	m       *machine.Machine
	f       judge.Findings
	checks  []*machine.Check // by need
	options []option
	shops   []shop    // by job
	decided []actFrom // by act
	notes   []string

	at     map[machine.CheckID]int
	full   map[machine.CheckID]bool // all remedies may be taken
	group  map[machine.CheckID][]machine.SizeGroup
	with   map[machine.CheckID][]string // keys of remedies that are the same work as another check's
	byKey  map[string][]bearer
	failed map[machine.CheckID]bool
	word   map[machine.CheckID]*machine.Chosen
}

// option is one remedy of one check.
type option struct {
	need   int
	check  *machine.Check
	remedy *machine.Remedy
	job    int
	act    int
}

// shop is a job: one remedy key on one part instance.
type shop struct {
	options []int
	group   machine.SizeGroup // with sizes; empty for none
	cost    int64
	days    int64
}

// actFrom says what an act is made of.
type actFrom struct {
	options []int
	group   machine.SizeGroup
	members []Member
}

// newDraft builds the problem of all failing checks of a machine.
func newDraft(m *machine.Machine, f judge.Findings) *draft {
	d := &draft{problem: &problem{}, m: m, f: f, at: map[machine.CheckID]int{}, full: map[machine.CheckID]bool{},
		group: map[machine.CheckID][]machine.SizeGroup{}, with: map[machine.CheckID][]string{}, byKey: bearers(m), failed: map[machine.CheckID]bool{},
		word: map[machine.CheckID]*machine.Chosen{}}
	d.gather()
	d.layNeeds()
	d.layOptions()
	d.layJobs()
	d.layActs()
	return d
}

// bearer is a check with one of its remedies.
type bearer struct {
	check  *machine.Check
	remedy *machine.Remedy
}

// bearers lists, for every key, the checks with a remedy of that key.
func bearers(m *machine.Machine) map[string][]bearer {
	out := map[string][]bearer{}
	for _, c := range m.Checks {
		for i := range c.Remedies {
			r := &c.Remedies[i]
			out[r.Key] = append(out[r.Key], bearer{c, r})
		}
	}
	return out
}

// gather finds the checks that matter: those that fail, all members of the
// size groups their remedies belong to, those for which the same work is a
// remedy, and those that any of it shifts.
func (d *draft) gather() {
	var queue []machine.CheckID
	want := func(id machine.CheckID) {
		if d.m.Check(id) != nil && !d.full[id] {
			d.full[id] = true
			queue = append(queue, id)
		}
	}
	for _, c := range d.m.Checks {
		d.word[c.ID] = wordOn(c)
		f := d.f.Of(c.ID)
		if d.word[c.ID] != nil || f != nil && f.Verdict == judge.Worn && !waiting(c) {
			d.failed[c.ID] = true
			want(c.ID)
		}
	}
	for len(queue) > 0 {
		c := d.m.Check(queue[0])
		queue = queue[1:]
		for _, r := range d.offered(c) {
			for _, s := range r.Shifts {
				want(s.Check)
			}
			if sized(r) {
				d.joinGroup(r.Group, want)
			} else {
				d.joinWork(c, r, want)
			}
		}
	}
}

// joinWork brings in every check for which the same work on the same surface
// or part is a remedy: done for one, it is done for all, with all it shifts.
func (d *draft) joinWork(c *machine.Check, r *machine.Remedy, want func(machine.CheckID)) {
	mine := workThings(d.m, c, r)
	for _, b := range d.byKey[r.Key] {
		overlap := slices.ContainsFunc(workThings(d.m, b.check, b.remedy), func(x string) bool { return slices.Contains(mine, x) })
		if b.remedy == r || !overlap || sized(b.remedy) || slices.Contains(d.with[b.check.ID], r.Key) {
			continue
		}
		d.with[b.check.ID] = append(d.with[b.check.ID], r.Key)
		for _, s := range b.remedy.Shifts {
			want(s.Check)
		}
		d.joinWork(b.check, b.remedy, want)
	}
}

// joinGroup brings in every check that carries a remedy of a size group.
func (d *draft) joinGroup(g machine.SizeGroup, want func(machine.CheckID)) {
	for _, c := range d.m.Checks {
		if slices.Contains(d.group[c.ID], g) {
			continue
		}
		for i := range c.Remedies {
			if r := &c.Remedies[i]; r.Group == g && sized(r) {
				d.group[c.ID] = append(d.group[c.ID], g)
				for _, s := range r.Shifts {
					want(s.Check)
				}
				break
			}
		}
	}
}

// offered lists the remedies of a check that may be taken, by key: the one
// chosen where the person has spoken, else all that do something; with them
// those of its size groups and those that are the same work as another check's.
func (d *draft) offered(c *machine.Check) []*machine.Remedy {
	var out []*machine.Remedy
	word, spoken := d.word[c.ID], false
	for i := range c.Remedies {
		r := &c.Remedies[i]
		chosen := word != nil && word.Key == r.Key
		free := word == nil && d.full[c.ID] && !leavesAlone(r)
		grouped := sized(r) && slices.Contains(d.group[c.ID], r.Group)
		same := slices.Contains(d.with[c.ID], r.Key)
		twice := slices.ContainsFunc(out, func(o *machine.Remedy) bool { return o.Key == r.Key })
		if (chosen || free || grouped || same) && !twice {
			out = append(out, r)
		}
		spoken = spoken || chosen
	}
	if word != nil && !spoken {
		out = append(out, &machine.Remedy{Key: word.Key, Name: word.Key})
	}
	slices.SortFunc(out, func(a, b *machine.Remedy) int { return strings.Compare(a.Key, b.Key) })
	return out
}

// layNeeds puts the checks in order and gives each its condition.
func (d *draft) layNeeds() {
	for _, c := range d.m.Checks {
		if d.full[c.ID] || len(d.group[c.ID])+len(d.with[c.ID]) > 0 {
			d.checks = append(d.checks, c)
		}
	}
	slices.SortFunc(d.checks, func(a, b *machine.Check) int { return compareIDs(a.ID, b.ID) })
	for i, c := range d.checks {
		d.at[c.ID] = i
		n := need{must: d.failed[c.ID], word: -1}
		if low, high, value, ok := rejudged(d.f.Of(c.ID)); ok && !n.must {
			n.judged, n.value, n.low, n.high = true, units(value), units(low), units(high)
		}
		d.needs = append(d.needs, n)
	}
}

// layOptions lists every remedy that may be taken, by check and key.
func (d *draft) layOptions() {
	for i, c := range d.checks {
		for _, r := range d.offered(c) {
			d.options = append(d.options, option{need: i, check: c, remedy: r, job: -1, act: -1})
		}
		if w := d.word[c.ID]; w != nil && c.Remedy(w.Key) == nil {
			d.notes = append(d.notes, c.Name+": the remedy chosen, "+w.Key+", is none of its own; its cost and time are not counted.")
		}
	}
}

// wordOn is the person's choice for a check while it is not carried out.
func wordOn(c *machine.Check) *machine.Chosen {
	if c.Chosen == nil {
		return nil
	}
	for _, d := range c.Done {
		if !before(d.Stamp, c.Chosen.Stamp) {
			return nil
		}
	}
	return c.Chosen
}

// waiting tells whether a remedy was carried out and nothing was read or
// looked at since.
func waiting(c *machine.Check) bool {
	if len(c.Done) == 0 {
		return false
	}
	last := c.Done[len(c.Done)-1].Stamp
	readings := slices.Clone(c.Readings)
	for _, ft := range []*machine.Feature{c.Outer, c.Inner} {
		if ft != nil {
			readings = append(readings, ft.Readings...)
		}
	}
	for _, r := range readings {
		if before(last, r.Stamp) {
			return false
		}
	}
	return !slices.ContainsFunc(c.Looks, func(l *machine.Look) bool { return before(last, l.Stamp) })
}

// before orders stamps as the log does: by time, then by entry.
func before(a, b machine.Stamp) bool {
	if c := a.At.Compare(b.At); c != 0 {
		return c < 0
	}
	return a.Entry < b.Entry
}

// sized tells whether a remedy belongs to a group that shares one size.
func sized(r *machine.Remedy) bool { return r.Group != "" && len(r.Steps) > 0 }

// leavesAlone tells whether a remedy only accepts what is there.
func leavesAlone(r *machine.Remedy) bool {
	return r.Cost == 0 && r.Days == 0 && len(r.Renews)+len(r.Reworks)+len(r.Mends)+len(r.Shifts)+len(r.Steps) == 0
}

// rejudged gives the value of a read check and what it must keep to once
// something moves it: its limits, and the least of a rebuilt fit. A value that
// is past them already may stay but not go further. It fails for a check
// without a value or without figures for limits.
func rejudged(f *judge.Finding) (low, high, value float64, ok bool) {
	if f == nil || f.Read == 0 || f.Verdict == judge.NotRead || f.Verdict == judge.NoLimit {
		return 0, 0, 0, false
	}
	low, high = math.Max(f.Limit.Low, f.Limit.NewLow), f.Limit.High
	if f.Check.By == machine.ByEye || f.Check.By == machine.ByPassage || math.IsInf(low, -1) && math.IsInf(high, 1) {
		return 0, 0, 0, false
	}
	return math.Min(low, f.Value), math.Max(high, f.Value), f.Value, true
}

// units turns mm, or whatever the check is in, into millionths; what has no
// bound stays far away.
func units(v float64) int64 {
	const most = float64(far / 4)
	return int64(math.Round(math.Max(-most, math.Min(most, v*1e6))))
}

// hundredths turns hours or days into whole hundredths.
func hundredths(v float64) int64 { return int64(math.Round(v * 100)) }

// compareIDs orders instances by type, then by place, 2 before 10.
func compareIDs[T ~string](a, b T) int {
	ta, pa := machine.Split(a)
	tb, pb := machine.Split(b)
	if c := strings.Compare(string(ta), string(tb)); c != 0 {
		return c
	}
	if len(pa) != len(pb) {
		return len(pa) - len(pb)
	}
	return strings.Compare(string(pa), string(pb))
}
