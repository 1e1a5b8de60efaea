package web

import (
	"errors"
	"net/http"
	"net/http/httptest"
	"net/url"
	"testing"

	"matchmark/internal/machine"
)

// formOn gives the hidden word of the first form of a page that posts to an
// address.
func (p *page) formOn(action string) string {
	p.t.Helper()
	inside := false
	for _, e := range p.elements {
		if e.Name.Local == "form" {
			at, _ := attr(e, "action")
			inside = at == action
		}
		if n, _ := attr(e, "name"); inside && n == onceField {
			v, _ := attr(e, "value")
			return v
		}
	}
	p.t.Fatalf("%s: no form posts to %s", p.name, action)
	return ""
}

// TestAFormSentThreeTimes: one record, and each time the same answer.
func TestAFormSentThreeTimes(t *testing.T) {
	h := newHouse(t)
	h.record(&machine.JointOpened{Joint: "rocker-cover-head", Tray: "3"}, &machine.Ordered{Order: "o1", What: "injectors"})
	look := ""
	for _, c := range h.view().Machine.Checks {
		if byWord(c) {
			look = string(c.ID)
			break
		}
	}
	lookAt := "/m/codlin/run/look/" + string(h.view().Machine.Check(machine.CheckID(look)).Type)
	reading := h.ask("GET", "/m/codlin/run/f/liner/bore", nil)
	for _, row := range []struct {
		page, action string
		form         url.Values
	}{
		{"/m/codlin/run/f/liner/bore", "/m/codlin/run/f/liner/bore", url.Values{"point": {reading.value("point")}, "reading": {"92.08"}}},
		{"/m/codlin/part/liner.2", "/m/codlin/part/liner.2", url.Values{"do": {"note"}, "text": {"step at ring reversal"}}},
		{"/m/codlin/part/liner.2", "/m/codlin/fits/call", url.Values{"part": {"liner.2"}, "call": {"renew"}}},
		{"/m/codlin/joint/sump-block", "/m/codlin/joint/sump-block", url.Values{"do": {"leave"}, "why": {"sound"}}},
		{"/m/codlin/photo?joint=timing-cover-block", "/m/codlin/photo", url.Values{"joint": {"timing-cover-block"}, "tray": {"9"}}},
		{lookAt, lookAt, url.Values{"check": {look}, "answer": {"sound"}}},
		{"/m/codlin/prove", "/m/codlin/prove", url.Values{"test": {string(h.view().Machine.Tests[0].ID)}, "answer": {"passed"}}},
		{"/m/codlin/trays", "/m/codlin/received", url.Values{"order": {"o1"}}},
		{"/m/codlin", "/m/codlin/withdraw", url.Values{"entry": {"none"}}},
		{"/m/codlin/close/rocker-cover-head", "/m/codlin/close/rocker-cover-head", url.Values{"as": {"trial"}}},
	} {
		before := h.view().Machine.Entries
		form := row.form
		form.Set(onceField, h.ask("GET", row.page, nil).is(200).formOn(row.action))
		to := ""
		for range 3 {
			got := h.ask("POST", row.action, form).is(303).header.Get("Location")
			if to != "" && got != to {
				t.Errorf("%s: the copies lead to %q and %q", row.action, to, got)
			}
			to = got
		}
		if n := h.view().Machine.Entries - before; n != 1 {
			t.Errorf("%s %v: %d entries kept, want 1", row.action, row.form, n)
		}
	}
}

// TestOneMachineOfOneForm: the form that starts a machine, sent three times.
func TestOneMachineOfOneForm(t *testing.T) {
	h := newHouse(t)
	form := url.Values{"name": {"Orchard two"}, "take:engine": {"yes"}, "count:cylinders": {"2"}}
	form.Set(onceField, h.ask("GET", "/start", nil).is(200).formOn("/start"))
	for range 3 {
		if to := h.ask("POST", "/start", form).is(303).header.Get("Location"); to != "/m/orchard-two/survey" {
			t.Errorf("made at %q", to)
		}
	}
	if list, err := h.shop.Machines(t.Context()); err != nil || len(list) != 2 {
		t.Errorf("%d machines, %v; want 2", len(list), err)
	}
}

// goneClient takes the head of an answer and then breaks.
type goneClient struct {
	*httptest.ResponseRecorder
	heads int
}

func (g *goneClient) WriteHeader(status int) { g.heads++; g.ResponseRecorder.WriteHeader(status) }

func (g *goneClient) Write([]byte) (int, error) { return 0, errors.New("write: broken pipe") }

// TestAClientThatWentAway gets one head and no second try.
func TestAClientThatWentAway(t *testing.T) {
	h := newHouse(t)
	for _, packed := range []string{"", "gzip"} {
		r := httptest.NewRequest("GET", "http://localhost:8080/m/codlin/book", nil)
		r.RemoteAddr = "127.0.0.1:1234"
		r.Header.Set("Accept-Encoding", packed)
		g := &goneClient{ResponseRecorder: httptest.NewRecorder()}
		h.site.ServeHTTP(g, r)
		if g.heads != 1 || g.Code != http.StatusOK {
			t.Errorf("encoding %q: %d heads, status %d; want one head of 200", packed, g.heads, g.Code)
		}
	}
}
