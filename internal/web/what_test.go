package web

import (
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/finding/identify"
	"matchmark/internal/trade/spelling"
)

// TestWhatIsIt asks what a bearing is: one size leaves it open and says what to
// measure next; three settle it; Keep this records it once. Sizes of 6205 by
// ISO 15, dimension series 02: 25 × 52 × 15.
func TestWhatIsIt(t *testing.T) {
	h := newHouse(t)
	at := "/m/codlin/part/gen-bearing/what"
	h.ask("GET", at, nil).is(200).says("Bore", "Outside diameter", "Overall width", "The answer comes here")
	sizes := func(s ...string) url.Values {
		form := url.Values{"kind": {"rolling bearing"}}
		for i := 0; i+1 < len(s); i += 2 {
			form.Set("d:"+s[i], s[i+1])
		}
		return form
	}
	h.ask("GET", at+"?"+sizes("d", "25.0").Encode(), nil).is(200).says("Not settled yet", "Measure the overall width", "Measure this next", "None of these", "The mark on the part decides")
	for _, bad := range []struct{ typed, say string }{{"wide", "wide"}, {"3 kg", "3 kg"}, {"-4", "-4"}} {
		p := h.ask("GET", at+"?"+sizes("d", bad.typed).Encode(), nil).is(422)
		p.says(bad.say)
		if p.value("d:d") != bad.typed {
			t.Errorf("after %q the field holds %q", bad.typed, p.value("d:d"))
		}
	}
	form := sizes("d", "24.99", "D", "2.0465 in", "W", "15,01")
	p := h.ask("GET", at+"?"+form.Encode(), nil).is(200)
	p.says("6205", "over 99 %", "None of these", "under 1 %", "What was read", "2.0465 in (51.981 mm)")
	form.Set(onceField, p.formOn(at))
	form.Set("is", "9999")
	h.ask("POST", at, form).is(422).says("nothing was kept", "24.99")
	form.Set("is", "6205")
	for range 3 {
		h.ask("POST", at, form).is(303)
	}
	got := h.view().Machine.Part("gen-bearing").Identified
	if got == nil || got.Designation != "6205" || got.Probability < 0.95 || len(got.Measured) != 3 || got.Measured[1].Amount.Typed != "2.0465 in" {
		t.Fatalf("kept %+v", got)
	}
	if n := len(h.view().Machine.Events); n != 1 {
		t.Errorf("%d facts kept, want 1", n)
	}
	h.ask("GET", "/m/codlin/part/gen-bearing", nil).is(200).says("Standard part", "6205", "What is it?")
	h.ask("GET", at, nil).is(200).says("Kept as:")
	h.ask("GET", "/m/codlin", nil).is(200).says("6205")
	h.ask("GET", "/m/codlin/part/none/what", nil).is(404)
}

// TestEveryKindHasItsForm: all sizes of all kinds, and the size to measure next
// is one of the form.
func TestEveryKindHasItsForm(t *testing.T) {
	h := newHouse(t)
	for _, k := range identify.Kinds() {
		at := "/m/codlin/part/gen-bearing/what?kind=" + url.QueryEscape(string(k))
		p := h.ask("GET", at, nil).is(200)
		dims := identify.Dims(k)
		for _, s := range dims {
			p.says(spelling.Head(s.Words))
		}
		if p := h.ask("GET", at+"&d:"+dims[0].Name+"=20", nil); p.status == 200 && strings.Contains(p.text, "Not settled yet") {
			p.says("Measure this next")
		}
	}
	for name, want := range map[string]string{"Charging machine bearing": "rolling bearing", "Crank front oil seal": "oil seal", "Fan belt": "V-belt", "Radiator": "", "Gudgeon pin circlip": "circlip on shaft"} {
		if got := kindGuessed(name); got != want {
			t.Errorf("%s is taken for %q, want %q", name, got, want)
		}
	}
}
