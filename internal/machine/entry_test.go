package machine

import (
	"encoding/json"
	"strings"
	"testing"
)

// TestUnreadableIsKept: what this version cannot read is kept with the reason
// and written back as it came.
func TestUnreadableIsKept(t *testing.T) {
	rows := []struct{ name, line, kind, why string }{
		{"a kind of a later version", `{"id":"a","at":"2031-01-02T03:04:05.000006Z","by":"b","device":"d","kind":"part-scanned","v":3,"body":{"cloud":[1.50,2e3],"deep":{"x":null,"ä":"<&>"}}}`, "part-scanned", `kind "part-scanned" is not known`},
		{"one without a body", `{"id":"a","at":"2031-01-02T03:04:05Z","by":"b","device":"d","kind":"bell-rung","v":1}`, "bell-rung", "is not known"},
		{"a known kind without a body", `{"id":"a","at":"2031-01-02T03:04:05Z","by":"b","device":"d","kind":"noted","v":1}`, "noted", "unexpected end"},
		{"a later version of a known kind", `{"id":"a","at":"2031-01-02T03:04:05Z","by":"b","device":"d","kind":"noted","v":2,"body":{"lines":["x"]}}`, "noted", "newer than this program"},
		{"a body of another shape", `{"id":"a","at":"2031-01-02T03:04:05Z","by":"b","device":"d","kind":"noted","v":1,"body":["x"]}`, "noted", "cannot unmarshal"},
		{"a known kind that supersedes", `{"id":"a","seq":7,"at":"2031-01-02T03:04:05Z","by":"b","device":"d","kind":"odd","v":1,"supersedes":"z","body":0}`, "odd", "not known"},
	}
	for _, r := range rows {
		e := Decode([]byte(r.line))
		u, ok := e.Body.(*Unreadable)
		if !ok || string(u.Was) != r.kind || !strings.Contains(u.Why, r.why) {
			t.Errorf("%s: %+v", r.name, e.Body)
			continue
		}
		text, err := json.Marshal(e)
		if err != nil || !sameJSON(t, text, []byte(r.line)) {
			t.Errorf("%s, %v:\n got %s\nfrom %s", r.name, err, text, r.line)
		}
		again := Decode(text)
		if got := again.Body.(*Unreadable); got.Was != u.Was || got.Why != u.Why {
			t.Errorf("%s, read again: %+v", r.name, got)
		}
		e.Supersedes = ""
		questions(t, Fold([]Entry{e}), u.Why)
	}
}

// sameJSON compares the meaning of two texts, figures as they are written.
func sameJSON(t *testing.T, a, b []byte) bool {
	t.Helper()
	plain := func(text []byte) string {
		dec := json.NewDecoder(strings.NewReader(string(text)))
		dec.UseNumber()
		var v any
		if err := dec.Decode(&v); err != nil {
			t.Fatal(err)
		}
		out, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		return string(out)
	}
	return plain(a) == plain(b)
}

// TestNoEntryAtAll: lines that are no entry are kept whole and asked about.
func TestNoEntryAtAll(t *testing.T) {
	for _, line := range []string{"", "hello", `{"id":"a","at":"never"}`, `["a"]`, `{"id":1}`, "{\"id\":\"a\"", `{"id":"a","seq":1.5}`, "42"} {
		e := Decode([]byte(line))
		u, ok := e.Body.(*Unreadable)
		if !ok || string(u.Raw) != line {
			t.Errorf("%q: kept %+v", line, e.Body)
			continue
		}
		text, err := json.Marshal(e)
		if err != nil {
			t.Errorf("%q cannot be written: %v", line, err)
		}
		if line != "" && !strings.Contains(string(text), strings.Trim(string(mustQuote(t, line)), `"`)) && !strings.Contains(string(text), line) {
			t.Errorf("%q is lost in %s", line, text)
		}
		if m := Fold([]Entry{e}); len(m.Questions) != 1 || m.Entries != 1 {
			t.Errorf("%q: questions %+v", line, m.Questions)
		}
	}
}

func mustQuote(t *testing.T, s string) []byte {
	t.Helper()
	out, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestEnvelope: a version that is not said is 1, a body is not seen twice.
func TestEnvelope(t *testing.T) {
	for _, v := range []string{``, `"v":0,`, `"v":-4,`, `"v":1,`} {
		e := Decode([]byte(`{"id":"a","at":"2031-01-02T03:04:05Z",` + v + `"kind":"noted","body":{"text":"x"}}`))
		if n, ok := e.Body.(*Noted); !ok || n.Text != "x" || e.Version != 1 {
			t.Errorf("version %q: %+v %+v", v, e, e.Body)
		}
	}
}

// TestIDs: joining and parting.
func TestIDs(t *testing.T) {
	rows := []struct {
		id    PartID
		typ   PartID
		place Place
	}{{"liner.2", "liner", "2"}, {"block", "block", ""}, {"valve.in-1", "valve", "in-1"}, {"gear.1.5", "gear", "1.5"}}
	for _, r := range rows {
		typ, at := Split(r.id)
		if typ != r.typ || at != r.place || Instance(typ, at) != r.id {
			t.Errorf("%s: %s and %s, joined %s", r.id, typ, at, Instance(typ, at))
		}
		f := FeatureOf(r.id, "bore")
		if f.Part() != r.id || f.Name() != "bore" {
			t.Errorf("%s: part %s, name %s", f, f.Part(), f.Name())
		}
	}
	if r := RefJoint("a.1"); r.Kind() != "joint" || r.ID() != "a.1" {
		t.Errorf("ref: %s %s", r.Kind(), r.ID())
	}
	if Paperwork.Rank() != 0 || Provenance("hearsay").Rank() != len(Provenances()) || CommonPractice.Rank() <= Unworn.Rank() {
		t.Error("provenances are out of rank")
	}
}
