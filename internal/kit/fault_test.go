package kit

import (
	"strings"
	"testing"
)

// faulty is a change of the good kit text, and the one fault it makes. The
// line is the one that holds the text on.
type faulty struct {
	what     string
	old, new string
	on       string
	item     string
	problem  string
	cure     string
}

func (f faulty) run(t *testing.T) {
	t.Helper()
	if strings.Count(engineKit, f.old) < 1 {
		t.Fatalf("the good kit has no %q", f.old)
	}
	text := strings.Replace(engineKit, f.old, f.new, 1)
	on := strings.Index(text, f.on)
	if on < 0 || strings.Count(text, f.on) != 1 {
		t.Fatalf("%q must stand in the text once, it stands %d times", f.on, strings.Count(text, f.on))
	}
	line := 1 + strings.Count(text[:on], "\n")
	s, faults := Read("bad.toml", []byte(text))
	if s != nil && len(faults) == 0 {
		faults = Inspect(s)
	}
	want := Fault{"bad.toml", line, f.item, f.problem, f.cure}
	found := false
	for _, g := range faults {
		found = found || g == want
	}
	if !found || len(faults) != 1 {
		t.Errorf("want only\n%s\ngot\n%v", want, faults)
	}
}

func runAll(t *testing.T, rows []faulty) {
	t.Helper()
	for _, r := range rows {
		t.Run(r.what, func(t *testing.T) { r.run(t) })
	}
}

func TestFaultsOfReading(t *testing.T) {
	runAll(t, []faulty{
		{"a quotation mark is missing", `each = ["in", "ex"]`, `each = ["in", "ex]`, `each = ["in", "ex]`,
			"the file", "it cannot be read: basic strings cannot have new lines", "look for a missing quotation mark, bracket or equals sign on this line or the one above"},
		{"unknown field in a table", `places = "cylinder"
only = "liners=dry|wet"
[[part.feature]]`, `place = "cylinder"
only = "liners=dry|wet"
[[part.feature]]`, `place = "cylinder"`, `field "place"`, "no such field is known in a part", `did you mean "places"? If not, take it out, or see the table of fields in docs/KITS.md`},
		{"unknown field below", `high = "0.001*D"`, `hgih = "0.001*D"`, `hgih`, `field "hgih"`, "no such field is known in a check limit", `did you mean "high"? If not, take it out, or see the table of fields in docs/KITS.md`},
		{"unknown table", "[[cleaning]]\n", "[[cleanin]]\n", `[[cleanin]]`, `field "cleanin"`, "no such field is known here", `did you mean "cleaning"? If not, take it out, or see the table of fields in docs/KITS.md`},
		{"number for text", `qty = "2"`, `qty = 2`, `qty = 2`, `field "qty"`, "an integer stands here, but text in quotation marks is wanted", "put the value in quotation marks"},
		{"text for a list", `permitted = ["soap"]`, `permitted = "soap"`, `permitted = "soap"`, `field "permitted"`, "a string stands here, but a list in square brackets is wanted", "write it as in the table of fields in docs/KITS.md"},
		{"text for a number", `least = 2`, `least = "2"`, `least = "2"`, `field "least"`, "a string stands here, but a number is wanted", "write it as in the table of fields in docs/KITS.md"},
		{"no number", `weight = 1`, `weight = nan`, `weight = nan`, `field "weight"`, "this is no number to reckon with", "write a plain figure"},
		{"no number in a list", `strip_hours = [1, 2, 3]`, "strip_hours = [1,\n2,\ninf]", "inf]", `field "strip_hours"`, "this is no number to reckon with", "write a plain figure"},
	})
}

