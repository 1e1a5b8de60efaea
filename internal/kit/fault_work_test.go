package kit

import (
	"reflect"
	"slices"
	"strings"
	"testing"
)

// extra adds items to the good kit, before its tests.
func extra(what, added, on, item, problem, cure string) faulty {
	return faulty{what, "[[test]]\nid = \"first\"", added + "\n[[test]]\nid = \"first\"", on, item, problem, cure}
}

const gap = `[[check]]
id = "gap"
name = "Gap"
assembly = "block"
joints = ["head-on-block"]
when = "made"
by = "reading"
unit = "mm"
`

const judged = `[[check.limit]]
high = "0.5"
from = "common practice"
`

func TestFaultsOfPartsAndJoints(t *testing.T) {
	runAll(t, []faulty{
		extra("part in no joint", "[[part]]\nid = \"cap\"\nname = \"Cap\"\nassembly = \"block\"", `id = "cap"`, `part "cap"`,
			"part cap sits in no joint, so a left-over piece would not be noticed", "name the joint it goes back with"),
		extra("joint without parts", "[[joint]]\nid = \"x\"\nname = \"X\"\nassembly = \"block\"\nsort = \"bolted\"", "[[joint]]\nid = \"x\"", `joint "x"`,
			"it holds no parts", `write parts = ["…", "…"]`),
		extra("joint with one part", "[[joint]]\nid = \"x\"\nname = \"X\"\nassembly = \"block\"\nsort = \"bolted\"\nparts = [\"head\"]", `parts = ["head"]`, `joint "x"`,
			"it holds one part only", "name the part it is joined to"),
		{"unknown sort of joint", `sort = "slip"`, `sort = "slipp"`, "slipp", `joint "valve-in-head"`, `sort "slipp" is not known`,
			`did you mean "slip"? If not, ` + oneOf(JointSorts())},
		{"unknown sort of feature", `sort = "bore"`, `sort = "hole"`, "hole", `feature "liner/bore"`, `sort "hole" is not known`, "write bore, journal, length or face"},
		{"behind itself", `behind = ["head-on-block"]
only`, `behind = ["head-on-block", "liner-in-block"]
only`, `"head-on-block", "liner-in-block"`, `joint "liner-in-block"`, "the joint is said to be behind itself", "take it out here"},
		{"other ways without a first", `behind = ["head-on-block"]
or_behind`, `or_behind`, "or_behind", `joint "valve-in-head"`, "there are other ways in, but behind is empty", "write the first way under behind"},
		{"point twice", `axes = ["along", "across"]`, `axes = ["along", "across", "along"]`, "axes", `feature "liner/bore"`, `the point "along" is empty or stands twice`, "give each point a name of its own"},
	})
}

func TestCircles(t *testing.T) {
	head := "[[joint]]\nid = \"head-on-block\"\nname = \"Head to block\"\nassembly = \"block\"\nsort = \"bolted\"\nparts = [\"head\", \"block\", \"stud\"]\n"
	runAll(t, []faulty{
		{"a circle", head, head + "behind = [\"liner-in-block\"]\n", `behind = ["liner-in-block"]`, `joint "head-on-block"`,
			"a circle: head-on-block waits for liner-in-block, liner-in-block waits for head-on-block",
			"take one of these out of behind, or write another way in under or_behind"},
		extra("a longer circle", joint("j1", `["j3"]`, "")+joint("j2", `["j1", "head-on-block"]`, "")+joint("j3", `["head-on-block", "j2"]`, ""), `behind = ["j3"]`, `joint "j1"`,
			"a circle: j1 waits for j3, j3 waits for j2, j2 waits for j1", "take one of these out of behind, or write another way in under or_behind"),
		extra("a circle in one choice only", joint("j1", `["j2"]`, "liners=wet")+joint("j2", `["j1"]`, "liners=wet|none"), `behind = ["j2"]`, `joint "j1"`,
			"a circle: j1 waits for j2, j2 waits for j1", "take one of these out of behind, or write another way in under or_behind"),
		extra("every way in is in the circle", joint("j1", `["j2"]`, "")+joint("j2", "[\"j1\"]\nor_behind = [[\"j1\", \"head-on-block\"]]", ""), `behind = ["j2"]`, `joint "j1"`,
			"a circle: j1 waits for j2, j2 waits for j1", "take one of these out of behind, or write another way in under or_behind"),
	})
	for what, added := range map[string]string{
		"another way in escapes":          joint("j1", `["j2"]`, "") + joint("j2", "[\"j1\"]\nor_behind = [[\"head-on-block\"]]", ""),
		"never on one machine":            joint("j1", `["j2"]`, "liners=wet") + joint("j2", `["j1"]`, "liners=dry"),
		"one of the ring is never there":  joint("j1", `["j2"]`, "liners=wet") + joint("j2", `["j3"]`, "") + joint("j3", `["j1"]`, "liners=dry|none"),
		"escaped by what is never absent": joint("j1", "[\"j2\"]\nor_behind = [[\"head-on-block\"]]", "") + joint("j2", `["j1"]`, ""),
	} {
		if faults := Inspect(sheet(t, "good.toml", engineKit+added)); len(faults) > 0 {
			t.Errorf("%s: %v", what, faults)
		}
	}
}

