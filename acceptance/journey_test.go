package acceptance_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"html"
	"image"
	"image/jpeg"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"matchmark/internal/trial"
)

// journey is one person at one phone, with a machine of their own: what they
// did, told apart from what the book says they did.
type journey struct {
	t     *testing.T
	s     *trial.Server
	tab   *trial.Tab
	base  string
	photo string // a file to take for a photo
	did   []string
	taps  int
}

// The trouble on the way: the box is killed three times, the line cut twice.
const (
	removals, readings = 60, 40
	killedAtRemoval    = 20
	cutAtRemoval       = 40
	killedAtReading    = 15
	cutAtReading       = 30
)

// TestJourney: a machine is started from kits, sixty joints are opened with a
// photo each, parts are cleaned, forty readings come from a tool that types,
// a part is called and ordered, and the build goes on to its first hold, is
// refused, cleared and goes on. The box is killed three times and the line cut
// twice while something is being kept. The log equals what was done.
func TestJourney(t *testing.T) {
	j := setOut(t)
	j.start()
	j.taps = 0
	begin := time.Now()
	for n := range removals {
		j.remove(n)
	}
	taps := float64(j.taps) / removals
	secs := time.Since(begin).Seconds() / removals
	t.Logf("a removal: %.2f taps, %.1f s of pages and box (typing and photo made by the test)", taps, secs)
	j.clean("hub-cap.left", "paraffin and brush")
	j.clean("hub-nut.left", "wire brush, by hand")
	j.measure()
	j.call()
	j.order()
	j.build()
	j.compare()
	j.tab.Quiet()
}

func setOut(t *testing.T) *journey {
	j := &journey{t: t, s: trial.Serve(t, t.TempDir()), tab: trial.NewTab(t, 390, 844), photo: filepath.Join(t.TempDir(), "p.jpg")}
	var data bytes.Buffer
	if err := jpeg.Encode(&data, image.NewGray(image.Rect(0, 0, 1600, 1200)), nil); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(j.photo, data.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("the book ends:\n%s", j.s.Run(t, "log", "show", "--on", "orchard-two", "--book", j.s.Book(), "--last", "5"))
		}
	})
	j.tab.Allow("ERR_CONNECTION_REFUSED", "ERR_CONNECTION_RESET", "ERR_EMPTY_RESPONSE", "ERR_INCOMPLETE_CHUNKED_ENCODING", "ERR_INTERNET_DISCONNECTED", "net::ERR_FAILED")
	return j
}

// note adds to the script what was done just now.
func (j *journey) note(format string, a ...any) { j.did = append(j.did, fmt.Sprintf(format, a...)) }

// inBook waits until nothing is left to send.
func (j *journey) inBook() {
	j.t.Helper()
	j.tab.Until("all in the book", `!document.getElementById("kept").innerText.includes("to send")`)
}

// waiting waits until something is kept here.
func (j *journey) waiting() {
	j.t.Helper()
	j.tab.Until("kept here", `document.getElementById("kept").innerText.includes("to send")`)
}

// start makes the machine, and a photo of its front.
func (j *journey) start() {
	j.tab.Open(j.s.URL + "start")
	j.tab.Set("#name", "Orchard two")
	j.tap("main button.main")
	j.tab.Until("the new machine", `location.pathname.endsWith("/survey")`)
	j.base = j.s.URL + "m/orchard-two"
	j.take("#photo-front")
	j.tap("#side-front form button")
	j.tab.Until("the photo of the front", `document.querySelector("#side-front .photos img")`)
	j.inBook()
	j.note("photo-added side:front")
}

var offered = regexp.MustCompile(`<button name="pick" value="([^"]+)"[^>]*>([^<]+)`)

