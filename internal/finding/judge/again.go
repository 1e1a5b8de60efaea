package judge

import (
	"reflect"
	"slices"

	"matchmark/internal/machine"
)

// Again gives what All gives of m. was is what All or Again gave of before, a
// machine that m was folded on from: what was found on a check is carried over
// where nothing that judging it reads has changed since.
// Cost: linear in checks and readings, with a small factor, and that of judging
// the checks that changed.
func Again(m, before *machine.Machine, was Findings) Findings {
	if before == nil || !m.DeclaredAs(before) {
		return All(m)
	}
	out := Findings{byID: make(map[machine.CheckID]*Finding, len(m.Checks)), List: make([]*Finding, 0, len(m.Checks))}
	b, news := newBench(m), newsBetween(before, m)
	for i, c := range m.Checks {
		f := new(Finding)
		if news.bearOn(m, c) {
			f = b.judge(c)
		} else {
			*f = *was.List[i]
			f.Check = c
		}
		out.List = append(out.List, f)
		out.byID[c.ID] = f
	}
	return out
}

// news is what differs between two machines that are declared alike, of all
// that judging reads.
type news struct {
	checks   []bool        // by number: read, looked at, remedied or open again
	features []bool        // by number: read, given a nominal, reworked or renewed
	kinds    map[kind]bool // kinds of the features
	remedied bool          // some check has a remedy done that it had not
}

// kind is the surface of one name on one type of part: a proposal for the size
// of one may go by another.
type kind struct {
	part machine.PartID
	name string
}

func kindOf(ft *machine.Feature) kind { return kind{ft.Part.Type, ft.ID.Name()} }

func newsBetween(before, m *machine.Machine) news {
	n := news{checks: make([]bool, len(m.Checks)), features: make([]bool, len(m.Features)), kinds: map[kind]bool{}}
	for i, ft := range m.Features {
		if !sameFeature(ft, before.Features[i]) {
			n.features[i] = true
			n.kinds[kindOf(ft)] = true
		}
	}
	for i, c := range m.Checks {
		old := before.Checks[i]
		done := !slices.EqualFunc(c.Done, old.Done, func(a, b machine.Done) bool { return reflect.DeepEqual(a, b) })
		n.remedied = n.remedied || done
		n.checks[i] = done || c.Version != old.Version ||
			!slices.EqualFunc(c.Readings, old.Readings, sameReading) ||
			!slices.EqualFunc(c.Looks, old.Looks, func(a, b *machine.Look) bool { return *a == *b }) ||
			!slices.EqualFunc(c.Parts, old.Parts, func(a, b *machine.Part) bool { return a.Version == b.Version })
	}
	return n
}

// bearOn tells whether the verdict on a check may be another now. A check reads
// its own record, the surfaces it is worked out from, and the surface its limits
// are a formula of, for which any surface of the same kind may stand in; one by
// wear also the remedies done on all checks. Data and instruments are declared.
func (n *news) bearOn(m *machine.Machine, c *machine.Check) bool {
	if n.checks[c.Number()] || n.remedied && c.By == machine.ByWear {
		return true
	}
	for _, ft := range c.Surfaces() {
		if n.features[ft.Number()] {
			return true
		}
	}
	if c.Size == nil {
		return false
	}
	ft := m.Feature(c.Size.Feature)
	return ft != nil && n.kinds[kindOf(ft)]
}

func sameFeature(a, b *machine.Feature) bool {
	return a.Version == b.Version && a.Part.Version == b.Part.Version && sameNominal(a.Nominal, b.Nominal) &&
		slices.EqualFunc(a.Readings, b.Readings, sameReading)
}

func sameNominal(a, b *machine.Nominal) bool {
	if a == nil || b == nil {
		return a == b
	}
	return *a == *b
}

// sameReading compares all of two readings. A temperature is the same where it
// is that of one entry.
func sameReading(a, b *machine.Reading) bool {
	return a.Stamp == b.Stamp && a.Amount == b.Amount && a.Level == b.Level && a.Axis == b.Axis && a.Unworn == b.Unworn &&
		a.Tool == b.Tool && a.Setting == b.Setting && sameSetting(a.Set, b.Set) && a.TempC == b.TempC && a.Note == b.Note &&
		a.Version == b.Version && slices.Equal(a.Seen, b.Seen)
}

func sameSetting(a, b *machine.Setting) bool {
	if a == nil || b == nil {
		return a == b
	}
	return *a == *b
}
