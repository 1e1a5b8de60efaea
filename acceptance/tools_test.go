package acceptance_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"matchmark/internal/trial"
)

// TestTeachByKeys: a tool is taught by pressing it twice; what arrives is shown
// character by character with what ended it, the form is not sent by a burst,
// and the tool that is kept types in a run.
func TestTeachByKeys(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL + "tools?back=/" + drumRun)
	tab.Until("the page", `document.getElementById("teach")`)
	trial.Ask[bool](tab, `document.getElementById("closed").focus(), true`)
	tab.Burst("01A+0000.010"+kb.Enter, gap)
	tab.Until("the size asked for", `document.activeElement.id === "size"`)
	shown := func(id string) string {
		return trial.Ask[string](tab, `[...document.getElementById("`+id+`-chars").children].map((c) => c.textContent).join(" ")`)
	}
	if got := shown("closed"); got != "0 1 A + 0 0 0 0 . 0 1 0 Enter" {
		t.Errorf("what arrived is shown as %q", got)
	}
	tab.Keys("25")
	trial.Ask[bool](tab, `document.getElementById("piece").focus(), true`)
	tab.Burst("01A+0025.010"+kb.Tab, gap)
	tab.Until("the end of the piece", `document.getElementById("piece-end").value === "tab"`)
	tab.Burst("01A+0025.010"+kb.Tab, gap)
	if got := trial.Ask[string](tab, `document.getElementById("piece").value`); got != "01A+0025.010" {
		t.Errorf("pressed twice in one field the tool gives %q", got)
	}
	press(tab, "#teach button")
	tab.Until("the word that they did not end alike", `document.querySelector("[role=alert]")?.innerText.includes("did not end alike")`)
	trial.Ask[bool](tab, `document.getElementById("piece").focus(), true`)
	tab.Burst("01A+0025.010"+kb.Enter, gap)
	tab.Until("the end of the piece", `document.getElementById("piece-end").value === "enter"`)
	press(tab, "#teach button")
	tab.Until("the proposal", `!document.querySelector("[role=alert]") && document.getElementById("prefix")?.value === "##A"`)
	for _, want := range []string{"Both are off alike", "A figure without a unit is in millimetres", "Its decimal mark is a point"} {
		if !strings.Contains(tab.Says(), want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	trial.Ask[bool](tab, `document.getElementById("name").focus(), true`)
	tab.Keys("box calliper" + kb.Enter)
	tab.Until("the kept tool", `document.body.innerText.includes("box calliper") && !document.getElementById("prefix")`)
	before := logSize(t, s)
	tab.Open(s.URL + drumRun)
	tab.Until("the field", `document.activeElement.id === "reading" && document.getElementById("run").dataset.by === "box-calliper"`)
	tab.Burst("07A+0180.020"+kb.Enter, gap)
	settled(tab)
	if _, bodies := since(t, s, before); len(bodies) != 1 || bodies[0].Amount.Typed != "07A+0180.020" || bodies[0].Amount.Value != 180.02 {
		t.Errorf("the taught tool's reading is %+v", bodies)
	}
	tab.Quiet()
}

// TestTwoPitches: a high click for a figure kept, a low one for a refused one,
// none where the device has them off.
func TestTwoPitches(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	listen := func() {
		t.Helper()
		tab.Open(s.URL + drumRun)
		tab.Until("the field", `document.activeElement.id === "reading"`)
		trial.Ask[bool](tab, `(() => { window.tones = []; const make = AudioContext.prototype.createOscillator;
			AudioContext.prototype.createOscillator = function () { const o = make.call(this), start = o.start; o.start = (t) => { tones.push(o.frequency.value); start.call(o, t); }; return o; }; return true; })()`)
	}
	listen()
	press(tab, "h1") // a browser sounds only after a tap
	tab.Burst("180.02"+kb.Enter, gap)
	tab.Until("the click", `tones.length === 1`)
	tab.Burst("abc1"+kb.Enter, gap)
	tab.Until("the refusal", `tones.length === 2`)
	if got := trial.Ask[[]float64](tab, "tones"); got[0] <= 2*got[1] {
		t.Errorf("kept sounds at %v Hz, refused at %v Hz: too much alike", got[0], got[1])
	}
	trial.Ask[bool](tab, `document.cookie = "sound=off; path=/", true`)
	listen()
	press(tab, "h1")
	tab.Burst("180.04"+kb.Enter, gap)
	settled(tab)
	if got := trial.Ask[[]float64](tab, "tones"); len(got) != 0 {
		t.Errorf("with the click off the run sounds at %v Hz", got)
	}
	tab.Quiet()
}

// TestThickGloves: with the setting on, what is pressed in a run is 120 px high
// and nothing is pushed off a phone.
func TestThickGloves(t *testing.T) {
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.Open(s.URL)
	trial.Ask[bool](tab, `document.cookie = "gloves=thick; path=/", true`)
	for _, path := range []string{linerRun, "tools", "m/codlin"} {
		tab.Open(s.URL + path)
		small := trial.Ask[[]string](tab, `[...document.querySelectorAll("main button, main .btn, .bar button, .bar a, .cells td a, main select, #reading")]
			.filter((el) => el.checkVisibility() && !el.classList.contains("out") && el.getBoundingClientRect().height < 119.5).map((el) => el.outerHTML.slice(0, 90) + " " + el.getBoundingClientRect().height)`)
		for _, el := range small {
			t.Errorf("%s: under 120 px: %s", path, el)
		}
		if wide := trial.Ask[int](tab, "document.documentElement.scrollWidth"); wide > 390 {
			t.Errorf("%s is %d px wide on a phone of 390", path, wide)
		}
	}
	tab.Quiet()
}
