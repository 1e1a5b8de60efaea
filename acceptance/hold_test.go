package acceptance_test

import (
	"strings"
	"testing"

	"matchmark/internal/trial"
)

// TestCheck22: Hold point: build steps after it refuse until cleared; passing
// needs initials and reason; both in the book.
func TestCheck22(t *testing.T) {
	holds(t, 22)
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 1440, 900)
	tab.Open(s.URL + "m/codlin/close/gallery-plug-block")
	tab.Until("the hold", "document.querySelector('.held')")
	tab.Set("#note", "plugs sealed and staked")
	tab.Click("button.main")
	tab.Until("the refusal", "document.querySelector('[role=alert]')")
	if words := trial.Ask[string](tab, "document.querySelector('.held').innerText"); !strings.Contains(words, "Oil gallery flow") {
		t.Errorf("the hold does not name its check: %q", words)
	}
	if note := trial.Ask[string](tab, "document.querySelector('#note').value"); note != "plugs sealed and staked" {
		t.Errorf("what was typed is lost: %q", note)
	}
	about := func() string {
		return s.Run(t, "log", "show", "--book", s.Book(), "--about", "gallery-plug-block", "--last", "5")
	}
	if kept := about(); strings.Contains(kept, "joint-closed") {
		t.Errorf("a refused closing is in the log:\n%s", kept)
	}

	tab.Click("input[name^='pass:']")
	tab.Set("#initials", "AM")
	tab.Click("button.main")
	tab.Until("the refusal without a reason", "document.querySelector('[role=alert]') && document.querySelector('#initials').value === 'AM'")
	if kept := about(); strings.Contains(kept, "hold-passed") {
		t.Errorf("a hold was passed without a reason:\n%s", kept)
	}
	if !trial.Ask[bool](tab, "document.querySelector(\"input[name^='pass:']\").checked") {
		tab.Click("input[name^='pass:']")
	}
	tab.Set("#why", "flow seen with the last plug out")
	tab.Click("button.main")
	tab.Until("the closing in the book", "!document.querySelector('[role=alert]') && !location.pathname.includes('/close/')")
	kept := about()
	for _, kind := range []string{"hold-passed", "joint-closed"} {
		if !strings.Contains(kept, kind) {
			t.Errorf("the log has no %s:\n%s", kind, kept)
		}
	}
	tab.Open(s.URL + "m/codlin/book")
	book := tab.Says()
	for _, want := range []string{"flow seen with the last plug out", "AM"} {
		if !strings.Contains(book, want) {
			t.Errorf("the book does not say %q", want)
		}
	}
	tab.Quiet()
}
