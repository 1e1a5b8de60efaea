package acceptance_test

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/trial"
	"matchmark/tools/pictures/tour"
)

// formsOf reads the forms of a page as a browser without scripts would send
// them: fields as they stand, the button that is pressed last.
const formsOf = `[...document.forms].map(f => ({ method: f.method, action: f.getAttribute('action') || location.pathname, kind: f.enctype,
  buttons: [...f.elements].filter(e => e.type === 'submit').map(e => [e.name, e.value]),
  fields: [...new FormData(f)].filter(([, v]) => typeof v === 'string') }))`

type form struct {
	Method, Action, Kind string
	Buttons, Fields      [][2]string
}

// TestCheck15: JS off: every page readable, every form posts, verdicts and
// holds visible. Every page says without scripts what it says with them; each
// form, sent as it stands by each of its buttons, is taken or refused with
// words, never lost.
func TestCheck15(t *testing.T) {
	holds(t, 15)
	t.Parallel()
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 390, 844)
	tab.NoScript(true)
	tab.Allow("404") // pages that are not there are looked at too
	forms := map[string]form{}
	for _, path := range tour.Pages() {
		tab.Open(strings.TrimSuffix(s.URL, "/") + path)
		if n := trial.Ask[int](tab, "document.querySelector('main').innerText.trim().length"); n < 20 {
			t.Errorf("%s: without scripts the page says %d letters", path, n)
		}
		if left := trial.Ask[[]string](tab, "[...document.querySelectorAll('main [hidden],main [data-only-script]')].map(e => e.innerText.trim()).filter(Boolean)"); len(left) > 0 {
			t.Logf("%s: only scripts show %q", path, left)
		}
		for _, f := range trial.Ask[[]form](tab, formsOf) {
			if len(f.Buttons) == 0 {
				t.Errorf("%s: the form to %s cannot be sent without scripts: it has no button", path, f.Action)
			}
			for _, b := range f.Buttons {
				kept := f
				kept.Buttons = [][2]string{b}
				forms[fmt.Sprint(f.Method, " ", f.Action, " ", b)] = kept
			}
		}
	}
	if len(forms) < 40 {
		t.Errorf("only %d forms were found on all pages", len(forms))
	}
	for _, f := range forms {
		sendForm(t, s.URL, f)
	}
	readByForm(t, s, tab)
	tab.Quiet()
}

// sendForm sends a form as it stands and wants an answer with words.
func sendForm(t *testing.T, base string, f form) {
	t.Helper()
	values := url.Values{}
	for _, field := range append(f.Fields, f.Buttons[0]) {
		if field[0] != "" {
			values.Add(field[0], field[1])
		}
	}
	at := strings.TrimSuffix(base, "/") + f.Action
	var r *http.Response
	var err error
	if strings.EqualFold(f.Method, "post") {
		r, err = plainClient.PostForm(at, values)
	} else {
		r, err = plainClient.Get(at + "?" + values.Encode())
	}
	if err != nil {
		t.Fatal(err)
	}
	_ = r.Body.Close()
	switch r.StatusCode {
	case http.StatusOK, http.StatusSeeOther, http.StatusUnprocessableEntity, http.StatusConflict:
	default:
		t.Errorf("%s %s with %v answers %s", f.Method, f.Action, f.Buttons[0], r.Status)
	}
}

// readByForm takes one reading and looks at a verdict and a hold, all without
// scripts.
func readByForm(t *testing.T, s *trial.Server, tab *trial.Tab) {
	t.Helper()
	tab.Open(s.URL + "m/codlin/run/f/liner/bore")
	tab.Set("#reading", "no size")
	tab.Click(sendsReading)
	tab.Until("the refusal", "document.querySelector('[role=alert]')")
	if typed := trial.Ask[string](tab, "document.querySelector('#reading').value"); typed != "no size" {
		t.Errorf("without scripts what was typed is lost: %q", typed)
	}
	figure := trial.Ask[string](tab, "(document.querySelector('.cells .num')||{}).innerText||'75.03'")
	tab.Set("#reading", figure)
	tab.Click(sendsReading)
	tab.Until("the reading in the book", "document.body.innerText.includes('In the book')")
	tab.Open(s.URL + "m/codlin/fits")
	tab.Until("verdicts", "[...document.querySelectorAll('.verdict')].some(e => e.innerText.includes('Worn')) && document.querySelector('.tag .mark')")
	tab.Open(s.URL + "m/codlin/close/head-block")
	tab.Until("a hold with its check", "document.querySelector('.held .why') && document.querySelector('.held').innerText.includes('Do not close')")
}

// sendsReading is the button of the form the reading stands in.
const sendsReading = "form:has(#reading) button:not([formaction]), button[form=keep]"