// remove opens the next joint that may come apart, by photo and one line.
func (j *journey) remove(n int) {
	t, tab := j.t, j.tab
	id, name := j.next()
	if n == removals-1 { // the one that is held later
		id, name = "hubcap-fit.left", "hub cap, on the left"
	}
	if n == 0 {
		tab.Open(j.base)
	}
	j.tap(`.bar nav a[href$="/photo"]`) // a tap: photo
	tab.Until("the sheet", `location.pathname.endsWith("/photo") && document.getElementById("line")`)
	j.take("#photo") // a tap: take
	j.taps++
	tab.Do(chromedp.Focus(chromedp.CSS("#line")))
	bolts, tray := 2+n%5, fmt.Sprintf("J%d", 1+n/10)
	tab.Keys(fmt.Sprintf("%d M8x25 %s, tray %s", bolts, name, tray))
	ready := `!document.querySelector(".keepbar button").disabled && document.querySelector(".gist")?.innerText.includes(` + quoted("tray "+tray) + `)`
	tab.Until("the line as understood", ready)
	if got := trial.Ask[string](tab, `document.querySelector("#heard [name=joint]")?.value ?? ""`); got != id {
		if !trial.Ask[bool](tab, `!!document.querySelector("#heard .picks button[value=`+quotedIn(id)+`]")`) {
			t.Fatalf("“%s” was understood as %q and %s is not offered:\n%s", name, got, id, tab.Says())
		}
		j.tap(`#heard .picks button[value=` + quotedIn(id) + `]`) // a tap: which of them
		tab.Until("the joint that was chosen", ready+` && document.querySelector("#heard [name=joint]")?.value === `+quoted(id))
	}
	found := trial.Ask[int](tab, `document.querySelectorAll("#heard [name^=found-]").length`)
	if found > 0 { // as found is taken before it is undone
		trial.Ask[bool](tab, `(document.querySelectorAll("#heard [name^=found-]").forEach((f, i) => { f.value = "as found " + i; f.dispatchEvent(new Event("change", {bubbles: true})); }), true)`)
		j.tap(`#heard [name=asked]`)
	}
	switch n {
	case killedAtRemoval:
		j.s.Kill()
	case cutAtRemoval:
		tab.Offline(true)
	}
	j.tap(".keepbar button") // a tap: keep
	switch n {
	case killedAtRemoval:
		j.waiting()
		j.s.Restart(t)
	case cutAtRemoval:
		j.waiting()
		tab.Offline(false)
	}
	for i := range found {
		j.note("as-found-taken %s as found %d", id, i)
	}
	j.note("joint-opened %s %d %s photo", id, bolts, tray)
	if n == killedAtRemoval || n == cutAtRemoval {
		j.inBook()
		tab.Open(j.base)
		return
	}
	tab.Until("the joint's page", `location.pathname.endsWith("/joint/" + `+quoted(id)+`)`)
}

// take puts the photo into a field.
func (j *journey) take(css string) {
	j.t.Helper()
	j.patiently(chromedp.SetUploadFiles(chromedp.CSS(css), []string{j.photo}))
}

// tap presses what is on the screen.
func (j *journey) tap(css string) {
	j.t.Helper()
	j.patiently(chromedp.Click(chromedp.CSS(css)))
	j.taps++
}

// patiently does a step again where the page was just being brought up to date
// under the finger, as a person would.
func (j *journey) patiently(step chromedp.Action[chromedp.Void]) {
	j.t.Helper()
	var err error
	for range 5 {
		ctx, cancel := context.WithTimeout(j.tab.Ctx, time.Minute)
		err = chromedp.Do(ctx, step)
		cancel()
		if err == nil {
			return
		}
		time.Sleep(200 * time.Millisecond)
	}
	j.t.Fatal(err)
}

func quoted(text string) string {
	out, _ := json.Marshal(text)
	return string(out)
}

// quotedIn is for a selector inside a text of a script.
func quotedIn(text string) string { return "'" + text + "'" }

// next asks the sheet what may come apart now.
func (j *journey) next() (id, name string) {
	j.t.Helper()
	answer, err := http.Get(j.base + "/photo")
	if err != nil {
		j.t.Fatal(err)
	}
	page, err := io.ReadAll(answer.Body)
	_ = answer.Body.Close()
	m := offered.FindSubmatch(page)
	if err != nil || m == nil {
		j.t.Fatalf("the sheet offers nothing to open: %v", err)
	}
	return html.UnescapeString(string(m[1])), strings.ToLower(strings.TrimSpace(html.UnescapeString(string(m[2]))))
}

