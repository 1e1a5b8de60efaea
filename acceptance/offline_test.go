package acceptance_test

import (
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/trial"
)

// TestCheck14: https with the authority told to the browser: after one visit,
// pages loaded again while the box is away show the bench, the trays and the
// open run as they were last seen, and say so; a reading made then is kept, and
// is in the book when the box is back.
func TestCheck14(t *testing.T) {
	holds(t, 14)
	const name = "shed.home.arpa" // a name that the lock may vouch for (RFC 8375)
	s := trial.Serve(t, t.TempDir(), "demo", "--lock", "--name", name)
	at, err := url.Parse(s.URL)
	if err != nil {
		t.Fatal(err)
	}
	s.TrustLock(t)
	tab := trial.OwnBrowser(t, map[string]any{"host-resolver-rules": "MAP " + name + " 127.0.0.1"}).Tab(t, 390, 844)
	outOfReach(t, s, tab, "https://"+name+":"+at.Port()+"/")
}

// TestOutOfReachOnThisComputer: the same without TLS at the loopback address,
// which browsers hold to be as good.
func TestOutOfReachOnThisComputer(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	outOfReach(t, s, trial.NewTab(t, 390, 844), s.URL)
}

func outOfReach(t *testing.T, s *trial.Server, tab *trial.Tab, base string) {
	tab.Allow("ERR_CONNECTION", "ERR_INCOMPLETE_CHUNKED_ENCODING", "ERR_EMPTY_RESPONSE", "ERR_FAILED", "503")
	pages := map[string]string{"m/codlin": "On the bench now", "m/codlin/trays": "Trays", boreRun: "Cylinder liner or bore"}
	for _, page := range []string{"m/codlin", boreRun} { // the trays come along with the bench
		tab.Open(base + page)
		tab.Until("the worker", `navigator.serviceWorker.controller`)
	}
	for page := range pages {
		trial.Ask[bool](tab, `(async () => { while (!(await caches.match("/`+page+`"))) await new Promise((yes) => setTimeout(yes, 50)); return true; })()`)
	}

	s.Kill()
	for page, title := range pages {
		tab.Open(base + page)
		says := tab.Says()
		if !strings.Contains(says, title) || !strings.Contains(says, "the box is out of reach.") || !strings.Contains(says, "As of ") {
			t.Errorf("/%s shows while the box is away:\n%.300s", page, says)
		}
		if plain := trial.Ask[bool](tab, `getComputedStyle(document.body).display !== "flex"`); plain {
			t.Errorf("/%s has lost its style", page)
		}
	}
	tab.Open(base + "m/codlin/fits")
	if says := tab.Says(); !strings.Contains(says, "The box is out of reach") || !strings.Contains(says, "On the bench now") {
		t.Errorf("a page that was not kept shows:\n%.300s", says)
	}
	tab.Open(base + boreRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	tab.Burst("75.091\r", toolPace)
	tab.Until("the reading kept", `document.getElementById("kept").innerText.includes("Kept here · 1 to send")`)

	s.Restart(t)
	tab.Until("the reading in the book", `!document.getElementById("kept").innerText.includes("to send")`)
	if log := s.Run(t, "log", "show", "--book", s.Book(), "--last", "3", "--json"); strings.Count(log, `"75.091"`) != 1 {
		t.Errorf("the log has:\n%s", log)
	}
	tab.Open(base + "m/codlin")
	if says := tab.Says(); strings.Contains(says, "out of reach") {
		t.Errorf("a box that answers is called out of reach:\n%.300s", says)
	}
	tab.Quiet()
}
