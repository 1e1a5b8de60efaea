package web

import (
	"net/url"
	"testing"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// TestLook answers a check by eye at one place and undoes it.
func TestLook(t *testing.T) {
	h := newHouse(t)
	var c *machine.Check
	for _, k := range h.view().Machine.Checks {
		if byWord(k) {
			c = k
			break
		}
	}
	at := "/m/codlin/run/look/" + string(c.Type)
	h.ask("POST", at, url.Values{"check": {string(c.ID)}, "words": {"bright"}}).is(422).says("nothing was kept", "Sound or Not sound")
	h.ask("POST", at, url.Values{"check": {string(c.ID)}, "answer": {"not"}, "words": {"hairline by the stud"}}).is(303)
	p := h.ask("GET", at, nil).is(200)
	p.says("hairline by the stud", "Worn")
	h.ask("POST", "/m/codlin/withdraw", url.Values{"entry": {p.value("entry")}}).is(303)
	if f := h.view().Judged().Of(c.ID); f.Verdict != judge.NotRead {
		t.Errorf("after the undo it is %s", f.Verdict)
	}
}

// TestRemedyIsChosenAndDone: chosen on the fits page, done, and the check is
// open again.
func TestRemedyIsChosenAndDone(t *testing.T) {
	h := newHouse(t)
	var c *machine.Check
	for _, k := range h.view().Machine.Checks {
		if byWord(k) && len(k.Remedies) > 0 && len(k.Remedies[0].Steps) == 0 {
			c = k
			break
		}
	}
	h.record(&machine.LookTaken{Check: c.ID, OK: false, Words: "cracked"})
	h.ask("GET", "/m/codlin/fits", nil).is(200).says(c.Name, "What would put it right", "Proposed")
	h.ask("POST", "/m/codlin/fits/done", url.Values{"check": {string(c.ID)}}).is(422).says("Choose the remedy first")
	h.ask("POST", "/m/codlin/fits/remedy", url.Values{"check": {string(c.ID)}, "remedy": {"none-such"}}).is(422)
	h.ask("POST", "/m/codlin/fits/remedy", url.Values{"check": {string(c.ID)}, "remedy": {c.Remedies[0].Key}}).is(303)
	h.ask("GET", "/m/codlin/fits", nil).is(200).says("Chosen:", "It is done")
	h.ask("POST", "/m/codlin/fits/done", url.Values{"check": {string(c.ID)}}).is(303)
	if got := h.view().Machine.Check(c.ID); got.Version == 0 || len(got.Done) != 1 {
		t.Errorf("version %d, done %d", got.Version, len(got.Done))
	}
}

// TestSizesAreChosen: a remedy with sizes wants one of its own.
func TestSizesAreChosen(t *testing.T) {
	h := newHouse(t)
	for _, c := range h.view().Machine.Checks {
		for _, r := range c.Remedies {
			if len(r.Steps) == 0 {
				continue
			}
			form := url.Values{"check": {string(c.ID)}, "remedy": {r.Key}, "step": {"0.123"}}
			h.ask("POST", "/m/codlin/fits/remedy", form).is(422).says("No size was chosen")
			return
		}
	}
	t.Fatal("no remedy of the machine has sizes")
}

// TestPartFacts keeps a call, a tray, a count, a cleaning and a note.
func TestPartFacts(t *testing.T) {
	h := newHouse(t)
	at := "/m/codlin/part/liner.2"
	for _, row := range []struct {
		form   url.Values
		status int
		say    string
	}{
		{url.Values{"do": {"tray"}, "text": {"14"}}, 303, "tray 14"},
		{url.Values{"do": {"count"}, "text": {"many"}}, 422, "is no count"},
		{url.Values{"do": {"count"}, "text": {"0"}}, 303, "Found 0"},
		{url.Values{"do": {"clean"}, "text": {"paraffin and brush"}}, 303, "paraffin and brush"},
		{url.Values{"do": {"note"}, "text": {""}}, 422, "empty"},
		{url.Values{"do": {"note"}, "text": {"step at ring reversal <b>"}}, 303, "step at ring reversal <b>"},
		{url.Values{"do": {"else"}}, 422, "nothing was kept"},
	} {
		p := h.ask("POST", at, row.form).is(row.status)
		if row.status == 303 {
			p = h.ask("GET", at, nil).is(200)
		}
		p.says(row.say)
	}
	h.ask("POST", "/m/codlin/fits/call", url.Values{"part": {"liner.2"}, "call": {"make good"}, "why": {"bore it"}, "back": {at}}).is(303)
	h.ask("GET", at, nil).is(200).says("make good", "bore it")
	h.ask("GET", "/m/codlin/trays", nil).is(200).says("Tray 14", "cylinder 2")
	h.ask("GET", "/m/codlin/machine?q=tray+14", nil).is(200).says("cylinder 2")
}

// TestOrdersArrive: what is away is listed until it is here.
func TestOrdersArrive(t *testing.T) {
	h := newHouse(t)
	h.record(&machine.Ordered{Order: "o1", What: "injectors", Out: true, From: "the pump shop", Due: clock.AddDate(0, 0, -3)})
	h.ask("GET", "/m/codlin", nil).is(200).says("Injectors", "late", "the pump shop")
	h.ask("POST", "/m/codlin/received", url.Values{"order": {"o1"}}).is(303)
	if h.view().Machine.Order("o1").Received == nil {
		t.Error("the order is still away")
	}
}

// TestProve keeps a run of a test.
func TestProve(t *testing.T) {
	h := newHouse(t)
	id := string(h.view().Machine.Tests[0].ID)
	h.ask("POST", "/m/codlin/prove", url.Values{"test": {id}}).is(422).says("nothing was kept", "Passed or Not passed")
	h.ask("POST", "/m/codlin/prove", url.Values{"test": {id}, "answer": {"passed"}, "value": {"3 bananas"}}).is(422)
	h.ask("POST", "/m/codlin/prove", url.Values{"test": {id}, "answer": {"passed"}, "value": {"2.4 bar"}}).is(303)
	h.ask("GET", "/m/codlin/prove", nil).is(200).says("Passed, 2.4 bar")
}

// TestStart makes a machine from two kits and refuses what cannot be made.
func TestStart(t *testing.T) {
	h := newHouse(t)
	count := "count:cylinders"
	for _, row := range []struct {
		form url.Values
		say  string
	}{
		{url.Values{"take:engine": {"yes"}, count: {"2"}}, "has no name yet"},
		{url.Values{"name": {"Orchard two"}}, "No kit was chosen"},
		{url.Values{"name": {"Orchard two"}, "take:engine": {"yes"}, count: {"few"}}, "“few” is no count"},
		{url.Values{"name": {"Orchard two"}, "take:engine": {"yes"}, count: {"40"}}, "40"},
	} {
		p := h.ask("POST", "/start", row.form).is(422)
		p.says(row.say, "othing was made")
		if p.value("name") != row.form.Get("name") {
			t.Errorf("the name is gone: %q", p.value("name"))
		}
	}
	form := url.Values{"name": {"Orchard two"}, "take:engine": {"yes"}, "take:fuel": {"yes"}, count: {"2"}}
	for _, want := range []string{"/m/orchard-two/survey", "/m/orchard-two-2/survey"} {
		if got := h.ask("POST", "/start", form).is(303).header.Get("Location"); got != want {
			t.Errorf("made at %q, want %q", got, want)
		}
	}
	h.ask("GET", "/m/orchard-two", nil).is(200).says("Nothing stripped yet", "Orchard two")
	h.ask("GET", "/m/orchard-two/machine?q=liner", nil).is(200).says("cylinder 2")
	h.ask("GET", "/", nil).is(200).says("Orchard two", "Wendle Codlin 18")
}

// TestQuestions shows what could not be placed, and takes it back.
func TestQuestions(t *testing.T) {
	h := newHouse(t)
	h.record(&machine.CallMade{Part: "no-such-part", Call: machine.Renew})
	p := h.ask("GET", "/m/codlin/questions", nil).is(200)
	p.says("no-such-part", "Withdraw this entry", "Questions 1")
	h.ask("POST", "/m/codlin/withdraw", url.Values{"entry": {p.value("entry")}, "back": {"/m/codlin/questions"}}).is(303)
	h.ask("GET", "/m/codlin/questions", nil).is(200).says("Every entry found its place")
}

// TestFiguresAndLimits: a size, a figure of the machine and a limit of one's
// own, each with where it comes from, change what is judged.
func TestFiguresAndLimits(t *testing.T) {
	h := newHouse(t)
	at := "/m/codlin/part/liner.1"
	h.ask("POST", at, url.Values{"do": {"nominal"}, "feature": {"liner.1/bore"}, "text": {"wide"}}).is(422).says("wide", "othing was kept")
	h.ask("POST", at, url.Values{"do": {"nominal"}, "feature": {"liner.2/bore"}, "text": {"92"}}).is(422).says("not on this part")
	h.ask("POST", at, url.Values{"do": {"nominal"}, "feature": {"liner.1/bore"}, "text": {"92"}, "from": {"paperwork"}, "source": {"plate"}}).is(303)
	h.ask("GET", at, nil).is(200).says("made to 92.00 mm, paperwork, plate")

	d := h.view().Machine.Data[0]
	h.ask("POST", "/m/codlin/figures", url.Values{"datum": {d.ID}, "value": {"many"}}).is(422).says("many", "Nothing was kept")
	h.ask("POST", "/m/codlin/figures", url.Values{"datum": {d.ID}, "value": {"120"}, "from": {"handbook"}, "source": {"page 3"}}).is(303)
	h.ask("GET", "/m/codlin/figures", nil).is(200).says("120", "handbook, page 3")

	var c *machine.Check
	for _, k := range h.view().Machine.Checks {
		if direct(k) && k.Unit == "mm" {
			c = k
			break
		}
	}
	for range max(c.Repeats, 1) {
		h.record(&machine.ReadingTaken{Check: c.ID, Amount: machine.Amount{Value: 5, Unit: "mm", Typed: "5.0", Step: 0.01}, Tool: c.Tool})
	}
	form := url.Values{"check": {string(c.ID)}, "high": {"0.01 in"}, "from": {"paperwork"}, "source": {"sheet 4"}}
	h.ask("POST", "/m/codlin/fits/limit", url.Values{"check": {string(c.ID)}, "high": {"3 kg"}}).is(422).says("3 kg")
	h.ask("POST", "/m/codlin/fits/limit", url.Values{"check": {string(c.ID)}}).is(422).says("empty")
	h.ask("POST", "/m/codlin/fits/limit", form).is(303)
	f := h.view().Judged().Of(c.ID)
	if f.Verdict != judge.Worn || f.Limit.High != 0.254 || f.Limit.From != machine.Paperwork {
		t.Errorf("%s against %v from %s, want worn against 0.254 from paperwork", f.Verdict, f.Limit.High, f.Limit.From)
	}
	h.ask("GET", "/m/codlin/fits", nil).is(200).says("Limit: paperwork, sheet 4", "limit 0.254 mm")
}