func joint(id, behind, only string) string {
	return "[[joint]]\nid = \"" + id + "\"\nname = \"J\"\nassembly = \"block\"\nsort = \"bolted\"\nparts = [\"head\", \"block\"]\nbehind = " + behind + "\nonly = \"" + only + "\"\n"
}

func TestFaultsOfChecks(t *testing.T) {
	runAll(t, []faulty{
		{"unknown when", `when = "apart"`, `when = "aprt"`, "aprt", `check "bore-oval"`, `when "aprt" is not known`, `did you mean "apart"? If not, write apart, made or running`},
		{"unknown by", `by = "oval"`, `by = "ovl"`, "ovl", `check "bore-oval"`, `by "ovl" is not known`, `did you mean "oval"? If not, ` + oneOf(Bys())},
		{"unknown unit", `unit = "mm"`, `unit = "mmm"`, "mmm", `check "bore-oval"`, `unit "mmm" is not known`, "did you mean mm, mm³, thou, N·m?"},
		{"unit with a remark", `unit = "mm"`, `unit = "mm lost"`, "mm lost", `check "bore-oval"`, `unit "mm lost" is not known`, `write unit = "mm" and says = "lost"`},
		{"no unit", "unit = \"mm\"\n", "", "[[check]]\nid = \"bore-oval\"", `check "bore-oval"`, "it has no unit", `write one such as "mm", "N·m", "V" or "bar"; for a bare number write "ratio" or "count"`},
		{"hangs on nothing", "places = \"cylinder\"\nparts = [\"liner\"]\n", "places = \"cylinder\"\n", `id = "bore-oval"`, `check "bore-oval"`, "it hangs on nothing, so it would hold no closing", `write joints = ["…"] or parts = ["…"]`},
		{"oval on one axis", `axes = ["along", "across"]`, `axes = ["along"]`, `outer = "liner/bore"`, `check "bore-oval"`, `an oval needs the surface read on two axes, and "bore" has 1`, `write axes = ["along", "across"] at the feature`},
		{"taper at no level", `by = "oval"`, `by = "taper"`, `outer = "liner/bore"`, `check "bore-oval"`, `a taper needs the surface read at two levels, and "bore" has 0`, `write levels = ["top", "low"] at the feature`},
		{"no surface", "by = \"oval\"\nouter = \"liner/bore\"", `by = "oval"`, "[[check]]\nid = \"bore-oval\"", `check "bore-oval"`, `by "oval" needs a surface`, `write outer = "part/feature"`},
		{"no inner surface", `by = "oval"`, `by = "clearance"`, "[[check]]\nid = \"bore-oval\"", `check "bore-oval"`, `by "clearance" needs the inner surface too`, `write inner = "part/feature"`},
		extra("surface at many places", strings.Replace(gap, `"reading"`, "\"size\"\nouter = \"liner/bore\"", 1)+judged, "by = \"size\"\nouter = \"liner/bore\"", "", "", "").at(`outer = "liner/bore"
unit = "mm"
[[`, `check "gap"`, `surface "liner/bore" stands at every cylinder, so it is not told which one is meant`, `give the check places = "cylinder"`),
		extra("readings shared by several places", strings.Replace(gap, `"reading"`, "\"size\"\nouter = \"liner/bore\"\nplaces = \"valve\"", 1)+judged, "outer = \"liner/bore\"\nplaces", `check "gap"`,
			`every valve of one cylinder would share the readings of surface "liner/bore"`, `give the part places = "valve", or the check places = "cylinder"`),
		extra("hidden by what does not hide it", strings.Replace(gap, "made", "apart", 1)+"hidden_by = [\"valve-in-head\"]\n"+judged, "hidden_by", `check "gap"`,
			"closing valve-in-head does not hide it: that is neither its own joint nor in front of it", "name one of head-on-block, or a joint in front of them"),
		extra("hidden by its own joint", gap+"hidden_by = [\"head-on-block\"]\n"+judged, "hidden_by", `check "gap"`,
			"it is made once head-on-block is closed, so that closing cannot hide it", `name the joint whose closing hides it, or write when = "apart"`),
		extra("dry, but nothing is built dry", gap+"on_dry_build = true\n"+judged, "on_dry_build", `check "gap"`, "none of its joints is built dry", "write dry_build = true at the joint, or take this out"),
	})
	front := gap + judged
	front = strings.Replace(front, `"made"`, "\"apart\"\nhidden_by = [\"head-on-block\"]", 1)
	front = strings.Replace(front, `["head-on-block"]`, `["liner-in-block"]`, 1)
	if faults := Inspect(sheet(t, "good.toml", engineKit+front)); len(faults) > 0 {
		t.Errorf("a hider in front of the check's joint: %v", faults)
	}
}

