package acceptance_test

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"

	"matchmark/internal/trial"
)

const (
	boreRun  = "m/codlin/run/f/liner/bore"
	linerTwo = "m/codlin/part/liner.2"
	toolPace = 7 * time.Millisecond // from key to key of a tool that types
)

// kept is what the header says is kept here.
func kept(tab *trial.Tab) string {
	return trial.Ask[string](tab, `(() => { const el = document.getElementById("kept"); return el.hidden ? "" : el.innerText.trim(); })()`)
}

// entry is one line of the log as `log show` gives it.
type entry struct {
	ID   string          `json:"id"`
	At   time.Time       `json:"at"`
	Kind string          `json:"kind"`
	Body json.RawMessage `json:"body"`
}

// lastEntries are the last entries of the book, in the order of their times.
func lastEntries(t *testing.T, s *trial.Server, n int) []entry {
	t.Helper()
	var list []entry
	for line := range strings.Lines(s.Run(t, "log", "show", "--book", s.Book(), "--last", "40", "--json")) {
		var e entry
		if err := json.Unmarshal([]byte(line), &e); err != nil {
			t.Fatalf("log show: %v\n%.400s", err, line)
		}
		list = append(list, e)
	}
	slices.SortStableFunc(list, func(a, b entry) int { return a.At.Compare(b.At) })
	return list[max(0, len(list)-n):]
}

// TestCheck12InTheBook: the header says "Kept here" before the answer and "In
// the book" only after it.
func TestCheck12InTheBook(t *testing.T) {
	holds(t, 12)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + linerTwo)
	trial.Ask[bool](tab, `(() => { window.told = []; new MutationObserver(() => told.push([document.getElementById("kept").innerText.trim(), performance.now()]))
		.observe(document.getElementById("kept"), {childList: true, subtree: true, attributes: true}); return true; })()`)
	tab.SlowLine(400, 5)
	tab.Set("#note", "step at ring reversal")
	tab.Click(`button[value=note]`)
	tab.Until("the words after the answer", `told.some(([w]) => w === "In the book")`)
	answered := trial.Ask[float64](tab, `performance.getEntriesByType("resource").filter((e) => e.initiatorType === "fetch" && e.responseStatus === 200)[0].responseEnd`)
	before := false
	for _, at := range trial.Ask[[][]any](tab, "told") {
		if at[0] == "In the book" && at[1].(float64) < answered {
			t.Errorf("“In the book” at %v ms, the answer at %v ms", at[1], answered)
		}
		before = before || at[0] == "Kept here · 1 to send" && at[1].(float64) < answered
	}
	if !before {
		t.Error("the header never said “Kept here” before the answer")
	}
	tab.Until("the note on the page", `document.querySelector("main").innerText.includes("step at ring reversal")`)
	tab.Quiet()
}

// TestCheck12OneRecord: the same record sent three times is one entry.
func TestCheck12OneRecord(t *testing.T) {
	holds(t, 12)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + linerTwo)
	answers := trial.Ask[[]string](tab, `(async () => {
		const out = [];
		for (let i = 0; i < 3; i++) {
			const got = await fetch(location.pathname, {method: "POST", headers: {"X-Outbox": "1"},
				body: new URLSearchParams({once: "0123456789ab", age: String(i), do: "note", text: "sent thrice by trial"})});
			out.push(got.status + " " + (await got.json()).next);
		}
		return out;
	})()`)
	if want := "200 /" + linerTwo; len(answers) != 3 || answers[0] != want || answers[1] != want || answers[2] != want {
		t.Errorf("answered %q, want %q each time", answers, want)
	}
	if n := strings.Count(s.Run(t, "log", "show", "--book", s.Book(), "--about", "sent thrice by trial", "--json"), "\n"); n != 1 {
		t.Errorf("%d entries, want 1", n)
	}
	tab.Quiet()
}

// takePhoto puts a photo made in the page into the photo field and sends it.
const takePhoto = `(async () => {
	const at = new OffscreenCanvas(1200, 900), pen = at.getContext("2d");
	pen.fillStyle = "teal"; pen.fillRect(0, 0, 1200, 900); pen.fillStyle = "white"; pen.fillRect(300, 200, 200, 300);
	const hold = new DataTransfer();
	hold.items.add(new File([await at.convertToBlob({type: "image/jpeg"})], "p.jpg", {type: "image/jpeg"}));
	const field = document.getElementById("photo");
	field.files = hold.files;
	field.dispatchEvent(new Event("change", {bubbles: true}));
	return true;
})()`

