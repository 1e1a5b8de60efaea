package kit

import (
	"strings"
	"testing"
)

func TestCountFormulas(t *testing.T) {
	counts := map[string]int{"cylinders": 3, "gear-pairs": 4, "gear": 9}
	for text, want := range map[string]int{
		"7": 7, "cylinders": 3, "2*cylinders + 2": 8, "(cylinders + 1)/2": 2, "cylinders-3": 0,
		"gear-pairs": 4, "2*gear-pairs-cylinders": 5, "gear - 1": 8, "gear_pairs": 4,
	} {
		if got, err := whole(text, counts); err != nil || got != want {
			t.Errorf("%s: %d, %v, want %d", text, got, err, want)
		}
	}
	for _, text := range []string{"", "cylinder", "cylinders-4", "cylinders/2", "1/0", "2 cylinders", "gear-pairs-x", "agear-pairs", "1e300"} {
		if got, err := whole(text, counts); err == nil {
			t.Errorf("%q: %d, want an error", text, got)
		}
	}
}

func TestNearest(t *testing.T) {
	list := []string{"main-cap", "main-shell", "liner", "head-gasket", "oil"}
	for word, want := range map[string]string{
		"main-cpa": "main-cap", "main-caps": "main-cap", "linre": "liner", "gasket": "", "head": "head-gasket",
		"oli": "oil", "": "", "zzzzzz": "", "mian-shel": "main-shell",
	} {
		if got := nearest(word, list); got != want {
			t.Errorf("nearest to %q is %q, want %q", word, got, want)
		}
	}
}

func TestFaultsReadAsText(t *testing.T) {
	var fs Faults
	if fs.Err() != nil {
		t.Error("no faults are an error")
	}
	for i := range 30 {
		fs = append(fs, Fault{"a.toml", 30 - i, `part "x"`, "it is loose", "tighten it"})
	}
	fs = append(fs.sorted(), fs[0]).sorted()
	text := fs.Err().Error()
	if lines := strings.Split(text, "\n"); len(lines) != 21 || lines[0] != `a.toml:1: part "x": it is loose. Tighten it.` || lines[20] != "and 10 more" {
		t.Errorf("%d lines:\n%s", len(lines), text)
	}
	if s := (Fault{"a.toml", 1, "i", "p", "did you mean mm?"}).String(); s != "a.toml:1: i: p. Did you mean mm?" {
		t.Error(s)
	}
}

func TestFaultsOfPlacesAndData(t *testing.T) {
	datum := "[[datum]]\nid = \"volts\"\nname = \"System volts\"\nunit = \"V\"\n"
	runAll(t, []faulty{
		{"families in a circle", "under = \"cylinder\"\neach = [\"in\", \"ex\"]", "under = \"valve\"\neach = [\"in\", \"ex\"]", "under", `places "valve"`, "these families lie under one another: valve, valve", "leave one of them without under"},
		{"places not named within", "under = \"cylinder\"\neach = [\"in\", \"ex\"]", "under = \"cylinder\"", "under", `places "valve"`, "the places within one cylinder are not named", `write each = ["in", "ex"] or the like`},
		{"family above not named", "under = \"cylinder\"\neach", "each", "each", `places "valve"`, "the family above is not named", `write under = "…"`},
		extra("value without provenance", datum+"value = 12\n", "[[datum]]", `datum "volts"`, "it has no from", oneOf(provenances())),
		extra("count below nothing", "[[count]]\nid = \"x\"\nask = \"?\"\nleast = -1\nmost = 1\n", "least = -1", `count "x"`, "least is -1, below nothing", "write 0 or more"),
		extra("too many", "[[count]]\nid = \"x\"\nask = \"?\"\nmost = 400\n", "most = 400", `count "x"`, "most is 400", "write 100 or less"),
		extra("one answer", "[[choice]]\nid = \"x\"\nask = \"?\"\nanswers = [\"yes\"]\ndefault = \"yes\"\n", `answers = ["yes"]`, `choice "x"`, "a choice needs at least two answers", "add an answer, or take the choice out"),
		{"mass below nothing", `qty = "2"`, "qty = \"2\"\nmass_kg = -1", "mass_kg", `part "o-ring"`, "mass_kg is -1, below nothing", "write 0 or more"},
		{"word for true", `qty = "2"`, "qty = \"2\"\none_use = \"yes\"", "one_use", `field "one_use"`, "a string stands here, but true or false is wanted", "write it as in the table of fields in docs/KITS.md"},
	})
	a := "[kit]\nid = \"a\"\ntitle = \"A\"\nedition = \"1\"\n" + datum
	sheets := []*Sheet{sheet(t, "a.toml", a), sheet(t, "b.toml", strings.Replace(a, `"a"`, `"b"`, 1))}
	if faults := Inspect(sheets...); len(faults) > 0 {
		t.Errorf("the same datum in two kits: %v", faults)
	}
	if m := fold(t, sheets, Taking{}); len(m.Data) != 1 {
		t.Errorf("%d data, want the like ones once", len(m.Data))
	}
	sheets[1].Data[0].Unit = "bar"
	if faults := Inspect(sheets...); len(faults) != 1 || faults[0].Problem != `kit "a" declares this datum with another unit or value` {
		t.Errorf("unlike data: %v", faults)
	}
	if _, _, err := Expand(sheets, Taking{}); err == nil {
		t.Error("unlike data were expanded")
	}
}