// at gives a row another line, item, problem and cure.
func (f faulty) at(on, item, problem, cure string) faulty {
	f.on, f.item, f.problem, f.cure = on, item, problem, cure
	return f
}

func TestFaultsOfLimits(t *testing.T) {
	runAll(t, []faulty{
		extra("no limit", gap, "[[check]]\nid = \"gap\"", "", "", "").at(`id = "gap"`, `check "gap"`, "it has no limit, so nothing could be said about a reading",
			`add [[check.limit]], or one with find = "…" that says how to find the limit`),
		extra("a limit of nothing", gap+"[[check.limit]]\nfrom = \"handbook\"\n", "[[check.limit]]\nfrom = \"handbook\"", `check "gap", limit 1`, "it has no bound, no words and no way to find one",
			`write high = "…", or sound_words = "…", or find = "…"`),
		extra("words for a figure", gap+"[[check.limit]]\nfrom = \"handbook\"\nsound_words = \"snug\"\n", "snug", `check "gap", limit 1`, "words alone cannot judge a figure",
			`write a bound such as high = "…", or find = "…", or by = "eye"`),
		{"no provenance", "high = \"0.001*D\"\nfrom = \"common practice\"", "high = \"0.001*D\"", "[[check.limit]]\nhigh", `check "bore-oval", limit 1`, "it does not say where the limit comes from", oneOf(provenances())},
		{"unknown provenance", "high = \"0.001*D\"\nfrom = \"common practice\"", "high = \"0.001*D\"\nfrom = \"comon practice\"", "comon", `check "bore-oval", limit 1`, `from "comon practice" is not known`,
			`did you mean "common practice"? If not, ` + oneOf(provenances())},
		{"no formula", `high = "0.001*D"`, `high = "0.001D"`, "0.001D", `check "bore-oval", limit 1`, `"0.001D" is no formula: formula "0.001D", column 6: an operator (+ - * /) is wanted here`, `write a figure, or a formula such as "0.002*D"`},
		{"another letter", `high = "0.001*D"`, `high = "0.001*d"`, "0.001*d", `check "bore-oval", limit 1`, `its formula uses "d", but the size's letter is "D"`, `write "D" instead`},
		extra("letter without a size", gap+"[[check.limit]]\nfrom = \"handbook\"\nhigh = \"T/2\"\n", "T/2", `check "gap", limit 1`, `its formula uses "T", but the check says no size`, `add [check.size] with symbol = "T"`),
		{"new high below new low", `high = "0.001*D"`, "new_low = \"0.002*D\"\nnew_high = \"0.001*D\"", "new_high", `check "bore-oval", limit 1`, "new_low is 0.06 and new_high is 0.03 at D = 30: no new fit could pass",
			"let them rise in the order low, new_low, new_high, high; for a small or large part give the feature its nominal_mm"},
		{"worn tighter than new at one size", `high = "0.001*D"`, "new_high = \"0.0005*D\"\nhigh = \"0.04\"", "high = \"0.04\"", `check "bore-oval", limit 1`, "new_high is 0.05 and high is 0.04 at D = 100: worn would be tighter than new",
			"let them rise in the order low, new_low, new_high, high; for a small or large part give the feature its nominal_mm"},
		extra("low above new low", gap+"[[check.limit]]\nfrom = \"handbook\"\nlow = \"9\"\nnew_low = \"8\"\n", "new_low", `check "gap", limit 1`, "low is 9 and new_low is 8: worn would be tighter than new", "let them rise in the order low, new_low, new_high, high"),
		{"division by nothing", `high = "0.001*D"`, `high = "1/(D-30)"`, "1/(D-30)", `check "bore-oval", limit 1`, `"1/(D-30)" cannot be worked out at D = 30: formula "1/(D-30)": it divides by zero`, "correct the formula"},
		{"size without a value", "symbol = \"D\"\nfeature = \"liner/bore\"", `symbol = "D"`, `symbol = "D"`, `check "bore-oval", size`, "it must get its value from one place", `write feature = "part/feature", or datum = "…"`},
		{"unknown datum", "symbol = \"D\"\nfeature = \"liner/bore\"", "symbol = \"D\"\ndatum = \"volts\"", "volts", `check "bore-oval", size`, `there is no datum "volts"`, "declare it, or take it out here"},
		extra("figures for an eye", strings.Replace(strings.Replace(gap, "unit = \"mm\"\n", "", 1), "reading", "eye", 1)+judged, `high = "0.5"`, `check "gap", limit 1`, "a check by eye has no figure to compare", "write sound_words and worn_words instead"),
	})
}