// clean records a part as cleaned.
func (j *journey) clean(part, with string) {
	j.tab.Open(j.base + "/part/" + part)
	if !trial.Ask[bool](j.tab, `!!document.getElementById("clean")`) {
		j.t.Fatalf("no part %s to clean:\n%s", part, j.tab.Says())
	}
	j.tab.Set("#clean", with)
	j.tap("button[value=clean]")
	j.tab.Until("the cleaning in the book", `[...document.querySelectorAll("main li")].some((l) => l.innerText.includes(`+quoted(with)+`))`)
	j.note("part-cleaned %s %s", part, with)
}

// measure reads forty points with a tool that types.
func (j *journey) measure() {
	n := 0
	for _, run := range []struct {
		path   string
		points int
		like   string
	}{{"liner/bore", 21, "75.0%02d"}, {"crankshaft/main-journal", readings - 21, "51.9%02d"}} {
		j.tab.Open(j.base + "/run/f/" + run.path)
		for i := range run.points {
			j.tab.Until("the field", `document.activeElement.id === "reading"`)
			switch n {
			case killedAtReading:
				j.s.Kill()
			case cutAtReading:
				j.tab.Offline(true)
			}
			typed := fmt.Sprintf(run.like, 10+(i*7)%40)
			j.tab.Burst(typed+kb.Enter, toolPace)
			j.tab.Until("the figure in its cell", fmt.Sprintf(`[...document.querySelectorAll("td[data-key] .num")].filter((c) => c.textContent.trim()).length === %d`, i+1))
			j.note("reading-taken %s", typed)
			switch n {
			case killedAtReading + 3: // it goes on while the box is away
				j.s.Restart(j.t)
			case cutAtReading + 3:
				j.tab.Offline(false)
			}
			n++
		}
		j.inBook()
	}
}

// call says renew of a part.
func (j *journey) call() {
	j.tab.Open(j.base + "/part/liner.1")
	j.tab.Set("#why", "scored")
	j.tap("button[value=renew]")
	j.tab.Until("the call in the book", `document.querySelector(".tag.big .word").innerText === "renew"`)
	j.note("call-made liner.1 renew scored")
}

// order records something ordered, in words.
func (j *journey) order() {
	j.tab.Open(j.base + "/buy")
	if !trial.Ask[bool](j.tab, `!!document.getElementById("what")`) {
		j.t.Fatalf("nothing can be ordered:\n%s", j.tab.Says())
	}
	j.tap(".orderform summary")
	j.tab.Set("#from", "the liner works")
	j.tab.Set("#what", "one dry liner, semi-finished")
	j.tap("button[value=buy]")
	j.tab.Until("the order in the book", `document.getElementById("away").innerText.includes("dry liner")`)
	j.note("ordered one dry liner, semi-finished")
}

