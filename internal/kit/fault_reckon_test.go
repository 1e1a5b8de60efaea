package kit

import (
	"maps"
	"testing"

	"matchmark/internal/machine"
)

// reckoned is a sound check with a reckoning below it, and the fault that
// stands in it.
func reckoned(what, topic, with, on, problem, cure string) faulty {
	return extra(what, gap+judged+"[[check.reckon]]\ntopic = \""+topic+"\"\ntitle = \"Told here\"\nwith = "+with+"\n", on,
		`check "gap", reckoning 1`, problem, cure)
}

func TestFaultsOfReckonings(t *testing.T) {
	runAll(t, []faulty{
		reckoned("unknown topic", "crowfot", `{ torque = "60 N·m" }`, `topic = "crowfot"`, `there is no topic "crowfot"`,
			`did you mean "crowfoot"? If not, matchmark reckon lists them`),
		reckoned("an input is left out", "crowfoot", `{ torque = "60 N·m", wrench = "400" }`, `with = {`,
			`crowfoot needs "offset": from the square to the bolt`, `give it a value, or a source such as "datum:…"`),
		reckoned("unknown input", "rolling-radius", `{ way = "17 m", turns = "5", turn = "1" }`, `turn = "1"`,
			`rolling-radius has no input "turn"`, `did you mean "turns"? If not, `+oneOf([]string{"way", "turns"})),
		reckoned("wrong dimension", "crowfoot", `{ torque = "feature:liner/bore", wrench = "400", offset = "50" }`, `torque = "feature`,
			`"feature:liner/bore" does not fit: torque wanted at the bolt: a figure, in N·m if no unit is typed`, "give what is wanted, or a source of that kind"),
		reckoned("source that is not there", "crowfoot", `{ torque = "datum:nothing", wrench = "400", offset = "50" }`, `torque = "datum`,
			`there is no datum "nothing"`, "declare it, or take it out here"),
		reckoned("no clearance", "rolling-radius", `{ way = "17 m", turns = "tight:gap" }`, `turns = "tight`,
			`check "gap" is no clearance, so it cannot be tight`, "name a clearance, or write reading:gap"),
		reckoned("check that is not there", "rolling-radius", `{ way = "17 m", turns = "{reading:valve-eye}" }`, `turns = "{reading`,
			`there is no check "valve-eye"`, "declare it, or take it out here"),
	})
}

// An input whose source is left out by a choice is left out with it.
func TestReckoningsExpand(t *testing.T) {
	text := engineKit + gap + judged + "[[check.reckon]]\ntopic = \"rolling-radius\"\ntitle = \"Told here\"\nwith = { way = \"feature:liner/bore\", turns = \"count:cylinder\" }\n"
	s, faults := Read("reckon.toml", []byte(text))
	if faults = append(faults, Inspect(s)...); len(faults) > 0 {
		t.Fatal(faults)
	}
	for liners, want := range map[string]map[string]string{"dry": {"way": "feature:liner.1/bore", "turns": "count:cylinder"}, "none": {"turns": "count:cylinder"}} {
		m := fold(t, []*Sheet{s}, Taking{Choices: map[string]map[string]string{s.Kit.ID: {"liners": liners}}})
		list := m.Check("gap").Reckon
		if len(list) != 1 || list[0].Topic != "rolling-radius" || list[0].Title != "Told here" || !maps.Equal(list[0].With, want) {
			t.Errorf("%s: %+v", liners, list)
		}
		if len(m.Questions) > 0 {
			t.Errorf("%s: %v", liners, m.Questions)
		}
	}
	if kinds := machine.ReckoningSources(); len(kinds) != len(nounOf) {
		t.Errorf("%d sources, of which %d are known here", len(kinds), len(nounOf))
	}
}