func TestFaultsOfRemediesAndTests(t *testing.T) {
	runAll(t, []faulty{
		{"unknown part renewed", `renews = ["liner", "o-ring"]`, `renews = ["liner", "o-rings"]`, "o-rings", `check "bore-oval", remedy "new-liner"`, `there is no part "o-rings"`, `did you mean "o-ring"? If not, declare it, or take it out here`},
		{"unknown check opened", `opens = ["bore-oval"]`, `opens = ["bore-ovl"]`, "bore-ovl", `check "bore-oval", remedy "new-liner"`, `there is no check "bore-ovl"`, `did you mean "bore-oval"? If not, declare it, or take it out here`},
		{"unknown check mended", `opens = ["bore-oval"]`, `mends = ["bore-ovl"]`, "bore-ovl", `check "bore-oval", remedy "new-liner"`, `there is no check "bore-ovl"`, `did you mean "bore-oval"? If not, declare it, or take it out here`},
		{"unknown surface reworked", `opens = ["bore-oval"]`, `reworks = ["liner/boer"]`, "boer", `check "bore-oval", remedy "new-liner"`, `there is no feature "liner/boer"`, `did you mean "liner/bore"? If not, declare it, or take it out here`},
		{"unknown check shifted", `opens = ["bore-oval"]`, "[[check.remedy.shift]]\ncheck = \"gop\"\nby = 1", "gop", `check "bore-oval", remedy "new-liner"`, `there is no check "gop"`, "declare it, or take it out here"},
		{"sizes that do not rise", `opens = ["bore-oval"]`, `sizes_mm = [0.5, 0.25]`, "sizes_mm", `check "bore-oval", remedy "new-liner"`, "size 0.25 does not rise", "write the sizes in mm on diameter from nominal, the smallest first: [0.25, 0.50]"},
		{"key twice", `key = "new-o-ring"`, `key = "new-liner"`, "key = \"new-liner\"\nname = \"New O-ring\"", `check "bore-oval", remedy "new-liner"`, "this check has another remedy with this key", "give one of them another key"},
		{"unknown place of work", "name = \"New O-ring\"\nwhere = \"buy\"", "name = \"New O-ring\"\nwhere = \"bye\"", `"bye"`, `check "bore-oval", remedy "new-o-ring"`, `where "bye" is not known`, `write bench, machine shop, buy or pump shop`},
		{"odds above one", `opens = ["bore-oval"]`, `odds = 25`, "odds", `check "bore-oval", remedy "new-liner"`, "odds are 25", "write a chance from 0 to 1: 0.25 is one in four"},
		{"tests in a circle", "id = \"first\"", "id = \"first\"\nneeds = [\"last\"]", `needs = ["last"]`, `test "first"`, "a circle: first needs last, last needs wet-only, wet-only needs first", "take one of these out of needs"},
		{"test without provenance", "pass = \"dry\"\nfrom = \"common practice\"\n[[test]]\nid = \"wet-only\"", "pass = \"dry\"\n[[test]]\nid = \"wet-only\"", "[[test]]\nid = \"first\"", `test "first"`, "it has no from", oneOf(provenances())},
		{"forbidden without why", "permitted = [\"soap\"]", "[[cleaning.forbidden]]\nwhat = \"petrol\"", "[[cleaning.forbidden]]", `cleaning "rubber", forbidden 1`, "it has no why", `write why = "…" in plain words`},
		{"weight of nothing", "weight = 1", "weight = 0", "weight = 0", `symptom "weeps", suspect 1`, "weight is 0", "write how likely it is against the others, above 0"},
		{"no suspect", "[[symptom.suspect]]\nof = \"o-ring\"\nweight = 1", "", `id = "weeps"`, `symptom "weeps"`, "it has no suspect", "add [[symptom.suspect]]"},
	})
}

