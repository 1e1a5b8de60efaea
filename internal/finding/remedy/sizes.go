package remedy

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// laySizes gives a family its sizes, those that every member can take, and the
// wear of each member.
func (d *draft) laySizes(a int) {
	from := &d.decided[a]
	for k, i := range from.options {
		var sizes []int64
		for _, s := range d.options[i].remedy.Steps {
			sizes = append(sizes, units(s))
		}
		if k > 0 {
			sizes = slices.DeleteFunc(sizes, func(s int64) bool { return !slices.Contains(d.acts[a].sizes, s) })
		}
		slices.Sort(sizes)
		d.acts[a].sizes = slices.Compact(sizes)
		from.addMembers(d.f, d.m, d.options[i])
	}
	slices.SortFunc(from.members, func(x, y Member) int {
		if c := compareIDs(x.Feature, y.Feature); c != 0 {
			return c
		}
		return compareIDs(x.Checks[0], y.Checks[0])
	})
	for i := range from.members {
		m := &from.members[i]
		wear := units(m.WearMM)
		d.acts[a].wears = append(d.acts[a].wears, wear)
		m.TooFar = wear > 0
		for _, s := range d.acts[a].sizes {
			if s >= wear {
				m.StepNeeded, m.TooFar = float64(s)/1e6, false
				break
			}
		}
		if wear == 0 {
			m.StepNeeded = 0
		}
	}
}

// addMembers adds the surfaces that an option works on. Where the remedy names
// none that grows or shrinks with wear, the check itself is the member, by how
// far it is past its limit.
func (from *actFrom) addMembers(f judge.Findings, m *machine.Machine, o option) {
	for _, ft := range surfaces(m, o) {
		i := slices.IndexFunc(from.members, func(x Member) bool { return x.Feature == ft.ID })
		if i < 0 {
			i = len(from.members)
			wear, known, how := WearOf(ft)
			from.members = append(from.members, Member{Feature: ft.ID, Name: surfaceName(ft), WearMM: wear, Known: known, How: how})
		}
		if !slices.Contains(from.members[i].Checks, o.check.ID) {
			from.members[i].Checks = append(from.members[i].Checks, o.check.ID)
		}
	}
	if len(surfaces(m, o)) > 0 {
		return
	}
	wear, known, how := excess(f.Of(o.check.ID))
	from.members = append(from.members, Member{Name: o.check.Name, Checks: []machine.CheckID{o.check.ID},
		WearMM: wear, Known: known, How: how})
}

// surfaces lists the bores and journals that a remedy works to size.
func surfaces(m *machine.Machine, o option) []*machine.Feature {
	var out []*machine.Feature
	for _, id := range o.remedy.Reworks {
		if ft := m.Feature(id); ft != nil && (ft.Sort == machine.Bore || ft.Sort == machine.Shaft) {
			out = append(out, ft)
		}
	}
	if len(out) > 0 || len(o.remedy.Reworks) > 0 {
		return out
	}
	switch o.check.By {
	case machine.BySize, machine.ByOval, machine.ByTaper, machine.ByWear:
		for _, ft := range []*machine.Feature{o.check.Outer, o.check.Inner} {
			if ft != nil && (ft.Sort == machine.Bore || ft.Sort == machine.Shaft) {
				out = append(out, ft)
			}
		}
	}
	return out
}

// WearOf is the wear of a bore or journal on diameter, in mm, at its worst
// point, so that out-of-round is in it. It counts from the nominal size; from
// the unworn surface where the nominal is not known or is only common
// practice and that surface was read. Readings are taken as they are, without
// correction for temperature. known is false while there is nothing to count
// from or nothing read; how says which.
func WearOf(ft *machine.Feature) (wearMM float64, known bool, how string) {
	var worn, fresh []float64
	for _, r := range ft.Current() {
		switch {
		case r.Amount.Unit != "" && r.Amount.Unit != "mm":
		case r.Unworn:
			fresh = append(fresh, r.Amount.Value)
		default:
			worn = append(worn, r.Amount.Value)
		}
	}
	if len(worn) == 0 {
		return 0, false, "not read: assumed to clean up"
	}
	var from float64
	switch {
	case ft.Nominal != nil && (len(fresh) == 0 || ft.Nominal.From.Rank() < machine.CommonPractice.Rank()):
		from, how = ft.Nominal.MM, fmt.Sprintf("from nominal %.3f, %s", ft.Nominal.MM, ft.Nominal.From)
	case len(fresh) > 0:
		for _, v := range fresh {
			from += v / float64(len(fresh))
		}
		how = fmt.Sprintf("from the unworn surface, %.3f", from)
	default:
		return 0, false, "neither nominal nor unworn size known: assumed to clean up"
	}
	for _, v := range worn {
		grown := v - from
		if ft.Sort == machine.Shaft {
			grown = -grown
		}
		wearMM = math.Max(wearMM, grown)
	}
	return float64(units(wearMM)) / 1e6, true, how
}

// excess is how far a check read in mm is past its limit.
func excess(f *judge.Finding) (mm float64, known bool, how string) {
	_, _, value, ok := rejudged(f)
	if !ok || f.Check.Unit != "mm" {
		return 0, false, "no figure of wear: assumed to clean up"
	}
	past := math.Max(0, math.Max(value-f.Limit.High, f.Limit.Low-value))
	return float64(units(past)) / 1e6, true, "no surface is named: taken as how far it is past its limit"
}

// surfaceName is the part's name with the surface's: "Liner, cylinder 2, bore".
func surfaceName(ft *machine.Feature) string {
	name := ft.Name
	if name == "" {
		name = ft.ID.Name()
	}
	if ft.Part == nil || strings.HasPrefix(name, ft.Part.Name) {
		return name
	}
	return ft.Part.Name + ", " + name
}
