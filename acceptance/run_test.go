package acceptance_test

import (
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"matchmark/internal/trial"
)

// The runs of the demo machine that the checks are made on: twelve points that
// are read, and twenty that are not.
const (
	smallEnd = "m/codlin/run/f/small-end-bush/bore"
	drumRun  = "m/codlin/run/f/brake-drum/bore"
	linerRun = "m/codlin/run/f/liner/bore"
)

// gap is between two keys of a tool, by measurement of such boxes.
const gap = 7 * time.Millisecond

// profile is what a tool types, as the corpus has it.
type profile struct{ Prefix, Unit, Mark, End string }

// teach puts a tool on the shop's shelf and gives its id.
func teach(t *testing.T, s *trial.Server, name string, p profile) string {
	t.Helper()
	form := url.Values{"name": {name}, "prefix": {p.Prefix}, "unit": {p.Unit}, "mark": {p.Mark}, "end": {p.End}, "instrument": {"digital-calliper"}}
	client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	answer, err := client.PostForm(s.URL+"tools", form)
	if err != nil {
		t.Fatal(err)
	}
	_ = answer.Body.Close()
	for _, c := range answer.Cookies() {
		if c.Name == "tool" {
			return c.Value
		}
	}
	t.Fatalf("teaching %s answered %s and takes no tool in hand", name, answer.Status)
	return ""
}

// inHand takes a tool in hand on the tab's device.
func inHand(tab *trial.Tab, id string) {
	trial.Ask[bool](tab, "document.cookie = 'tool="+id+"; path=/', true")
}

// cells are the figures of the table, by their points in order, "|" between.
func cells(tab *trial.Tab) string {
	return trial.Ask[string](tab, `[...document.querySelectorAll("td[data-key]")].sort((a, b) => a.dataset.nth - b.dataset.nth).map((c) => c.querySelector(".num").textContent).join("|")`)
}

func pointNow(tab *trial.Tab) string {
	return trial.Ask[string](tab, `document.getElementById("keep").point.value`)
}

// settled waits until all that was done is in the book and shown.
func settled(tab *trial.Tab) {
	tab.Until("the book", `!document.querySelector("[data-doing]")`)
}

// logSize is how many entries the log has.
func logSize(t *testing.T, s *trial.Server) int {
	t.Helper()
	return strings.Count(s.Run(t, "log", "show", "--book", s.Book(), "--last", "100000", "--json"), "\n")
}

// readBody is what an entry says of a reading, or of a withdrawal.
type readBody struct {
	Level, Axis string
	Amount      struct {
		Value float64
		Typed string
	}
	Tool string
}

// since lists what came into the log, in the order in which it came.
func since(t *testing.T, s *trial.Server, before int) (kinds []string, bodies []readBody) {
	t.Helper()
	n := logSize(t, s) - before
	if n == 0 {
		return nil, nil
	}
	for line := range strings.Lines(s.Run(t, "log", "show", "--book", s.Book(), "--last", strconv.Itoa(n), "--json")) {
		var e struct {
			Kind string
			Body json.RawMessage
		}
		var b readBody
		if err := json.Unmarshal([]byte(line), &e); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(e.Body, &b); err != nil {
			t.Fatal(err)
		}
		kinds, bodies = append(kinds, e.Kind), append(bodies, b)
	}
	return kinds, bodies
}

// landing notes how long it takes from the key that ends a figure to the figure
// in its cell; it listens before the page's own scripts do.
const landing = `
window.took = []
let struck = 0
addEventListener("keydown", (ev) => { if (ev.key === "Enter") struck = performance.now() }, true)
new MutationObserver((list) => { if (struck && list.some((m) => m.target.closest?.("td[data-key]"))) { took.push(performance.now() - struck); struck = 0 } })
  .observe(document, {subtree: true, childList: true})`

