package web

import (
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/bench"
	"matchmark/internal/demo"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/store"
	"matchmark/internal/trade/spelling"
)

// newDemoHouse is a site with the demo machine.
func newDemoHouse(t *testing.T) *house {
	t.Helper()
	h := &house{t: t}
	log := store.OpenMemory()
	if err := demo.Load(t.Context(), log); err != nil {
		t.Fatal(err)
	}
	h.shop = bench.NewShop(log, fixed)
	b, err := h.shop.Bench(t.Context(), demo.ID)
	if err != nil {
		t.Fatal(err)
	}
	h.b = b
	h.site = New(h.shop, Options{By: "R.", Now: fixed})
	return h
}

// TestThreeSetsToldApart: the demo's sets differ in price, wait and life, each
// figure stands on the page, and what differs is in the table.
func TestThreeSetsToldApart(t *testing.T) {
	h := newDemoHouse(t)
	at := "/m/" + string(demo.ID) + "/decide"
	p := h.ask("GET", at, nil).is(200)
	p.says("Three ways to put them right", "least of the three", "most of the three", "What differs", "In all three sets", "One size for all", "Proof: every fit judged again")
	prices := map[string]bool{}
	for _, aim := range remedy.Aims() {
		plan := h.view().Choices(aim)
		p.says(figure(plan.Cost, "h")+" bench hours' worth", figure(plan.Days, "d")+" days")
		prices[figure(plan.Cost, "h")+figure(plan.Days, "d")] = true
		for _, j := range plan.Jobs {
			p.says(spelling.Head(j.Name), spelling.Head(j.Beware))
		}
		for _, f := range plan.Forced {
			p.says(strings.Join(strings.Fields(f.Says), " "))
		}
		for _, f := range plan.Flips {
			p.says(f.Says)
		}
	}
	if len(prices) != 3 {
		t.Errorf("%d sets by their figures, want 3", len(prices))
	}
}

// TestASetIsTakenAndTakenBack: one remedy for each check without a word, the
// person's own words untouched; a set that has changed is refused.
func TestASetIsTakenAndTakenBack(t *testing.T) {
	h := newDemoHouse(t)
	base := "/m/" + string(demo.ID)
	at := base + "/decide"
	own := map[string]string{}
	for _, c := range h.view().Machine.Checks {
		if c.Chosen != nil {
			own[string(c.ID)] = string(c.Chosen.Entry)
		}
	}
	h.ask("POST", at, url.Values{"aim": {"dearest"}}).is(422).says("Nothing was recorded")
	h.ask("POST", at, url.Values{"aim": {"cheapest"}, "set": {"0000"}}).is(409).says("Nothing was recorded")
	plan := h.view().Choices(remedy.Cheapest)
	want := len(toRecord(h.view().Machine, plan))
	if want == 0 || len(own) == 0 {
		t.Fatalf("%d to record, %d own words; the demo should have both", want, len(own))
	}
	p := h.ask("GET", at, nil).is(200)
	p.says("Taking it records " + plural(want, "remedy", "remedies"))
	form := url.Values{"aim": {"cheapest"}, "set": {digestOf(h.view().Machine, plan)}, onceField: {p.formOn(at)}}
	before := h.view().Machine.Entries
	for range 3 {
		h.ask("POST", at, form).is(303)
	}
	if n := h.view().Machine.Entries - before; n != want {
		t.Fatalf("%d entries kept, want %d", n, want)
	}
	for _, c := range h.view().Machine.Checks {
		if e, ok := own[string(c.ID)]; ok && (c.Chosen == nil || string(c.Chosen.Entry) != e) {
			t.Errorf("the word on %s was changed", c.Name)
		}
	}
	if got := h.view().Choices(remedy.Cheapest); got.Cost != plan.Cost || got.Days != plan.Days {
		t.Errorf("taken, the set is %v hours and %v days; shown were %v and %v", got.Cost, got.Days, plan.Cost, plan.Days)
	}
	p = h.ask("GET", at, nil).is(200)
	p.says("The cheapest set is taken", "Each has its remedy", "As chosen")
	undo := url.Values{"back": {at}, onceField: {p.formOn(base + "/withdraw")}}
	for _, e := range p.elements {
		if n, _ := attr(e, "name"); n == "entry" {
			id, _ := attr(e, "value")
			undo.Add("entry", id)
		}
	}
	h.ask("POST", base+"/withdraw", undo).is(303)
	for _, c := range h.view().Machine.Checks {
		if _, ok := own[string(c.ID)]; c.Chosen != nil && !ok {
			t.Errorf("%s is still chosen", c.Name)
		}
	}
	h.ask("GET", at, nil).is(200).says("Three ways to put them right")
}

// TestNothingToDecide: a machine as it came has nothing worn.
func TestNothingToDecide(t *testing.T) {
	newHouse(t).ask("GET", "/m/codlin/decide", nil).is(200).says("nothing to decide")
}

// TestCheckNames tells places of one sort together.
func TestCheckNames(t *testing.T) {
	for want, places := range map[string][]string{
		"":                      nil,
		"cylinder 2":            {"cylinder 2"},
		"cylinder 1, 2 and 3":   {"cylinder 1", "cylinder 2", "cylinder 3"},
		"at the front and rear": {"at the front", "at the rear"},
		"left":                  {"left"},
	} {
		if got := placesTogether(places); got != want {
			t.Errorf("%v: %q, want %q", places, got, want)
		}
	}
}
