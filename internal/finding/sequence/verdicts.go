package sequence

import (
	"time"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// Verdicts gives the finding on a check; judge.Findings is one. A check
// without a finding counts as not read.
type Verdicts interface {
	Of(machine.CheckID) *judge.Finding
}

// standing is how one check stands.
type standing struct {
	verdict judge.Verdict
	step    int   // number of its step, -1 where it has none
	stale   bool  // a made check read before its joint was first taken apart
	rework  []int // numbers of the pending reworks after which it is made again
	dry     bool  // read on the dry build
	moot    bool  // nothing of it is opened
	shut    bool  // cannot be made any more: closed over, see breaches

	own    []*machine.Joint   // closings it comes before, see hiders
	sets   [][]*machine.Joint // likewise
	beside [][]*machine.Joint // what hides it beside its own joints

	// accepted: each closing over it was let through by hand, so that it holds
	// nothing more.
	accepted bool
}

// open tells whether the check still holds a closing.
func (s *standing) open() bool { return s.verdict.Open() || s.stale || len(s.rework) > 0 }

// unread tells whether nothing has been read that still counts.
func (s *standing) unread() bool { return s.verdict == judge.NotRead || s.stale }

func verdictOf(v Verdicts, c *machine.Check) judge.Verdict {
	if v == nil {
		return judge.NotRead
	}
	f := v.Of(c.ID)
	if f == nil {
		return judge.NotRead
	}
	return f.Verdict
}

// staleReading tells whether all that was read directly of a made check was
// read before one of its joints first came apart: it says how the machine was
// found, not how it is built. Sizes of features keep their worth.
func staleReading(c *machine.Check) bool {
	if c.When != machine.Made {
		return false
	}
	var last time.Time
	for _, r := range c.Current() {
		last = later(last, r.At)
	}
	if l := c.Look(); l != nil {
		last = later(last, l.At)
	}
	if last.IsZero() {
		return false
	}
	for _, j := range c.Joints {
		if len(j.Removals) > 0 && last.Before(j.Removals[0].At) {
			return true
		}
	}
	return false
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// passed finds the word by which a hold of a check on a joint was passed by
// hand. It counts for the closing it was given for: once the joint was closed
// for good and opened again, it lapses. What guards life is never passed.
func passed(j *machine.Joint, c *machine.Check) *machine.Passed {
	if len(j.Passed) == 0 || j.Life || c.Life {
		return nil
	}
	since := roundBegan(j)
	for i := range j.Passed {
		if p := &j.Passed[i]; p.Check == c.ID && p.At.After(since) {
			return p
		}
	}
	return nil
}

// roundBegan is the closing for good that ended the joint's last round; a
// joint now closed is still in the round that its closing ended.
func roundBegan(j *machine.Joint) time.Time {
	passOver := j.State == machine.Closed
	for i := len(j.Closings) - 1; i >= 0; i-- {
		if j.Closings[i].As != machine.Final {
			continue
		}
		if !passOver {
			return j.Closings[i].At
		}
		passOver = false
	}
	return time.Time{}
}
