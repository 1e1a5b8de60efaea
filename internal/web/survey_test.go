package web

import (
	"net/url"
	"strings"
	"testing"

	"matchmark/internal/machine"
)

// TestSurvey: words on assemblies and a photo of one side are kept, show again
// on the page and stand in the book; a word without a choice is refused with
// what was typed.
func TestSurvey(t *testing.T) {
	h := newHouse(t)
	const at = "/m/codlin/survey"
	first := string(h.view().Machine.Assemblies[0].ID)
	name := h.view().Machine.Assemblies[0].Name
	h.ask("GET", at, nil).is(200).says("From the front", "Its plate and numbers", name, "not looked at")

	p := h.ask("POST", at, url.Values{"words:" + first: {"leans to the left"}}).is(422)
	p.says("but not how it looks", "Nothing was kept yet")
	if got := p.value("words:" + first); got != "leans to the left" {
		t.Errorf("what was typed is lost: %q", got)
	}
	h.ask("POST", at, url.Values{}).is(422).says("Nothing was said")
	h.ask("POST", at, url.Values{"condition:" + first: {"fine"}}).is(422).says("“fine” is no word for how")

	h.ask("POST", at, url.Values{"condition:" + first: {machine.Seized}, "words:" + first: {"will not turn"}}).is(303)
	if s := h.view().Machine.Survey(machine.AssemblyID(first)); s == nil || s.Condition != machine.Seized || s.Words != "will not turn" {
		t.Fatalf("kept as %+v", s)
	}
	h.ask("GET", at, nil).is(200).says("1 of", "R., ")
	h.ask("GET", "/m/codlin/book", nil).is(200).says("As it came, by eye", "seized, will not turn")

	h.ask("POST", at, url.Values{"side": {"inside"}}).is(422).says("no side of a machine")
	h.ask("POST", at, url.Values{"side": {"left"}}).is(422).says("No photo came with it")
	photo := h.upload(at, url.Values{"side": {"left"}}, "left.jpg", jpegOf(t, 40, 30)).is(303)
	if to := photo.header.Get("Location"); !strings.HasSuffix(to, "#side-left") {
		t.Errorf("goes to %s", to)
	}
	photos := h.view().Machine.Photos
	if n := len(photos); n != 1 || photos[0].Of != machine.RefSide("left") {
		t.Fatalf("photos: %+v", photos)
	}
	if got := len(h.view().Machine.Questions); got != 0 {
		t.Errorf("%d questions", got)
	}
	h.ask("GET", at, nil).is(200).says("One more")
}
