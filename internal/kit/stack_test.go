package kit

import (
	"testing"

	"matchmark/internal/machine"
)

const stackKit = `
[[part]]
id = "shaft"
name = "Shaft"
assembly = "block"
[[part.feature]]
id = "throw"
name = "throw"
sort = "length"
[[joint]]
id = "shaft-in-block"
name = "Shaft in block"
assembly = "block"
sort = "slip"
parts = ["shaft", "block"]
[[check]]
id = "reach"
name = "Reach"
assembly = "block"
places = "cylinder"
joints = ["liner-in-block"]
when = "apart"
by = "stack"
unit = "mm"
term = [{ feature = "liner/bore", times = 1 }, { feature = "shaft/throw", times = -0.5 }]
` + judged

// TestStackIsExpanded: each place has its own sizes, also of a part that stands
// once and is read at every place.
func TestStackIsExpanded(t *testing.T) {
	s := sheet(t, "stack.toml", engineKit+stackKit)
	if faults := Inspect(s); len(faults) > 0 {
		t.Fatal(faults)
	}
	c := fold(t, []*Sheet{s}, Taking{}).Check("reach.2")
	if c.By != machine.ByStack || len(c.Terms) != 2 {
		t.Fatalf("%s of %+v", c.By, c.Terms)
	}
	for i, want := range []struct {
		id    machine.FeatureID
		times float64
	}{{"liner.2/bore", 1}, {"shaft/throw-2", -0.5}} {
		if got := c.Terms[i]; got.Feature == nil || got.Feature.ID != want.id || got.Times != want.times {
			t.Errorf("size %d: %+v, want %s %g times", i, got, want.id, want.times)
		}
	}
}

func TestFaultsOfStacks(t *testing.T) {
	stack := func(by, rest string) string {
		return "[[check]]\nid = \"reach\"\nname = \"Reach\"\nassembly = \"block\"\nplaces = \"cylinder\"\njoints = [\"liner-in-block\"]\nwhen = \"apart\"\nunit = \"mm\"\nby = \"" + by + "\"\n" + rest + judged
	}
	runAll(t, []faulty{
		extra("one size", stack("stack", "term = [{ feature = \"liner/bore\", times = 1 }]\n"), `by = "stack"`, `check "reach"`,
			`by "stack" needs two sizes or more`, `write term = [{ feature = "part/feature", times = 1 }, { feature = "part/feature", times = -1 }]`),
		extra("terms of no stack", stack("size", "outer = \"liner/bore\"\nterm = [{ feature = \"liner/bore\", times = 1 }]\n"), `term = [`, `check "reach"`,
			"only a stack has terms", `take them out, or write by = "stack"`),
		extra("no times", stack("stack", "term = [{ feature = \"liner/bore\", times = 1 }, { feature = \"liner/bore\" }]\n"), `term = [`, `check "reach"`,
			"the size counts no times", "write times = 1, or -1 where it is taken away"),
		extra("an outer surface too", stack("stack", "outer = \"liner/bore\" # too\nterm = [{ feature = \"liner/bore\", times = 1 }, { feature = \"liner/bore\", times = -2 }]\n"), "# too", `check "reach"`,
			"a stack has terms, no outer surface", "take outer out, and name the surface among the terms"),
	})
}
