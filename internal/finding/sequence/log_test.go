package sequence

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// book writes a log for a test, one hour apart.
type book struct{ entries []machine.Entry }

func (b *book) write(bodies ...machine.Body) *book {
	for _, body := range bodies {
		n := len(b.entries)
		b.entries = append(b.entries, machine.Entry{ID: machine.EntryID(fmt.Sprintf("e%05d", n)), By: "ann", Device: "bench",
			At: time.Date(2025, 5, 12, 8, 0, 0, 0, time.UTC).Add(time.Duration(n) * time.Hour), Version: 1, Body: body})
	}
	return b
}

// String lists the log, for a failure.
func (b *book) String() string {
	var s strings.Builder
	for _, e := range b.entries {
		body, _ := json.Marshal(e.Body)
		fmt.Fprintf(&s, "%s %s\n", e.Kind(), body)
	}
	return s.String()
}

func (b *book) fold() *machine.Machine { return machine.Fold(b.entries) }

// plan makes a plan; checks are sound where the last look said so.
func (b *book) plan() *Plan {
	m := b.fold()
	return Make(m, looks{m})
}

// looks judges by the last look alone: good enough to drive the order.
type looks struct{ m *machine.Machine }

func (l looks) Of(id machine.CheckID) *judge.Finding {
	c := l.m.Check(id)
	f := &judge.Finding{Check: c, Verdict: judge.NotRead}
	if c == nil {
		return nil
	}
	if look := c.Look(); look != nil {
		f.Verdict = judge.Worn
		if look.OK {
			f.Verdict = judge.Sound
		}
	}
	return f
}

// joint declares a joint; reach is written "a b | c": a and b, or c.
func joint(id, reach string, change ...func(*machine.JointAdded)) *machine.JointAdded {
	j := &machine.JointAdded{ID: machine.JointID(id), Name: strings.ToUpper(id[:1]) + id[1:], Sort: "bolted", Hours: 1, Reach: sets(reach)}
	for _, f := range change {
		f(j)
	}
	return j
}

func sets(text string) [][]machine.JointID {
	var out [][]machine.JointID
	for _, alt := range strings.Split(text, "|") {
		var ids []machine.JointID
		for _, id := range strings.Fields(alt) {
			ids = append(ids, machine.JointID(id))
		}
		if len(ids) > 0 {
			out = append(out, ids)
		}
	}
	return out
}

func check(id, when, joints, hiddenBy string, change ...func(*machine.CheckAdded)) *machine.CheckAdded {
	c := &machine.CheckAdded{ID: machine.CheckID(id), Name: strings.ToUpper(id[:1]) + id[1:], When: when, By: machine.ByEye}
	for _, j := range strings.Fields(joints) {
		c.Joints = append(c.Joints, machine.JointID(j))
	}
	for _, j := range strings.Fields(hiddenBy) {
		c.HiddenBy = append(c.HiddenBy, machine.JointID(j))
	}
	for _, f := range change {
		f(c)
	}
	return c
}

func opened(ids ...string) []machine.Body {
	var out []machine.Body
	for _, id := range ids {
		out = append(out, &machine.JointOpened{Joint: machine.JointID(id), Tray: "1"})
	}
	return out
}

func closed(id, as string) machine.Body {
	return &machine.JointClosed{Joint: machine.JointID(id), As: as}
}

func look(id string, ok bool) machine.Body {
	return &machine.LookTaken{Check: machine.CheckID(id), OK: ok}
}

func stated(first, then string) machine.Body {
	return &machine.OrderStated{First: machine.JointID(first), Then: machine.JointID(then)}
}

func inTheWay(id, reach string) machine.Body {
	return &machine.InTheWay{Joint: machine.JointID(id), Any: sets(reach), Photo: "00ff"}
}

// do writes what a step leaves in the log when it goes well.
func (b *book) do(s *Step) {
	switch s.Act {
	case Open, Undo:
		b.write(&machine.JointOpened{Joint: s.Joint.ID, Tray: "1"})
	case Trial:
		b.write(closed(string(s.Joint.ID), machine.Trial))
	case Close:
		b.write(closed(string(s.Joint.ID), machine.Final))
	case Check:
		b.write(look(string(s.Check.ID), true))
	case Clean:
		b.write(&machine.PartCleaned{Part: s.Part.ID, Method: "brush"})
	case Collect:
		b.write(&machine.Received{Order: s.Order.Order})
	case Test:
		b.write(&machine.TestRun{Test: s.Test.ID, Passed: true})
	case Rework:
		done := &machine.RemedyDone{Check: s.Check.ID, Key: s.Check.Chosen.Key}
		if r := s.Remedy; r != nil {
			done.Renewed, done.Reworked, done.Opens = r.Renews, r.Reworks, r.Opens
		}
		b.write(done)
	}
}

func ids(steps []*Step) []string {
	var out []string
	for _, s := range steps {
		out = append(out, string(s.ID))
	}
	return out
}

func sortedIDs(steps []*Step) []string {
	out := ids(steps)
	slices.Sort(out)
	return out
}
