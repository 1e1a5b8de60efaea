package language

import (
	"html"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func read(t *testing.T, say string) *Language {
	t.Helper()
	l, err := Read([]byte("code = \"xx\"\nname = \"X\"\n[say]\n" + say))
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestSay(t *testing.T) {
	l := read(t, `
"Keep" = "Behalten"
"worn" = "verschlissen"
"Worn." = "Verschlissen."
"Bore" = "Bohrung"
"top" = "oben"
"Point {n} of {all}" = "Punkt {n} von {all}"
"{name} at {point}" = "{point}: {name}"
"Read {what} of {all}, {state}" = "{state}, {what} aus {all}"
`)
	for _, c := range []struct {
		text, want string
		all        bool
	}{
		{"Keep", "Behalten", true},
		{"Keepsake", "Keepsake", false},
		{"Point 3 of 12", "Punkt 3 von 12", true},
		{"Bore at top", "oben: Bohrung", true},
		{"Bore at bottom", "bottom: Bohrung", false},
		{"Read Bore of 3, worn", "verschlissen, Bohrung aus 3", true},
		{"Keep. Worn.", "Behalten. Verschlissen.", true},
		{"mm", "mm", true},
		{"\"Keep\" at top", "oben: \"Keep\"", true},
		{"Bore, top of 3", "Bohrung, top of 3", false},
		{"Worn. Point 1 of 2", "Verschlissen. Punkt 1 von 2", true},
		{"Bore, top", "Bohrung, oben", true},
		{"92.08 mm", "92.08 mm", true},
		{"3 thou", "3 thou", true},
		{"{figure}", "{figure}", true},
		{"Point {n} of {all}", "Punkt {n} von {all}", true}, // a phrase that a script fills in
		{"", "", true},
	} {
		if got, all := l.Say(c.text); got != c.want || all != c.all {
			t.Errorf("%q: %q, %v; want %q, %v", c.text, got, all, c.want, c.all)
		}
	}
}

func TestPage(t *testing.T) {
	l := read(t, `"Keep" = "Be<halten>"
"Note & mark" = "Notiz & Zeichen"
"Point {n}" = "Punkt {n}"`)
	var missing []string
	got := string(l.Page([]byte(`<p title="Keep" class="Keep"> Keep
</p><input value="Keep" placeholder="Keep"><b>Note &amp; mark</b><p translate="no">Keep <p>Keep</p> Keep</p><textarea>Keep</textarea><i data-lines="Point 1|Point 2|other">4</i>`),
		func(s string) { missing = append(missing, s) }))
	want := `<p title="Be&lt;halten&gt;" class="Keep"> Be&lt;halten&gt;
</p><input value="Keep" placeholder="Be&lt;halten&gt;"><b>Notiz &amp; Zeichen</b><p translate="no">Keep <p>Keep</p> Keep</p><textarea>Keep</textarea><i data-lines="Punkt 1|Punkt 2|other">4</i>`
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if !slices.Equal(missing, []string{"other"}) {
		t.Errorf("missing: %q", missing)
	}
}

// TestPageKeepsItsMarks: whatever a text says, no mark of the page is added or
// lost and a language that knows nothing changes nothing.
func TestPageKeepsItsMarks(t *testing.T) {
	empty, other := read(t, ""), read(t, `"{a} of {b}" = "<{b}> {a}"`)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		page := `<p aria-label="` + html.EscapeString(text) + `">` + html.EscapeString(text) + `<br> of x</p>`
		if got := string(empty.Page([]byte(page), nil)); got != page {
			t.Fatalf("%q became %q", page, got)
		}
		if got := string(other.Page([]byte(page), nil)); strings.Count(got, "<") != 3 || strings.Count(got, `"`) != 2 {
			t.Fatalf("%q became %q", page, got)
		}
	})
}

func TestBrokenFiles(t *testing.T) {
	for _, say := range []string{`"a {b" = "x"`, `"{a}{b} c" = "x"`, `"{a}" = "x"`, `"a {b}" = "x {c}"`, `"a" = ""`, `"a" = `} {
		if _, err := Read([]byte("code = \"xx\"\nname = \"X\"\n[say]\n" + say)); err == nil {
			t.Errorf("%s is taken", say)
		}
	}
	if _, err := Read([]byte(`[say]`)); err == nil {
		t.Error("a language without a name is taken")
	}
	if got := Load(); len(got) == 0 || got[0].Code != "de" {
		t.Errorf("shipped languages: %v", got)
	}
}
