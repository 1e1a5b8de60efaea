package sequence

import "matchmark/internal/machine"

// hoursBook shares the kit's likely hours of an assembly out over its steps.
type hoursBook struct {
	of map[machine.AssemblyID]*share
}

type share struct {
	machine.AssemblyAdded
	joints, parts, checks float64 // how many share the hours
	closing               float64 // sum of the joints' own hours
}

func newHoursBook(m *machine.Machine) hoursBook {
	b := hoursBook{of: map[machine.AssemblyID]*share{}}
	for _, a := range m.Assemblies {
		b.of[a.ID] = &share{AssemblyAdded: a.AssemblyAdded}
	}
	for _, j := range m.Joints {
		if s := b.of[j.Assembly]; s != nil {
			s.joints++
			s.closing += j.Hours
		}
	}
	for _, p := range m.Parts {
		if s := b.of[p.Assembly]; s != nil {
			s.parts++
		}
	}
	for _, c := range m.Checks {
		if s := b.of[c.Assembly]; s != nil {
			s.checks++
		}
	}
	return b
}

// close is the joint's own hours, else its share of the assembly's building.
func (b hoursBook) close(j *machine.Joint) float64 {
	if j.Hours > 0 {
		return j.Hours
	}
	if s := b.of[j.Assembly]; s != nil {
		return s.Build.Likely / s.joints
	}
	return 0
}

// open is the joint's share of the assembly's stripping, by its closing hours.
func (b hoursBook) open(j *machine.Joint) float64 {
	s := b.of[j.Assembly]
	if s == nil {
		return 0
	}
	if s.closing > 0 {
		return s.Strip.Likely * j.Hours / s.closing
	}
	return s.Strip.Likely / s.joints
}

func (b hoursBook) check(c *machine.Check) float64 {
	if s := b.of[c.Assembly]; s != nil {
		return s.Measure.Likely / s.checks
	}
	return 0
}

func (b hoursBook) clean(p *machine.Part) float64 {
	if s := b.of[p.Assembly]; s != nil {
		return s.Clean.Likely / s.parts
	}
	return 0
}