// TestCheck06: a whole run of twelve points by keys alone; the reading field
// has the focus after each.
func TestCheck06(t *testing.T) {
	holds(t, 6)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + smallEnd)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	if n := trial.Ask[int](tab, `document.querySelectorAll("td[data-key]").length`); n != 12 {
		t.Fatalf("the run has %d points, want 12", n)
	}
	for range 30 { // the demo has read it: take its readings back
		if trial.Ask[bool](tab, `document.getElementById("undo").disabled`) {
			break
		}
		press(tab, "#undo")
		settled(tab)
	}
	if left := strings.Trim(cells(tab), "|"); left != "" {
		t.Fatalf("after taking all back the table has %q", left)
	}
	if _, err := chromedp.Call(tab.Ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: landing}); err != nil {
		t.Fatal(err)
	}
	tab.Open(s.URL + smallEnd)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	want := ""
	for i := range 12 {
		figure := fmt.Sprintf("23.%03d", 51+i)
		want += "|" + figure
		tab.Keys(figure)
		tab.Keys(kb.Enter)
		if on := tab.Focused(); on != "reading" {
			t.Errorf("after reading %d the focus is on %s", i+1, on)
		}
		if text := trial.Ask[string](tab, `document.getElementById("reading").value`); text != "" {
			t.Errorf("after reading %d the field holds %q", i+1, text)
		}
	}
	settled(tab)
	got := "|" + cells(tab)
	for i := range 12 { // 23.060 is shown as 23.06
		want = strings.ReplaceAll(want+"|", fmt.Sprintf("23.%03d|", 51+i), strings.TrimSuffix(fmt.Sprintf("23.%03d", 51+i), "0")+"|")
		want = strings.TrimSuffix(want, "|")
	}
	if got != want {
		t.Errorf("the table has %s, want %s", got, want)
	}
	if !strings.Contains(tab.Says(), "All 12 points are read") {
		t.Error("the page does not say that the run is whole")
	}
	took := trial.Ask[[]float64](tab, "took")
	if len(took) != 12 {
		t.Errorf("%d of 12 figures were seen to land", len(took))
	}
	slices.Sort(took)
	if len(took) > 0 {
		t.Logf("Enter to figure in cell: median %.1f ms, most %.1f ms of %d", took[len(took)/2], took[len(took)-1], len(took))
		if mid := took[len(took)/2]; mid > 100 {
			t.Errorf("Enter to figure in cell took %.0f ms, at most 100 are allowed", mid)
		}
	}
	tab.Quiet()
}

type corpusRow struct {
	ID      string
	Profile profile
	Raw     string
	Figure  string
	Unit    string
	Why     string
}

func wedgeCorpus(t *testing.T) []corpusRow {
	t.Helper()
	data, err := os.ReadFile("../internal/trade/wedge/testdata/corpus.json")
	if err != nil {
		t.Fatal(err)
	}
	var rows []corpusRow
	if err := json.Unmarshal(data, &rows); err != nil {
		t.Fatal(err)
	}
	return rows
}

// TestCheck07OneReader: the reader of the page answers every row of the corpus
// as the box does.
func TestCheck07OneReader(t *testing.T) {
	holds(t, 7)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + drumRun)
	trial.Ask[bool](tab, `import([...document.scripts].find((s) => s.src.endsWith("run.js")).src.replace("run.js", "wedge.js")).then((m) => { window.wedge = m; return true; })`)
	rows := wedgeCorpus(t)
	for _, r := range rows {
		p, _ := json.Marshal(map[string]string{"prefix": r.Profile.Prefix, "unit": r.Profile.Unit, "mark": r.Profile.Mark})
		raw, _ := json.Marshal(r.Raw)
		got := trial.Ask[map[string]string](tab, fmt.Sprintf("wedge.read(%s, %s)", raw, p))
		if got["why"] != r.Why || got["text"] != r.Figure || got["unit"] != r.Unit {
			t.Errorf("%s: %q is read as %v, want %q %q or %q", r.ID, r.Raw, got, r.Figure, r.Unit, r.Why)
		}
	}
	tab.Quiet()
}

