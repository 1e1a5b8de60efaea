package bench

import (
	"sync"
	"sync/atomic"
	"time"

	"matchmark/internal/finding/balance"
	"matchmark/internal/finding/closing"
	"matchmark/internal/finding/heard"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/reckoned"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
)

// View is a machine with its findings at one point of its log. It does not
// change; each finding is worked out once, when first asked for.
type View struct {
	ID      machine.MachineID
	Machine *machine.Machine
	AsOf    time.Time

	known   atomic.Pointer[known]
	judged  func() judge.Findings
	plan    func() *sequence.Plan
	choices map[remedy.Aim]func() remedy.Plan
	sheet   func() balance.Sheet
	calls   func() map[machine.PartID]remedy.Proposal
	ear     func() *heard.Ear
}

// next is the view of the entries, which begin with those of v; v is nil where
// there is none yet. What did not change is not worked out again.
func (v *View) next(id machine.MachineID, entries []machine.Entry, now func() time.Time) *View {
	if v == nil {
		return newView(id, machine.Again(entries, nil), known{}, now)
	}
	return newView(id, machine.Again(entries, v.Machine), *v.known.Load(), now)
}

// known is what was worked out last, of this machine or of an earlier one: the
// latest that was judged, and the latest plan, nil where none was made yet. A
// view holds on to them alone, and not to the views between.
type known struct {
	m      *machine.Machine
	judged judge.Findings
	plan   *sequence.Plan
}

func newView(id machine.MachineID, m *machine.Machine, before known, now func() time.Time) *View {
	v := &View{ID: id, Machine: m, AsOf: now()}
	v.known.Store(&before)
	v.judged = sync.OnceValue(func() judge.Findings {
		k := *v.known.Load()
		k.m, k.judged = m, judge.Again(m, k.m, k.judged)
		v.known.Store(&k)
		return k.judged
	})
	v.plan = sync.OnceValue(func() *sequence.Plan {
		judged, k := v.judged(), *v.known.Load()
		k.plan = sequence.Again(m, judged, k.plan)
		v.known.Store(&k)
		return k.plan
	})
	v.sheet = sync.OnceValue(func() balance.Sheet { return balance.Of(m) })
	v.choices = map[remedy.Aim]func() remedy.Plan{}
	for _, aim := range remedy.Aims() {
		v.choices[aim] = sync.OnceValue(func() remedy.Plan { return remedy.Decide(m, v.judged(), aim) })
	}
	v.calls = sync.OnceValue(func() map[machine.PartID]remedy.Proposal { return remedy.Calls(m, v.Choices(remedy.Cheapest)) })
	v.ear = sync.OnceValue(func() *heard.Ear { return heard.For(m, v.Plan()) })
	return v
}

// Judged are the verdicts on all checks.
func (v *View) Judged() judge.Findings { return v.judged() }

// Plan is the order, with what is free and what is held.
func (v *View) Plan() *sequence.Plan { return v.plan() }

// Choices is the best consistent set of remedies for an aim.
func (v *View) Choices(aim remedy.Aim) remedy.Plan { return v.choices[aim]() }

// Calls are the words on the parts that the cheapest set suggests.
func (v *View) Calls() map[machine.PartID]remedy.Proposal { return v.calls() }

// Ear hears what is said of this machine.
func (v *View) Ear() *heard.Ear { return v.ear() }

// Balance counts parts, fasteners and shims off and back.
func (v *View) Balance() balance.Sheet { return v.sheet() }

// Closing is what is wanted at arm's length when a joint is closed.
func (v *View) Closing(j *machine.Joint) closing.Sheet {
	return closing.For(v.Machine, v.Judged()).Of(j)
}

// Reckoner works out what joints, checks and tests ask of the trade's
// arithmetic. It is a fresh one, for one goroutine.
func (v *View) Reckoner() *reckoned.Desk { return reckoned.For(v.Machine, v.Judged()) }

// MayClose tells what holds a closing right now; nothing means it may close.
func (v *View) MayClose(j *machine.Joint, final bool) []sequence.Hold {
	return sequence.MayClose(v.Machine, v.Judged(), j, final)
}