func TestFaultsOfHazards(t *testing.T) {
	runAll(t, []faulty{
		{"unknown hazard", "sort = \"bolted\"", "sort = \"bolted\"\nhazards = [\"jaking\"]", "jaking", `joint "head-on-block"`, `hazard "jaking" is not known, so no caution would be shown`,
			`did you mean "jacking"? If not, choose one of: ` + strings.Join(Hazards(), ", ")},
		{"a spring let go", "sort = \"slip\"", "sort = \"spring-loaded\"", "[[joint]]\nid = \"valve-in-head\"", `joint "valve-in-head"`, "it has no caution: a spring is let go here", `add "spring under load" to hazards`},
		extra("injection", "[[assembly]]\nid = \"fuel-injection\"\nname = \"Injection\"\nsystem = \"fuel\"\n"+strings.Replace(joint("j1", "[]", ""), `assembly = "block"`, `assembly = "fuel-injection"`, 1), "[[joint]]\nid = \"j1\"",
			`joint "j1"`, "it has no caution: it belongs to the injection, where a spray goes through skin", `add "injection pressure" to hazards`),
		{"old lining", `name = "Stud"`, `name = "Brake lining"`, "[[part]]\nid = \"stud\"", `part "stud"`, "it has no caution: old linings may hold asbestos", `add "old lining dust" to hazards`},
		extra("lye", gap+"how = \"after the caustic bath\"\n"+judged, "[[check]]\nid = \"gap\"", `check "gap"`, "it has no caution: lye burns skin and eyes", `add "caustic" to hazards`),
		{"the engine is started", "id = \"wet-only\"\nname = \"Wet\"\nsystem = \"engine\"\nneeds = [\"first\"]\ndo = \"look\"", "id = \"wet-only\"\nname = \"Wet\"\nsystem = \"engine\"\nneeds = [\"first\"]\ndo = \"Start the engine and look.\"",
			"[[test]]\nid = \"wet-only\"", `test "wet-only"`, "the engine turns or the machine moves, and there is no caution", `write caution = "…"`},
	})
}

// TestFaultsBetweenKits looks at what one kit may name in another.
func TestFaultsBetweenKits(t *testing.T) {
	engine := sheet(t, "engine.toml", engineKit)
	alone := strings.Replace(pumpKit, `uses = ["engine"]`, ``, 1)
	line := 1 + strings.Count(alone[:strings.Index(alone, `parts = ["pump", "block"]`)], "\n")
	want := Fault{"pump.toml", line, `joint "pump-on-block"`, `part "block" belongs to kit "engine", which this kit does not use`, `add "engine" to uses, or name something of this kit`}
	if faults := Inspect(engine, sheet(t, "pump.toml", alone)); !slices.Contains(faults, want) {
		t.Errorf("no fault %v among\n%v", want, faults)
	}
	twice := strings.Replace(pumpKit, `id = "plug"`, `id = "stud"`, 1)
	want = Fault{"pump.toml", 1 + strings.Count(twice[:strings.Index(twice, `id = "stud"`)], "\n"), `part "stud"`, "this id is used twice; it stands first in engine.toml, line 63", "give one of them another id, or take one out"}
	if faults := Inspect(engine, sheet(t, "pump.toml", twice)); !slices.Contains(faults, want) {
		t.Errorf("no fault %v among\n%v", want, faults)
	}
	unlike := strings.Replace(pumpKit, "[[assembly]]", "[[places]]\nfamily = \"main\"\nname = \"main\"\nlabels = [\"a\"]\n[[assembly]]", 1)
	a, b := Inspect(engine, sheet(t, "pump.toml", unlike)), Inspect(sheet(t, "pump.toml", unlike), engine)
	if len(a) != 1 || a[0].Problem != `kit "engine" declares this family in another way` || !reflect.DeepEqual(a, b) {
		t.Errorf("unlike families: %v\nin the other order: %v", a, b)
	}
}