// TestCheck07: what tools type, key by key at 7 ms: exact values and raw texts
// in the log; garbage and double fires are not kept.
func TestCheck07(t *testing.T) {
	holds(t, 7)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL)
	before := logSize(t, s)
	type kept struct {
		raw   string
		value float64
	}
	var want []kept
	ids := map[profile]string{}
	done := map[string]bool{}
	rows := wedgeCorpus(t)
	slices.SortStableFunc(rows, func(a, b corpusRow) int { return strings.Compare(fmt.Sprint(a.Profile), fmt.Sprint(b.Profile)) })
	for _, r := range rows {
		typed, ends := keysOf(r.Raw, r.Profile.End)
		if done[fmt.Sprint(typed, r.Profile)] || strings.ContainsFunc(typed, func(c rune) bool { return c < ' ' || c == '\ufeff' || c == '\u00a0' || c == '\u2009' }) {
			continue // no key types it
		}
		done[fmt.Sprint(typed, r.Profile)] = true
		if ids[r.Profile] == "" {
			ids[r.Profile] = teach(t, s, fmt.Sprintf("tool %d", len(ids)), r.Profile)
			inHand(tab, ids[r.Profile])
			tab.Open(s.URL + drumRun)
		}
		tab.Until("the field", `document.activeElement.id === "reading" && document.getElementById("run")?.dataset.by === "`+ids[r.Profile]+`"`)
		tab.Burst(typed+ends, gap)
		if r.Figure == "" {
			if r.Why != "nothing arrived" {
				tab.Until("the refusal of "+r.ID, `!document.getElementById("ask").hidden && document.getElementById("reading").getAttribute("aria-invalid")`)
			}
			continue
		}
		value := 0.0
		if _, err := fmt.Sscan(r.Figure, &value); err != nil {
			t.Fatal(err)
		}
		if r.Unit == "in" {
			value *= 25.4
		}
		tab.Until("the landing or the doubt about "+r.ID, `!document.getElementById("ask").hidden || document.getElementById("reading").value === ""`)
		if trial.Ask[bool](tab, `!document.getElementById("ask").hidden`) { // far from what was read before
			press(tab, "#ask button[value=keep]")
		}
		settled(tab)
		want = append(want, kept{typed, value})
	}
	kinds, bodies := since(t, s, before)
	if len(bodies) != len(want) {
		t.Errorf("%d readings are in the log, want %d: %v", len(bodies), len(want), kinds)
	}
	for i := range min(len(want), len(bodies)) {
		if got := bodies[i].Amount; got.Typed != want[i].raw || math.Abs(got.Value-want[i].value) > 1e-9 || bodies[i].Tool != "digital-calliper" {
			t.Errorf("reading %d is %q, %v with %s; want %q, %v", i, got.Typed, got.Value, bodies[i].Tool, want[i].raw, want[i].value)
		}
	}
	if len(want) < 40 {
		t.Errorf("only %d rows of the corpus were typed", len(want))
	}
	t.Logf("%d rows typed and kept by %d tools", len(want), len(ids))
	tab.Quiet()
}

// keysOf parts a raw text into what is typed and the keys that end it.
func keysOf(raw, end string) (typed, ends string) {
	typed = strings.TrimRight(raw, "\r\n\t")
	switch {
	case strings.HasSuffix(raw, "\r\n"):
		return typed, kb.Enter + kb.Enter // LF comes as one more Enter
	case strings.HasSuffix(raw, "\t"):
		return typed, kb.Tab
	case end == "quiet":
		return typed, ""
	}
	return typed, kb.Enter
}

// press clicks with the mouse on what stands there now: a page that is just
// coming from the box may replace the element under a click by node.
func press(tab *trial.Tab, css string) {
	at := trial.Ask[[]float64](tab, fmt.Sprintf(`(() => { const el = document.querySelector(%q); el.scrollIntoView({block: "center"}); const r = el.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()`, css))
	tab.Do(chromedp.MouseClickXY(at[0], at[1]))
}