// TestCheck11TheBoxIsKilledInARun: ten readings and a photo made while the box
// is away are kept and counted, and each is in the book once, in its order,
// when it is back.
func TestCheck11TheBoxIsKilledInARun(t *testing.T) {
	holds(t, 11)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Allow("ERR_CONNECTION_REFUSED", "ERR_CONNECTION_RESET", "ERR_EMPTY_RESPONSE", "ERR_INCOMPLETE_CHUNKED_ENCODING", "net::ERR_FAILED")
	tab.Open(s.URL + boreRun)
	camera := tab.Beside(390, 844)
	camera.Allow("ERR_CONNECTION_REFUSED", "ERR_CONNECTION_RESET", "ERR_EMPTY_RESPONSE", "ERR_INCOMPLETE_CHUNKED_ENCODING", "net::ERR_FAILED")
	camera.Open(s.URL + "m/codlin/photo?part=liner.2")
	tab.Until("the field", `document.activeElement.id === "reading"`)
	tab.Burst("75.077"+kb.Enter, toolPace)
	tab.Until("the first reading in the book", `document.querySelector("main").innerText.includes("In the book: 75.077") && !document.getElementById("kept").innerText.includes("to send")`)

	s.Kill()
	var want []string
	for i := range 10 {
		if i == 4 { // the photo comes between; it goes last
			camera.Set("#line", "oil way, cylinder 2")
			trial.Ask[bool](camera, takePhoto)
			camera.Until("the photo made small", `!document.querySelector("[aria-busy=true]")`)
			camera.Click("main button.main")
			camera.Until("the photo kept", `document.getElementById("kept").innerText.includes("5 to send")`)
		}
		reading := "75.0" + string(rune('0'+i)) + "1"
		want = append(want, reading)
		tab.Until("the field", `document.activeElement.id === "reading"`)
		tab.Burst(reading+kb.Enter, toolPace)
		n := i + 1
		if i >= 4 {
			n++
		}
		tab.Until("the reading kept", `document.getElementById("kept").innerText.includes("Kept here · `+strconv.Itoa(n)+` to send")`)
	}
	if words := kept(tab); words != "Kept here · 11 to send" {
		t.Errorf("the header says %q", words)
	}
	camera.Until("the same words in the other tab", `document.getElementById("kept").innerText.includes("Kept here · 11 to send")`)

	s.Restart(t)
	tab.Until("all of it in the book", `!document.getElementById("kept").innerText.includes("to send")`)
	if words := kept(tab); strings.Contains(words, "need") {
		tab.Open(s.URL + "outbox")
		t.Fatalf("the box refused: %s", trial.Ask[string](tab, `(async () => { const m = await import([...document.scripts].find((s) => s.src.includes("page.js")).src.replace("page.js", "outbox.js")); return JSON.stringify(await m.all()); })()`))
	}
	list := lastEntries(t, s, 11)
	var got []string
	for _, e := range list {
		switch e.Kind {
		case "reading-taken":
			var r struct{ Amount struct{ Typed string } }
			_ = json.Unmarshal(e.Body, &r)
			got = append(got, r.Amount.Typed)
		case "photo-added":
			got = append(got, "photo")
		}
	}
	want = slices.Insert(want, 4, "photo")
	if !slices.Equal(got, want) {
		t.Errorf("in the book stand %q\nwant %q", got, want)
	}
	for _, reading := range want {
		if n := strings.Count(s.Run(t, "log", "show", "--book", s.Book(), "--kind", "reading-taken", "--about", `"`+reading+`"`, "--json"), "\n"); n > 1 {
			t.Errorf("%s stands in the book %d times", reading, n)
		}
	}
	tab.Quiet()
	camera.Quiet()
}

// TestAReadingOutrunsThePage: a page that is left in the very moment of Enter
// loses nothing.
func TestAReadingOutrunsThePage(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + boreRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	tab.Burst("75.077"+kb.Enter, toolPace) // the page's scripts are awake
	tab.Until("the first reading in the book", `document.querySelector("main").innerText.includes("In the book: 75.077")`)
	trial.Ask[bool](tab, `(() => { const f = document.getElementById("reading"); f.value = "75.0775"; f.form.requestSubmit(); location.href = "/m/codlin/trays"; return true; })()`)
	tab.Until("the next page", `location.pathname.endsWith("/trays")`)
	for range 100 {
		if strings.Contains(s.Run(t, "log", "show", "--book", s.Book(), "--kind", "reading-taken", "--last", "3", "--json"), "75.0775") {
			return
		}
		time.Sleep(100 * time.Millisecond)
	}
	t.Error("the reading is lost")
}