// build closes what is held, is refused, clears the hold and goes on; the box
// is killed once more when the hold is clear.
func (j *journey) build() {
	tab := j.tab
	const closing = "/close/hubcap-fit.left"
	tab.Open(j.base + closing)
	tab.Until("the hold", `document.querySelector(".held")?.innerText.includes("Front hub end play")`)
	j.tap("button.main")
	tab.Until("the refusal", `document.querySelector("[role=alert]")?.innerText.includes("Held")`)
	if strings.Contains(j.log("joint-closed"), "hubcap") {
		j.t.Error("a held closing is in the book")
	}
	tab.Open(j.base + "/run/c/hub-play?at=hub-play.left%7C0")
	tab.Until("the field", `document.activeElement.id === "reading"`)
	tab.Burst("0.06"+kb.Enter, toolPace)
	tab.Until("the reading in its cell", `[...document.querySelectorAll("td[data-key] .num")].some((c) => c.textContent === "0.06")`)
	j.inBook()
	j.note("reading-taken 0.06")

	tab.Open(j.base + closing)
	tab.Until("no hold", `!document.querySelector(".held")`)
	j.s.Kill()
	tab.Set("#note", "packed with grease")
	j.tap("button.main")
	j.waiting()
	j.s.Restart(j.t)
	j.inBook()
	j.note("joint-closed hubcap-fit.left packed with grease")
	tab.Open(j.s.URL + "outbox") // the closing that was refused is still here
	tab.Until("the refused closing", `document.querySelector("#asked li")?.innerText.includes("hub cap")`)
	j.tap(`#asked [data-do=away]`)
	tab.Until("it put away", `!document.querySelector("#asked li")`)

	tab.Open(j.base + "/build")
	next := trial.Ask[string](tab, `(document.querySelector('main a[href*="/close/"]:not(.held)')?.getAttribute("href") ?? "")`)
	if next == "" {
		j.t.Fatalf("the build does not go on:\n%s", tab.Says())
	}
	tab.Open(strings.TrimSuffix(j.s.URL, "/") + next)
	j.tap("button.main")
	tab.Until("the closing kept", `!location.pathname.includes("/close/")`)
	j.inBook()
	j.note("joint-closed %s ", filepath.Base(next))
}

func (j *journey) log(kind string) string {
	return j.s.Run(j.t, "log", "show", "--on", "orchard-two", "--book", j.s.Book(), "--kind", kind, "--json")
}

// compare holds the log to what was done: each once, in its order, no more.
func (j *journey) compare() {
	var got []string
	var list []entry
	for line := range strings.Lines(j.s.Run(j.t, "log", "show", "--on", "orchard-two", "--book", j.s.Book(), "--last", "100000", "--json")) {
		var e entry
		if err := json.Unmarshal([]byte(line), &e); err != nil {
			j.t.Fatal(err)
		}
		list = append(list, e)
	}
	slices.SortStableFunc(list, func(a, b entry) int { return a.At.Compare(b.At) })
	for _, e := range list {
		if words := told(e); words != "" {
			got = append(got, words)
		}
	}
	for i := range max(len(got), len(j.did)) {
		var a, b string
		if i < len(got) {
			a = got[i]
		}
		if i < len(j.did) {
			b = j.did[i]
		}
		if a != b {
			j.t.Fatalf("entry %d of %d is %q, done was %q (of %d)", i+1, len(got), a, b, len(j.did))
		}
	}
	j.t.Logf("%d things done, %d in the book, in the same order; none lost, none twice", len(j.did), len(got))
}

// told puts an entry in the words of the script; the declaring facts of the
// kits have none.
func told(e entry) string {
	var b struct {
		Joint, Of, Tray, Words, Part, Method, Call, Why, What, Note string
		Photos                                                      []string
		Fasteners                                                   []struct{ Count int }
		Amount                                                      struct{ Typed string }
	}
	_ = json.Unmarshal(e.Body, &b)
	switch e.Kind {
	case "photo-added":
		return e.Kind + " " + b.Of
	case "as-found-taken":
		return e.Kind + " " + b.Joint + " " + b.Words
	case "joint-opened":
		bolts, photo := 0, "no photo"
		if len(b.Fasteners) == 1 {
			bolts = b.Fasteners[0].Count
		}
		if len(b.Photos) == 1 {
			photo = "photo"
		}
		return fmt.Sprintf("%s %s %d %s %s", e.Kind, b.Joint, bolts, b.Tray, photo)
	case "part-cleaned":
		return e.Kind + " " + b.Part + " " + b.Method
	case "reading-taken":
		return e.Kind + " " + b.Amount.Typed
	case "call-made":
		return e.Kind + " " + b.Part + " " + b.Call + " " + b.Why
	case "ordered":
		return e.Kind + " " + b.What
	case "joint-closed":
		return e.Kind + " " + b.Joint + " " + b.Note
	case "machine-named", "kit-taken", "places-set", "datum-set", "assembly-added", "part-added", "feature-added", "joint-added", "check-added", "test-added", "cleaning-added", "symptom-added":
		return ""
	}
	return e.Kind
}
