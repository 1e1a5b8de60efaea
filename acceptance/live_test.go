package acceptance_test

import (
	"slices"
	"testing"
	"time"

	"matchmark/internal/trial"
)

// recordFrom sends a note to a part from a page, as the outbox would.
func recordFrom(tab *trial.Tab, text string) {
	trial.Ask[bool](tab, `fetch("/`+linerTwo+`", {method: "POST", headers: {"X-Outbox": "1"},
		body: new URLSearchParams({once: "`+text+`", age: "0", do: "note", text: "`+text+`"})}).then((r) => r.ok)`)
}

// TestTwoDevicesSeeEachOther: what one records stands on the other's page
// within a second, is offered to a person who is typing, and comes again after
// the box was away.
func TestTwoDevicesSeeEachOther(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	phone, laptop := trial.NewTab(t, 390, 844), trial.NewTab(t, 1440, 900)
	phone.Allow("ERR_CONNECTION", "ERR_INCOMPLETE_CHUNKED_ENCODING", "ERR_EMPTY_RESPONSE")
	laptop.Allow("ERR_CONNECTION", "ERR_INCOMPLETE_CHUNKED_ENCODING", "ERR_EMPTY_RESPONSE", "ERR_NETWORK_CHANGED")
	phone.Open(s.URL + "m/codlin/trays")
	laptop.Open(s.URL + linerTwo)
	laptop.Until("the stream", `performance.getEntriesByType("resource").length && window.EventSource`)
	time.Sleep(time.Second) // the stream opens after the page
	var took []time.Duration
	for _, text := range []string{"one from the phone", "two from the phone", "three from the phone"} {
		recordFrom(phone, text)
		answered := time.Now()
		laptop.Until("the note of the phone", `document.querySelector("main").innerText.includes("`+text+`")`)
		took = append(took, time.Since(answered))
	}
	t.Logf("shown %s after the answer", took)
	if slices.Sort(took); took[1] > time.Second {
		t.Errorf("shown %s after the answer, want within a second (the middle of three)", took)
	}

	laptop.Click("#note")
	laptop.Keys("half a word")
	recordFrom(phone, "a second one")
	laptop.Until("the strip", `document.getElementById("news")`)
	if trial.Ask[bool](laptop, `document.querySelector("main").innerText.includes("a second one")`) {
		t.Error("the page changed under the hand of a person who was typing")
	}
	laptop.Click("#news button")
	laptop.Until("the second note", `document.querySelector("main").innerText.includes("a second one")`)
	if typed := trial.Ask[string](laptop, `document.getElementById("note").value`); typed != "half a word" {
		t.Errorf("what was typed became %q", typed)
	}
	trial.Ask[bool](laptop, `(document.getElementById("note").value = "", true)`)

	s.Restart(t)
	recordFrom(phone, "after the box was away")
	laptop.Until("the note after the restart", `document.querySelector("main").innerText.includes("after the box was away")`)
	laptop.Quiet()
	phone.Quiet()
}