func TestFaultsOfIDs(t *testing.T) {
	runAll(t, []faulty{
		{"unknown part", `parts = ["head", "block", "stud"]`, `parts = ["head", "blok", "stud"]`, `"blok"`, `joint "head-on-block"`, `there is no part "blok"`, `did you mean "block"? If not, declare it, or take it out here`},
		{"unknown joint", `or_behind = [["liner-in-block"]]`, `or_behind = [["zzz"]]`, `"zzz"`, `joint "valve-in-head"`, `there is no joint "zzz"`, "declare it, or take it out here"},
		{"unknown member on a line of its own", `parts = ["liner", "o-ring", "block"]`, "parts = [\"liner\",\n\"o-ring\",\n\"o-rung\",\n\"block\"]", `"o-rung"`, `joint "liner-in-block"`, `there is no part "o-rung"`, `did you mean "o-ring"? If not, declare it, or take it out here`},
		{"unknown assembly", "id = \"stud\"\nname = \"Stud\"\nassembly = \"block\"", "id = \"stud\"\nname = \"Stud\"\nassembly = \"blokc\"", "blokc", `part "stud"`, `there is no assembly "blokc"`, `did you mean "block"? If not, declare it, or take it out here`},
		{"no assembly", "name = \"Stud\"\nassembly = \"block\"", "name = \"Stud\"", "[[part]]\nid = \"stud\"", `part "stud"`, "it belongs to no assembly", `write assembly = "…"`},
		{"unknown family", "name = \"Valve\"\nassembly = \"block\"\nplaces = \"valve\"", "name = \"Valve\"\nassembly = \"block\"\nplaces = \"valves\"", `places = "valves"`, `part "valve"`, `there is no places "valves"`, `did you mean "valve"? If not, declare it, or take it out here`},
		{"unknown surface", `outer = "liner/bore"`, `outer = "liner/bor"`, `"liner/bor"`, `check "bore-oval"`, `there is no feature "liner/bor"`, `did you mean "liner/bore"? If not, declare it, or take it out here`},
		{"unknown part of a surface", `outer = "liner/bore"`, `outer = "linre/bore"`, `"linre/bore"`, `check "bore-oval"`, `there is no part "linre"`, `did you mean "liner"? If not, declare it, or take it out here`},
		{"no surface", `outer = "liner/bore"`, `outer = "liner"`, `outer = "liner"`, `check "bore-oval"`, `"liner" does not name a surface`, `write "part/feature", such as "liner/bore"`},
		{"unknown suspect", `of = "o-ring"`, `of = "o-rings"`, `of = "o-rings"`, `symptom "weeps", suspect 1`, `there is no check, joint or part "o-rings"`, `did you mean "o-ring"? If not, declare it, or take it out here`},
		{"unknown pointer of a test", `points_to = ["bore-oval", `, `points_to = ["bore-ovel", `, "bore-ovel", `test "last"`, `there is no check, joint or part "bore-ovel"`, `did you mean "bore-oval"? If not, declare it, or take it out here`},
		{"unknown need", `needs = ["wet-only"]`, `needs = ["wet-onl"]`, `"wet-onl"`, `test "last"`, `there is no test "wet-onl"`, `did you mean "wet-only"? If not, declare it, or take it out here`},
		{"unknown part to clean", `for = ["o-ring"]`, `for = ["o-rin"]`, `"o-rin"`, `cleaning "rubber"`, `there is no part "o-rin"`, `did you mean "o-ring"? If not, declare it, or take it out here`},
		{"named twice", `parts = ["head", "block", "stud"]`, `parts = ["head", "block", "stud", "stud"]`, `"stud", "stud"`, `joint "head-on-block"`, `"stud" is named twice here`, "take one out"},
		{"id used twice", "[[part]]\nid = \"o-ring\"", "[[part]]\nid = \"stud\"\nname=\"S\"\nassembly=\"block\"\n[[part]]\nid = \"o-ring\"", "id = \"stud\"\nname = \"Stud\"", `part "stud"`, "this id is used twice; it stands first in line 51", "give one of them another id, or take one out"},
		{"id with other signs", `id = "weeps"`, `id = "Weeps much"`, `"Weeps much"`, `symptom "Weeps much"`, `the id "Weeps much" has signs that an id cannot have`, `use a to z, 0 to 9 and hyphens only: "weeps-much"`},
		{"no id", `id = "rubber"`, ``, "[[cleaning]]", `cleaning ""`, "it has no id", `write id = "a-short-word"`},
		{"no name", "id = \"first\"\nname = \"First\"", "id = \"first\"", "[[test]]\nid = \"first\"", `test "first"`, "it has no name", `write name = "…" in plain words`},
		{"unknown kit", `edition = "1"`, "edition = \"1\"\nuses = [\"pimp\"]", "pimp", `kit "engine"`, `there is no kit "pimp" among the files given`, "give its file as well, or take it out"},
		{"the kit itself", `edition = "1"`, "edition = \"1\"\nuses = [\"engine\"]", "uses", `kit "engine"`, `the kit uses itself`, "take it out"},
	})
}