// TestCheck07Ends: Enter, Tab, quiet, LF after CR, an empty Enter, a double
// fire, and a prefix with no Enter.
func TestCheck07Ends(t *testing.T) {
	holds(t, 7)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL)
	plain := teach(t, s, "plain", profile{Unit: "mm", Mark: "point", End: "enter"})
	quiet := teach(t, s, "quiet", profile{Prefix: "##A", Unit: "mm", Mark: "point", End: "quiet"})
	before := logSize(t, s)
	inHand(tab, plain)
	tab.Open(s.URL + drumRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	if mode := trial.Ask[string](tab, `document.getElementById("reading").inputMode`); mode != "none" {
		t.Errorf("with a tool in hand the field asks for the keyboard %q", mode)
	}
	landed := func(n int) {
		t.Helper()
		tab.Until(fmt.Sprintf("reading %d", n), fmt.Sprintf(`[...document.querySelectorAll("td[data-key] .num")].filter((c) => c.textContent).length === %d`, n))
		tab.Until("the focus", `document.activeElement.id === "reading"`)
	}
	tab.Burst("180.02"+kb.Enter, gap)
	landed(1)
	tab.Burst("180.04"+kb.Tab, gap)
	landed(2)
	tab.Burst("180.06"+kb.Enter+kb.Enter, gap)
	landed(3)
	tab.Keys(kb.Enter)
	tab.Burst("180.08"+kb.Enter+"180.08"+kb.Enter, gap)
	tab.Until("the word on the double fire", `document.getElementById("tell").innerText.includes("came twice")`)
	landed(4)
	settled(tab)
	inHand(tab, quiet)
	tab.Open(s.URL + drumRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	tab.Burst("01A+0180.010", gap)
	landed(5)
	tab.Burst("01A+0180.030", gap)
	landed(6)
	settled(tab)
	press(tab, "#keyin")
	if mode := trial.Ask[string](tab, `document.getElementById("reading").inputMode`); mode != "decimal" {
		t.Errorf("after Key in the field asks for the keyboard %q", mode)
	}
	tab.Keys("180,05")
	press(tab, "#keepit")
	landed(7)
	settled(tab)
	_, bodies := since(t, s, before)
	var typed []string
	for _, b := range bodies {
		typed = append(typed, b.Amount.Typed)
	}
	if got := strings.Join(typed, " "); got != "180.02 180.04 180.06 180.08 01A+0180.010 01A+0180.030 180,05" {
		t.Errorf("the log has %s", got)
	}
	if v := bodies[len(bodies)-1].Amount.Value; v != 180.05 {
		t.Errorf("180,05 keyed in is kept as %v", v)
	}
	tab.Quiet()
}

// TestCheck07Inches: a figure 25.4 times off is asked about before it is sent,
// and one tap answers.
func TestCheck07Inches(t *testing.T) {
	holds(t, 7)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL)
	inHand(tab, teach(t, s, "plain", profile{Unit: "mm", Mark: "point", End: "enter"}))
	before := logSize(t, s)
	tab.Open(s.URL + linerRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	tab.Burst("2.9550"+kb.Enter, gap)
	tab.Until("the question", `document.getElementById("ask").innerText.includes("Is the calliper on inches?")`)
	if n := logSize(t, s); n != before {
		t.Error("the figure was sent before it was answered")
	}
	press(tab, "#ask button[value=in]")
	settled(tab)
	tab.Burst("81.25"+kb.Enter, gap)
	tab.Until("the question", `document.getElementById("ask").innerText.includes("Keep it, or measure again?")`)
	press(tab, "#again")
	tab.Until("the field empty", `document.getElementById("ask").hidden && document.getElementById("reading").value === ""`)
	tab.Burst("75.09"+kb.Enter, gap)
	settled(tab)
	_, bodies := since(t, s, before)
	if len(bodies) != 2 || bodies[0].Amount.Typed != "2.9550" || math.Abs(bodies[0].Amount.Value-2.9550*25.4) > 1e-9 || bodies[1].Amount.Value != 75.09 {
		t.Errorf("the log has %+v", bodies)
	}
	tab.Quiet()
}

// TestCheck08: a burst into the note leaves it as it was and is offered.
func TestCheck08(t *testing.T) {
	holds(t, 8)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + drumRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	before := logSize(t, s)
	for i, burst := range []string{"180.02" + kb.Enter, "180.04" + kb.Tab, "180.06"} { // the last ends by quiet
		trial.Ask[bool](tab, `document.getElementById("note").closest("details").open = true`)
		press(tab, "#note")
		trial.Ask[bool](tab, `document.getElementById("note").value = "", true`)
		tab.Keys("edge 2 scored")
		time.Sleep(15 * gap) // a hand, then the tool
		tab.Burst(burst, gap)
		figure := burst[:6]
		tab.Until("the offer", `document.getElementById("ask").innerText.includes("`+figure+` arrived. Put it on ")`)
		if note := trial.Ask[string](tab, `document.getElementById("note").value`); note != "edge 2 scored" {
			t.Errorf("the note is %q", note)
		}
		if n := logSize(t, s); n != before+i {
			t.Errorf("%d entries were made by the burst", n-before-i)
		}
		press(tab, "#ask button[value=put]")
		settled(tab)
	}
	_, bodies := since(t, s, before)
	if len(bodies) != 3 || bodies[0].Amount.Value != 180.02 || bodies[2].Amount.Typed != "180.06" {
		t.Errorf("the log has %+v", bodies)
	}
	tab.Quiet()
}

// comesNew puts the box's page in the place of the one shown, as its scripts do.
func comesNew(tab *trial.Tab) {
	trial.Ask[bool](tab, `import(document.querySelector("script[src$='/page.js']").src).then((m) => m.go(location.href))`)
}

// TestQuestionOutlastsThePage: what is asked about a figure, and the figure,
// stand on a page that comes new from the box meanwhile.
func TestQuestionOutlastsThePage(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + drumRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	before := logSize(t, s)
	tab.Burst("180.02"+kb.Enter, gap)
	settled(tab)
	tab.Burst("7.09"+kb.Enter, gap)
	tab.Until("the doubt", `document.getElementById("ask").innerText.includes("180.02") || document.getElementById("ask").innerText.includes("inches")`)
	asked := trial.Ask[string](tab, `document.getElementById("ask").innerText`)
	comesNew(tab)
	if got := trial.Ask[string](tab, `document.getElementById("ask").innerText`); got != asked {
		t.Errorf("asked was %q, now %q", asked, got)
	}
	press(tab, "#ask button[value=in]")
	settled(tab)
	if _, bodies := since(t, s, before); len(bodies) != 2 || math.Abs(bodies[1].Amount.Value-7.09*25.4) > 1e-9 {
		t.Errorf("the log has %+v", bodies)
	}
	tab.Quiet()
}

// TestNoteKeepsTheFocus: a page that comes new from the box does not take the
// keys from a note that is being written.
func TestNoteKeepsTheFocus(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + drumRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	trial.Ask[bool](tab, `document.getElementById("note").closest("details").open = true`)
	press(tab, "#note")
	tab.Keys("edge 2 ")
	trial.Ask[bool](tab, `(() => { document.getElementById("note").old = true; return true; })()`)
	comesNew(tab)
	tab.Keys("scored")
	if got := trial.Ask[string](tab, `(({ value, old, id }) => [id, value, old ? "old" : "new"].join(" "))(document.activeElement)`); got != "note edge 2 scored new" {
		t.Errorf("what has the focus, holds and came is %q", got)
	}
	tab.Quiet()
}

// TestCheck09: click anywhere in a run, then a burst: the reading lands, and
// the focus is back within 100 ms.
func TestCheck09(t *testing.T) {
	holds(t, 9)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 1024, 768)
	tab.Open(s.URL + drumRun)
	tab.Until("the field", `document.activeElement.id === "reading"`)
	for i, css := range []string{"h1", "#sketch", "#windows", ".cells caption, .cells thead th", "#line", "main", "summary", "td.here a", "#skip"} {
		press(tab, css)
		took := trial.Ask[float64](tab, `new Promise((yes) => { const t = performance.now(); (function look() {
			if (document.activeElement.id === "reading" || performance.now() - t > 1000) yes(performance.now() - t); else setTimeout(look, 5); })(); })`)
		if took > 100 {
			t.Errorf("after a click on %s the focus came back after %.0f ms", css, took)
		}
		tab.Burst(fmt.Sprintf("180.%02d", 10+i)+kb.Enter, gap)
		tab.Until("the reading after a click on "+css, fmt.Sprintf(`[...document.querySelectorAll("td[data-key] .num")].filter((c) => c.textContent).length === %d`, i+1))
		settled(tab)
	}
	// Before the focus is back, and with the focus on a button.
	trial.Ask[bool](tab, `document.getElementById("undo").focus(), true`)
	tab.Burst("180.30"+kb.Enter, gap)
	tab.Until("the reading typed on a button", `[...document.querySelectorAll("td[data-key] .num")].filter((c) => c.textContent).length === 10`)
	tab.Quiet()
}
