package web

import (
	"net/url"
	"testing"

	"matchmark/internal/machine"
)

// TestReadingsInTheUnitOfTheCheck: a pressure is kept in MPa and shown in the
// bar it is read in; 1 MPa is 10 bar.
func TestReadingsInTheUnitOfTheCheck(t *testing.T) {
	h := newHouse(t)
	run := "/m/codlin/run/c/inj-pressure"
	p := h.ask("GET", run, nil).is(200)
	r := h.ask("POST", run, url.Values{"point": {p.value("point")}, "reading": {"117"}}).is(303)
	h.ask("GET", r.header.Get("Location"), nil).is(200).says("In the book: 117 bar", "117 bar")
	c := h.view().Machine.Check("inj-pressure.1")
	if got := c.Readings[0].Amount; got.Unit != "MPa" || got.Value != 11.7 {
		t.Errorf("kept as %v %s", got.Value, got.Unit)
	}
	h.ask("GET", "/m/codlin", nil).is(200).says("Read 117 bar at")
	h.ask("GET", "/m/codlin/book", nil).is(200).says("117 (")
}

// TestFoundWords joins figure and words with a comma.
func TestFoundWords(t *testing.T) {
	a := &machine.Amount{Value: 64, Unit: "N·m", Typed: "64"}
	for want, b := range map[string]*machine.AsFoundTaken{
		"breakaway: 64 N·m, moved a hair": {What: "breakaway", Value: a, Words: "moved a hair"},
		"breakaway: 64 N·m":               {What: "breakaway:", Value: a},
		"lean: to the left":               {What: "lean", Words: "to the left"},
		"lean":                            {What: "lean"},
	} {
		if got := foundWords(b); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if got := sourceWords(machine.CommonPractice, "common practice, no source"); got != "common practice, no source" {
		t.Errorf("said twice: %q", got)
	}
}