func TestFaultsOfCountsAndChoices(t *testing.T) {
	runAll(t, []faulty{
		{"default outside", `default = 3`, `default = 5`, `default = 5`, `count "cylinders"`, "default 5 is not within 2 to 4", "choose a default between them"},
		{"most below least", `most = 4`, `most = 1`, `most = 1`, `count "cylinders"`, "most is 1, below least 2", "exchange them"},
		{"default is no answer", `default = "dry"`, `default = "dyr"`, `default = "dyr"`, `choice "liners"`, `default "dyr" is not known`, `did you mean "dry"? If not, write dry, wet or none`},
		{"formula with an unknown count", `qty = "4*cylinders + 2"`, `qty = "4*cylinder + 2"`, `4*cylinder +`, `part "stud"`, `there is no count "cylinder"`, `did you mean "cylinders"? If not, declare it with [[count]], or write a figure`},
		{"formula comes to no count", `qty = "4*cylinders + 2"`, `qty = "cylinders/2"`, `cylinders/2`, `part "stud"`, `"cylinders/2" does not work out: it comes to 1.5, which is no count`, "let it come to a whole number from 0 to 1000 at every count allowed"},
		{"formula comes below nothing", `qty = "4*cylinders + 2"`, `qty = "cylinders - 3"`, `cylinders - 3`, `part "stud"`, `"cylinders - 3" does not work out: it comes to -1, which is no count`, "let it come to a whole number from 0 to 1000 at every count allowed"},
		{"unknown choice", `only = "liners=wet"`, `only = "liner=wet"`, `"liner=wet"`, `part "o-ring"`, `there is no choice "liner"`, `did you mean "liners"? If not, declare it with [[choice]]`},
		{"unknown answer", `only = "liners=wet"`, `only = "liners=damp"`, `"liners=damp"`, `part "o-ring"`, `choice "liners" has no answer "damp"`, "write dry, wet or none"},
		{"condition that does not read", `only = "liners=wet"`, `only = "wet"`, `only = "wet"`, `part "o-ring"`, `"wet" does not read as choice=answer`, `write it as only = "choice=answer"; part answers by | and conditions by a comma`},
		{"places in two ways", `count = "cylinders + 1"`, "count = \"cylinders + 1\"\nlabels = [\"front\", \"rear\"]", `family = "main"`, `places "main"`, "its places are given in 2 ways", "give count, or labels, or under with each"},
		{"label twice", `each = ["in", "ex"]`, `each = ["in", "in"]`, `each = `, `places "valve"`, `the label "in" stands twice`, "take one out"},
		{"hours that do not rise", `strip_hours = [1, 2, 3]`, `strip_hours = [1, 3, 2]`, `strip_hours`, `assembly "block"`, "1, 3, 2 do not rise", "write them in order: at the least, likely, at the most"},
		{"two hours", `strip_hours = [1, 2, 3]`, `strip_hours = [1, 2]`, `strip_hours`, `assembly "block"`, "2 figures stand here", "write three: at the least, likely, at the most"},
	})
}

func TestFaultsOfFastening(t *testing.T) {
	const good = `parts = ["head", "block", "stud"]`
	with := func(line string) string { return good + "\n" + line }
	runAll(t, []faulty{
		{"no layout", good, with(`layout = "ring 6"`), `layout =`, `joint "head-on-block"`, `layout "ring 6": circle 6, rows 2x5, edge 300x180 10 or field x,y; x,y was wanted`,
			`write it as "circle 6", "rows 2x5", "edge 300x180 10" or "field 0,0; 40,12"`},
		{"layout with an unknown count", good, with(`layout = "rows 2x{cylinder}"`), `layout =`, `joint "head-on-block"`, `there is no count "cylinder"`, `did you mean "cylinders"? If not, declare it with [[count]], or write a figure`},
		{"no thread", good, with(`thread = "M8 or M10-M12"`), `thread =`, `joint "head-on-block"`, `"M10-M12" is no thread of the table`, `write it as "M10x1.25"; where two are usual, "M8 or M10"`},
		{"no class", good, with("thread = \"M20\"\ngrade = \"9.8\""), `grade =`, `joint "head-on-block"`, `class of M20: mark "9.8"; 4.6, 4.8, 5.6, 5.8, 6.8, 8.8, 9.8 (to 16 mm), 10.9 or 12.9 on 1.6 to 39 mm was wanted`, `write a class such as "8.8", or leave it out`},
		{"class without a thread", good, with(`grade = "8.8"`), `grade =`, `joint "head-on-block"`, "a class stands here without a thread", "write the thread as well, or take it out"},
		{"into another part", good, with(`into = "liner"`), `into =`, `joint "head-on-block"`, `part "liner" is not one of the joint`, "name one of its parts, or take it out"},
		{"thicker does what", good, with("shims = \"under the flange\"\nthicker = \"open\""), `thicker =`, `joint "head-on-block"`, `thicker "open" is not known`, `did you mean "opens"? If not, write opens or closes`},
		{"thicker without shims", good, with(`thicker = "opens"`), `thicker =`, `joint "head-on-block"`, "it says what a thicker pack does, but no shims stand there", "write shims as well, or take it out"},
	})
}
