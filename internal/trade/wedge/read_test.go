package wedge_test

import (
	"encoding/json"
	"errors"
	"os"
	"regexp"
	"strings"
	"testing"

	"matchmark/internal/trade/wedge"
)

type row struct {
	ID      string
	Profile wedge.Profile
	Raw     string
	Figure  string
	Unit    string
	Why     wedge.Why
	Form    string
}

func corpus(t testing.TB) []row {
	t.Helper()
	data, err := os.ReadFile("testdata/corpus.json")
	if err != nil {
		t.Fatal(err)
	}
	var rows []row
	if err := json.Unmarshal(data, &rows); err != nil {
		t.Fatal(err)
	}
	if len(rows) < 70 {
		t.Fatalf("the corpus has %d rows only", len(rows))
	}
	return rows
}

func TestCorpus(t *testing.T) {
	for _, r := range corpus(t) {
		if err := r.Profile.Fault(); err != nil {
			t.Errorf("%s: the profile is at fault: %v", r.ID, err)
		}
		got, err := r.Profile.Read(r.Raw)
		if r.Why != "" {
			var refused *wedge.Refusal
			if !errors.As(err, &refused) || refused.Why != r.Why || refused.Raw != r.Raw {
				t.Errorf("%s (%s): %q gives %v, %v; want a refusal: %s", r.ID, r.Form, r.Raw, got, err, r.Why)
			}
			continue
		}
		if err != nil || got != (wedge.Figure{Text: r.Figure, Unit: r.Unit}) {
			t.Errorf("%s (%s): %q gives %v, %v; want %s %s", r.ID, r.Form, r.Raw, got, err, r.Figure, r.Unit)
		}
	}
}

// TestProfileFault refuses what would misread.
func TestProfileFault(t *testing.T) {
	good := wedge.Profile{Unit: wedge.MM, End: wedge.Enter}
	for _, r := range []struct {
		change func(*wedge.Profile)
		field  string
	}{
		{func(p *wedge.Profile) {}, ""},
		{func(p *wedge.Profile) { p.Prefix = "##A" }, ""},
		{func(p *wedge.Profile) { p.Prefix = "##" }, "prefix"},
		{func(p *wedge.Profile) { p.Prefix = "01" }, "prefix"},
		{func(p *wedge.Profile) { p.Prefix = "+0" }, "prefix"},
		{func(p *wedge.Profile) { p.Prefix = strings.Repeat("A", 17) }, "prefix"},
		{func(p *wedge.Profile) { p.Unit = "" }, "unit"},
		{func(p *wedge.Profile) { p.Unit = "µm" }, "unit"},
		{func(p *wedge.Profile) { p.Mark = "both" }, "mark"},
		{func(p *wedge.Profile) { p.End = "" }, "end"},
	} {
		p := good
		r.change(&p)
		err := p.Fault()
		var fault *wedge.FaultError
		if r.field == "" && err != nil || r.field != "" && (!errors.As(err, &fault) || fault.Field != r.field) {
			t.Errorf("%+v: %v, want a fault of %q", p, err, r.field)
		}
	}
}

var figure = regexp.MustCompile(`^-?(0|[1-9][0-9]*)(\.[0-9]+)?$`)

// FuzzRead: nothing panics; what is read is a plain number that reads as
// itself again; blanks about a text change nothing.
func FuzzRead(f *testing.F) {
	for _, r := range corpus(f) {
		f.Add(r.Raw, r.Profile.Prefix, string(r.Profile.Mark))
	}
	f.Fuzz(func(t *testing.T, raw, prefix, mark string) {
		p := wedge.Profile{Prefix: prefix, Unit: wedge.MM, Mark: wedge.Mark(mark), End: wedge.Enter}
		if p.Fault() != nil {
			return
		}
		got, err := p.Read(raw)
		if err != nil {
			return
		}
		if !figure.MatchString(got.Text) || got.Text == "-0" {
			t.Fatalf("%q with %+v is read as %q", raw, p, got.Text)
		}
		p.Prefix = ""
		if again, err := p.Read(got.String()); err != nil || again != got {
			t.Fatalf("%q is read as %v, and that as %v, %v", raw, got, again, err)
		}
		p.Prefix = prefix
		if about, err := p.Read(" " + raw + "\r\n"); err == nil && about != got {
			t.Fatalf("blanks change %q from %v to %v", raw, got, about)
		}
	})
}
