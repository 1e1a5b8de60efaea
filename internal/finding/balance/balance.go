// Package balance counts what came off against what went back: pieces of
// parts, fasteners and shims. It is pure.
//
// A part nobody counted is taken to have the pieces its declaration names; the
// sheet says which were counted. What it cannot detect: a piece that was put
// back elsewhere, and fasteners that nobody wrote down.
package balance

import (
	"fmt"

	"matchmark/internal/machine"
)

// Sheet is the balance of a machine.
type Sheet struct {
	Parts  []PartLine  // in the machine's order
	Joints []JointLine // those ever opened, in the machine's order
	Done   bool        // every joint that was opened is closed for good again
	Even   bool        // Done, and nothing left over, missing or unwritten
	Words  []string    // what is wrong or still out, in sentences; or that all is even
}

// Where a part is.
type Where string

const (
	On   Where = "on the machine" // never came off, as far as is written
	Off  Where = "off"
	Away Where = "away" // sent out, or ordered
	Back Where = "back"
)

// PartLine is one part.
type PartLine struct {
	Part     *machine.Part
	Expected int  // pieces declared
	Found    int  // pieces counted, else Expected
	Counted  bool // somebody counted
	Missing  int
	Extra    int
	Where    Where
	LeftOver bool // still off though every joint of it is closed
	Words    string
}

// Of draws up the balance. Cost: linear in the machine.
func Of(m *machine.Machine) Sheet {
	s := Sheet{Done: true}
	for _, j := range m.Joints {
		if j.State == machine.Open || j.State == machine.OnTrial {
			s.Done = false
		}
		if j.Opened > 0 {
			s.Joints = append(s.Joints, jointLine(j))
		}
	}
	for _, p := range m.Parts {
		s.Parts = append(s.Parts, partLine(p))
	}
	s.sum()
	return s
}

// partLine counts one part and says where it is.
func partLine(p *machine.Part) PartLine {
	l := PartLine{Part: p, Expected: p.Qty, Found: p.Qty, Where: whereIs(p)}
	if p.Found != nil {
		l.Found, l.Counted = *p.Found, true
	}
	l.Missing, l.Extra = max(l.Expected-l.Found, 0), max(l.Found-l.Expected, 0)
	l.LeftOver = (l.Where == Off || l.Where == Away) && noJointOpen(p)
	switch {
	case l.Missing > 0 && l.Missing == l.Expected:
		l.Words = p.Name + ": missing"
	case l.Missing > 0:
		l.Words = fmt.Sprintf("%s: %d of %d found, %d missing", p.Name, l.Found, l.Expected, l.Missing)
	case l.Extra > 0:
		l.Words = fmt.Sprintf("%s: %d found where %d belong, %d too many", p.Name, l.Found, l.Expected, l.Extra)
	}
	if l.LeftOver {
		if l.Words != "" {
			l.Words += "; "
		}
		l.Words += fmt.Sprintf("%s is left over: it lies %s and every joint of it is closed", p.Name, lies(p))
	}
	return l
}

// whereIs reads where a part is. A part without a tray is off where all its
// joints are apart, and back where one that was opened is closed again.
func whereIs(p *machine.Part) Where {
	opened, apart := 0, 0
	for _, j := range p.Joints {
		if j.Opened > 0 {
			opened++
		}
		if j.State == machine.Open {
			apart++
		}
	}
	switch {
	case p.Away != "":
		return Away
	case p.Tray != "" || apart > 0 && apart == len(p.Joints):
		return Off
	case opened > apart:
		return Back
	}
	return On
}

func noJointOpen(p *machine.Part) bool {
	for _, j := range p.Joints {
		if j.State == machine.Open || j.State == machine.OnTrial {
			return false
		}
	}
	return true
}

func lies(p *machine.Part) string {
	switch {
	case p.Away != "":
		return "outside (order " + string(p.Away) + ")"
	case p.Tray == machine.NoTray || p.Tray == "":
		return "in no tray"
	}
	return "in tray " + p.Tray
}

// sum says what is wrong or still out.
func (s *Sheet) sum() {
	off, open := 0, 0
	for _, l := range s.Parts {
		if l.Words != "" {
			s.Words = append(s.Words, l.Words+".")
		}
		if l.Where == Off || l.Where == Away {
			off++
		}
	}
	for _, l := range s.Joints {
		if l.Words != "" {
			s.Words = append(s.Words, l.Words+".")
		}
		if l.Joint.State != machine.Closed {
			open++
		}
	}
	wrong := len(s.Words) > 0
	if open > 0 || off > 0 {
		s.Words = append(s.Words, fmt.Sprintf("Still out: %s, %s to close.", count(off, "part"), count(open, "joint")))
	}
	s.Even = s.Done && !wrong && off == 0
	if s.Even {
		s.Words = []string{"Nothing left over, nothing missing."}
	}
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