// allSent waits until nothing of the outbox waits.
func allSent(tab *trial.Tab) {
	trial.Ask[bool](tab, `(async () => { while (!(await box.all()).every((r) => r.state === "sent")) await new Promise((yes) => setTimeout(yes, 50)); return true; })()`)
}

// TestOneTabSendsAtATime: with two tabs on one outbox each record is posted
// once, though both try; and the one goes on where the other was closed while
// it had the right to send.
func TestOneTabSendsAtATime(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + linerTwo)
	other := tab.Beside(390, 844)
	other.Open(s.URL + linerTwo)
	for _, of := range []*trial.Tab{tab, other} { // count what each posts
		trial.Ask[bool](of, `(async () => {
			window.box = await import([...document.scripts].find((s) => s.src.includes("page.js")).src.replace("page.js", "outbox.js"));
			window.posts = 0;
			const real = window.fetch;
			window.fetch = (to, how) => { if (how?.method === "POST") window.posts++; return real(to, how); };
			return true;
		})()`)
	}
	const note = `({rank: 1, action: location.href, page: location.href, title: "a part", words: "", fields: [["do", "note"], ["text", "by two tabs"]]})`
	trial.Ask[bool](tab, `(async () => { for (let i = 0; i < 12; i++) await box.keep(`+note+`); return true; })()`)
	trial.Ask[bool](other, `(box.drain(), true)`)
	trial.Ask[bool](tab, `(box.drain(), true)`)
	allSent(tab)
	if one, two := trial.Ask[int](tab, "posts"), trial.Ask[int](other, "posts"); one+two != 12 {
		t.Errorf("the tabs posted %d and %d records, want 12 in all", one, two)
	}
	if n := strings.Count(s.Run(t, "log", "show", "--book", s.Book(), "--about", "by two tabs", "--json"), "\n"); n != 12 {
		t.Errorf("%d entries, want 12", n)
	}
	// A tab that went away while it had the right to send holds it no longer
	// than its lease.
	trial.Ask[bool](tab, `new Promise((yes) => { const ask = indexedDB.open("matchmark-outbox"); ask.onsuccess = () => {
		const tx = ask.result.transaction("lease", "readwrite");
		tx.objectStore("lease").put({name: "send", by: "a tab that is gone", until: Date.now() + 3000});
		tx.oncomplete = () => { ask.result.close(); yes(true); };
	}; })`)
	trial.Ask[bool](tab, `box.keep(`+note+`).then(() => { box.drain(); return true; })`)
	allSent(tab)
	tab.Quiet()
	other.Quiet()
}

// TestARefusalIsKept: what the box refuses is shown with what was typed, needs
// the person until it was filled in again, and can be copied or put away.
func TestARefusalIsKept(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + "m/codlin/sound")
	tab.Set("#rpm", "fast")
	tab.Set("#caption", "knock")
	tab.Click("main button.main")
	tab.Until("the refusal", `document.querySelector("[role=alert]")?.innerText.includes("no recording")`)
	if got := trial.Ask[string](tab, `document.getElementById("rpm").value + ", " + document.getElementById("caption").value`); got != "fast, knock" {
		t.Errorf("what was typed became %q", got)
	}
	tab.Until("no words in the header on a refusal that stands on the page", `document.getElementById("kept").hidden`)
	tab.Open(s.URL + "m/codlin")
	tab.Until("the header", `document.getElementById("kept").innerText.includes("1 needs you")`)
	tab.Click("#kept a")
	tab.Until("the record", `document.querySelector("#asked li")`)
	for _, want := range []string{"There was no recording", "Engine speed, if it ran: fast", "One line: knock"} {
		if says := trial.Ask[string](tab, `document.getElementById("asked").innerText`); !strings.Contains(says, want) {
			t.Errorf("the outbox does not say %q:\n%s", want, says)
		}
	}
	trial.Ask[bool](tab, `(document.querySelector("#asked a").click(), true)`)
	tab.Until("the form filled in again", `location.pathname.endsWith("/sound") && document.getElementById("caption").value === "knock"`)
	tab.Open(s.URL + "outbox")
	tab.Until("the record still there", `document.querySelector("#asked li")`)
	tab.Click(`#asked [data-do=away]`)
	tab.Until("the record put away", `!document.querySelector("#asked li") && document.querySelector("#away li")`)
	tab.Click(`#away [data-do=back]`)
	tab.Until("the record back", `document.querySelector("#asked li") && !document.querySelector("#away li")`)

	tab.Open(s.URL + boreRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	tab.Keys("abc" + kb.Enter)
	tab.Until("words on it", `document.querySelector("main").innerText.includes("abc")`)
	tab.Quiet()
}
