package web

import (
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/machine"
)

// heldJoint finds an open joint that is held by checks alone, all of which may
// be passed by hand; life asks for one with a hold that guards life instead.
func (h *house) heldJoint(life bool) *machine.Joint {
	h.t.Helper()
	v := h.view()
	for _, hold := range v.Plan().Held {
		if hold.Life != life || hold.Joint.State != machine.Open {
			continue
		}
		alone := true
		for _, other := range v.MayClose(hold.Joint, true) {
			alone = alone && (life || other.Check != nil && !other.Life)
		}
		if alone {
			return hold.Joint
		}
	}
	h.t.Fatal("the machine has no such hold")
	return nil
}

// TestClosingWhileHeld: refused with the reason, what was typed kept, then
// passed with initials and why.
func TestClosingWhileHeld(t *testing.T) {
	h := newHouse(t)
	h.strip()
	j := h.heldJoint(false)
	at := "/m/codlin/close/" + string(j.ID)
	form := url.Values{"as": {"final"}, "torque": {"78 N·m"}, "sealant": {"thread oil"}, "note": {"new bolts"},
		"shim-count-0": {"2"}, "shim-size-0": {"0.15"}, "shim-where-0": {"left"}}
	p := h.ask("POST", at, form).is(409)
	p.says("Nothing was closed", "Do not close", "What you typed is still here")
	for field, want := range map[string]string{"torque": "78 N·m", "sealant": "thread oil", "note": "new bolts", "shim-size-0": "0.15"} {
		if got := p.value(field); got != want {
			t.Errorf("after the refusal %s holds %q, want %q", field, got, want)
		}
	}
	if s := h.view().Machine.Joint(j.ID).State; s != machine.Open {
		t.Fatalf("the joint is %s", s)
	}
	for _, hold := range h.view().MayClose(j, true) {
		form.Set("pass:"+string(hold.Check.ID), "yes")
	}
	h.ask("POST", at, form).is(422).says("initials and a reason")
	form.Set("initials", "R.")
	form.Set("why", "will be read after the run-in")
	h.ask("POST", at, form).is(303)
	closed := h.view().Machine.Joint(j.ID)
	if closed.State != machine.Closed || len(closed.Passed) == 0 || closed.Closings[0].Torque.Value != 78 || closed.Closings[0].Shims[0].ThicknessMM != 0.15 {
		t.Errorf("state %s, passed %d, closing %+v", closed.State, len(closed.Passed), closed.Closings)
	}
	h.ask("GET", "/m/codlin/book", nil).is(200).says("will be read after the run-in", "78 N·m", "new bolts")
	h.ask("GET", "/m/codlin/build", nil).is(200).says("Passed by hand")
}

// TestLifeIsNotPassed: a hold that guards life has no tick, and a forged one
// keeps nothing.
func TestLifeIsNotPassed(t *testing.T) {
	h := newHouse(t)
	h.strip()
	j := h.heldJoint(true)
	at := "/m/codlin/close/" + string(j.ID)
	p := h.ask("GET", at, nil).is(200)
	p.says("guards life and cannot be passed by hand")
	form := url.Values{"as": {"final"}, "initials": {"R."}, "why": {"no time"}}
	for _, hold := range h.view().MayClose(j, true) {
		if hold.Check != nil {
			form.Set("pass:"+string(hold.Check.ID), "yes")
		}
	}
	h.ask("POST", at, form).is(409)
	if got := h.view().Machine.Joint(j.ID); got.State != machine.Open || len(got.Passed) != 0 {
		t.Errorf("state %s, passed %d", got.State, len(got.Passed))
	}
}

// TestBadClosings refuses what cannot be read and keeps nothing.
func TestBadClosings(t *testing.T) {
	h := newHouse(t)
	h.strip()
	j := h.heldJoint(false)
	at := "/m/codlin/close/" + string(j.ID)
	before := h.view().Machine.Entries
	for _, row := range []struct{ field, typed, say string }{
		{"torque", "tight", "tight"}, {"torque", "78 mm", "78 mm"}, {"shim-size-0", "thin", "thin"}, {"shim-size-0", "-0.1", "out of reason"},
	} {
		p := h.ask("POST", at, url.Values{"as": {"final"}, row.field: {row.typed}}).is(422)
		p.says(row.say)
		if p.value(row.field) != row.typed {
			t.Errorf("%s holds %q, want %q", row.field, p.value(row.field), row.typed)
		}
	}
	if after := h.view().Machine.Entries; after != before {
		t.Errorf("%d entries kept", after-before)
	}
}

// TestContradiction: said in words, and one entry withdrawn ends it.
func TestContradiction(t *testing.T) {
	h := newHouse(t)
	h.strip()
	var open []*machine.Joint
	for _, j := range h.view().Machine.Joints {
		if j.State == machine.Open {
			open = append(open, j)
		}
	}
	a, b := open[10], open[200]
	h.record(&machine.OrderStated{First: a.ID, Then: b.ID, Why: "as it came"}, &machine.OrderStated{First: b.ID, Then: a.ID, Why: "said later"})
	h.ask("GET", "/m/codlin", nil).is(200).says("The record contradicts itself")
	p := h.ask("GET", "/m/codlin/build", nil).is(200)
	p.says("one is wrong", "Withdraw this word", "waits for")
	entry := p.value("entry")
	h.ask("POST", "/m/codlin/withdraw", url.Values{"entry": {entry}, "back": {"/m/codlin/build"}}).is(303)
	if p := h.ask("GET", "/m/codlin/build", nil).is(200); strings.Contains(p.text, "Withdraw this word") {
		t.Error("the contradiction still stands")
	}
}

// TestWhy gives the reasons of a held closing.
func TestWhy(t *testing.T) {
	h := newHouse(t)
	h.strip()
	j := h.heldJoint(false)
	h.ask("GET", "/m/codlin/why/close:"+string(j.ID), nil).is(200).says("What stands before it", "Held", "Because")
}
