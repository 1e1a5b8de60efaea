package web

import (
	"encoding/json"
	"net/http/httptest"
	"net/url"
	"strconv"
	"strings"
	"testing"
	"time"

	"matchmark/internal/machine"
)

// outbox sends a form as the outbox of a page does.
func (h *house) outbox(path string, form url.Values) *page {
	h.t.Helper()
	r := httptest.NewRequest("POST", "http://localhost:8080"+path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("X-Outbox", "1")
	r.Header.Set("Referer", "http://localhost:8080"+path+"?on=this")
	return h.send(r)
}

// next is the address that an answer to the outbox leads to.
func (p *page) next() string {
	p.t.Helper()
	var book struct{ Next string }
	if kind := p.header.Get("Content-Type"); kind != "application/json" {
		p.t.Fatalf("%s: the answer is %s", p.name, kind)
	}
	if err := json.Unmarshal(p.raw, &book); err != nil {
		p.t.Fatalf("%s: %v", p.name, err)
	}
	return book.Next
}

const aPart = "/m/codlin/part/liner.2"

// TestTheOutboxIsAnswered: kept ones by the next address, refused ones by
// their page; the same record three times is one.
func TestTheOutboxIsAnswered(t *testing.T) {
	h := newHouse(t)
	note := url.Values{"once": {"n1"}, "age": {"0"}, "do": {"note"}, "text": {"step at ring reversal"}}
	before := h.view().Machine.Entries
	for range 3 {
		if to := h.outbox(aPart, note).is(200).next(); to != aPart {
			t.Errorf("leads to %q, want %q", to, aPart)
		}
	}
	if n := h.view().Machine.Entries - before; n != 1 {
		t.Errorf("%d entries of one record", n)
	}
	h.ask("POST", aPart, note).is(303)
	point := h.ask("GET", boreRun, nil).value("point")
	h.outbox(boreRun, url.Values{"once": {"r1"}, "age": {"0"}, "point": {point}, "reading": {"abc"}}).is(422).says("abc")
}

// TestARecordSaysItsAge: what is kept bears the moment it was made, and an age
// that cannot be is refused in words.
func TestARecordSaysItsAge(t *testing.T) {
	h := newHouse(t)
	note := func(once, age, behind string) url.Values {
		return url.Values{"once": {once}, "age": {age}, "behind": {behind}, "do": {"note"}, "text": {once}}
	}
	madeAt := func(once string) time.Time {
		for _, n := range h.view().Machine.Notes {
			if n.Text == once {
				return n.At
			}
		}
		t.Fatalf("%s was not kept", once)
		return time.Time{}
	}
	for once, age := range map[string]time.Duration{"now": 0, "an hour": time.Hour, "60 days": 60 * 24 * time.Hour} {
		sent := clock.Add(time.Duration(h.tick) * time.Second)
		h.outbox(aPart, note(once, strconv.FormatInt(age.Milliseconds(), 10), "")).is(200)
		if off := madeAt(once).Add(age).Sub(sent); off < 0 || off > time.Minute { // the clock goes on with each question
			t.Errorf("%s old is kept as made %s off", once, off)
		}
	}
	before := h.view().Machine.Entries
	for _, age := range []string{"-1", "5184000001", "9999999999999999999", "yesterday", "1.5"} {
		h.outbox(aPart, note("bad", age, "")).is(422).says("does not say when it was made", "Nothing was kept", age)
	}
	if n := h.view().Machine.Entries - before; n != 0 {
		t.Errorf("%d entries of refused records", n)
	}
	// The first of two was long under way: it looks younger than the second,
	// which says that it came after it.
	h.outbox(aPart, note("first", "1000", "")).is(200)
	h.outbox(aPart, note("second", "3600000", "first")).is(200)
	if gap := madeAt("second").Sub(madeAt("first")); gap != time.Microsecond {
		t.Errorf("the second is %s after the first", gap)
	}
}

// TestARecordInTheBookIsNeverRefused: its copy is answered as kept, although
// it would be refused by now, and does not bring back what was withdrawn.
func TestARecordInTheBookIsNeverRefused(t *testing.T) {
	h := newHouse(t)
	open := url.Values{"once": {"o1"}, "age": {"0"}, "joint": {"rocker-cover-head"}, "tray": {"3"}}
	h.outbox("/m/codlin/photo", open).is(200)
	open.Set("line", "a copy that was changed on the way")
	if to := h.outbox("/m/codlin/photo", open).is(200).next(); to != "/m/codlin/photo?on=this" {
		t.Errorf("leads to %q", to)
	}
	open.Set("once", "o2")
	h.outbox("/m/codlin/photo", open).is(422).says("open already")

	note := url.Values{"once": {"n1"}, "age": {"0"}, "do": {"note"}, "text": {"a"}}
	h.outbox(aPart, note).is(200)
	h.record(&machine.EntryWithdrawn{Target: h.view().Machine.Notes[0].Entry})
	h.outbox(aPart, note).is(200)
	if n := len(h.view().Machine.Notes); n != 0 {
		t.Errorf("%d notes after the withdrawn one came again", n)
	}
}

// TestEveryRecordGoesByTheOutbox: each form that records something of a
// machine is marked for it; the shop's own settings are sent at once.
func TestEveryRecordGoesByTheOutbox(t *testing.T) {
	h := newHouse(t)
	h.strip()
	forms := 0
	for _, path := range []string{"", "/machine?a=engine-block", "/trays", "/labels", "/fits", "/decide", "/buy", "/build", "/prove", "/questions", "/figures", "/sound",
		"/part/liner.2", "/joint/head-block", "/close/head-block", "/photo", "/photo?part=liner.2", "/survey", "/run/f/liner/bore", "/part/gen-bearing/what?d:d=25"} {
		p := h.ask("GET", "/m/codlin"+path, nil).is(200)
		for _, e := range p.elements {
			method, _ := attr(e, "method")
			to, _ := attr(e, "action")
			if e.Name.Local != "form" || method != "post" || !strings.HasPrefix(to, "/m/") {
				continue
			}
			forms++
			_, marked := attr(e, "data-outbox")
			if class, _ := attr(e, "class"); !marked && !(path == "/labels" && class == "fields") {
				t.Errorf("%s: the form to %s is not marked", p.name, to)
			}
		}
	}
	if forms < 40 {
		t.Errorf("only %d forms were seen", forms)
	}
}
