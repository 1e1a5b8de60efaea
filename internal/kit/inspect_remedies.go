package kit

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// remedies looks at the ways to make a worn check good.
func (c *checker) remedies(it item, k Check) {
	var seen []string
	for i, r := range k.Remedies {
		rem := it.within("remedy", i, "remedy "+quote(r.Key))
		c.letters(rem, "key", r.Key)
		if slices.Contains(seen, r.Key) {
			c.fault(rem, "key", "this check has another remedy with this key", "give one of them another key")
		}
		seen = append(seen, r.Key)
		c.named(rem, "name", r.Name)
		c.word(rem, "where", r.Where, Wheres())
		c.notBelow(rem, "cost_hours", r.Cost)
		c.notBelow(rem, "days", r.Days)
		if r.Odds < 0 || r.Odds > 1 {
			c.fault(rem, "odds", fmt.Sprintf("odds are %g", r.Odds), "write a chance from 0 to 1: 0.25 is one in four")
		}
		c.steps(rem, r)
		c.each(rem, "renews", aPart, r.Renews)
		for n, id := range r.Reworks {
			c.surfaceAt(rem, k, at("reworks", n), id, true)
		}
		c.each(rem, "mends", aCheck, r.Mends)
		c.each(rem, "opens", aCheck, r.Opens)
		for n, sh := range r.Shifts {
			c.known(rem, at("shift", n)+".check", aCheck, sh.Check)
		}
	}
}

// steps wants the sizes of a remedy above zero and rising.
func (c *checker) steps(rem item, r Remedy) {
	for i, v := range r.Steps {
		if v <= 0 || i > 0 && v <= r.Steps[i-1] {
			c.fault(rem, at("sizes_mm", i), fmt.Sprintf("size %g does not rise", v), "write the sizes in mm on diameter from nominal, the smallest first: [0.25, 0.50]")
			return
		}
	}
	if r.Group != "" && cleanID(r.Group) != r.Group {
		c.letters(rem, "size_group", r.Group)
	}
	if r.Group != "" && len(r.Steps) == 0 {
		c.fault(rem, "size_group", "it shares a size with others, but has no sizes", "write sizes_mm = [0.25, 0.50], or take size_group out")
	}
}

// tests looks at the tests of the proving stage.
func (c *checker) tests(s *Sheet) {
	for i, t := range s.Tests {
		it := c.item(s, aTest, i, t.ID)
		c.named(it, "name", t.Name)
		c.named(it, "system", t.System)
		c.named(it, "do", t.Do)
		c.named(it, "pass", t.Pass)
		c.only(it, t.Only)
		c.each(it, "needs", aTest, t.Needs)
		for n, id := range t.Points {
			c.pointed(it, at("points_to", n), id)
		}
		c.provenance(it, t.From)
		c.hazards(it, t.Hazards)
		c.missingHazards(it, t.Hazards, t.Name, t.Do)
		c.reckonings(it, t.Reckon)
		if strings.TrimSpace(t.Caution) == "" && engineTurns(strings.ToLower(t.Name+". "+t.Do)) {
			c.fault(it, "caution", "the engine turns or the machine moves, and there is no caution", `write caution = "…"`)
		}
	}
}

// testCircles names the tests that wait for one another.
func (c *checker) testCircles() {
	waits := map[string]*Joint{}
	for id, it := range c.index.first[aTest] {
		waits[id] = &Joint{ID: id, Behind: slices.DeleteFunc(slices.Clone(it.sheet.Tests[it.at].Needs), func(n string) bool { return n == id })}
		if slices.Contains(it.sheet.Tests[it.at].Needs, id) {
			c.fault(it, "needs", "the test needs itself", "take it out here")
		}
	}
	shut := stuck(waits)
	told := map[string]bool{}
	for _, id := range slices.Sorted(maps.Keys(shut)) {
		ring := circle(shut, id)
		if key := strings.Join(ring, " "); !told[key] {
			told[key] = true
			c.fault(c.index.first[aTest][ring[0]], "needs", "a circle: "+ringWords(ring, "needs"), "take one of these out of needs")
		}
	}
}

// cleaning looks at what may touch a material.
func (c *checker) cleaning(s *Sheet) {
	for i, v := range s.Cleaning {
		it := c.item(s, aCleaning, i, v.ID)
		c.each(it, "for", aPart, v.For)
		if len(v.Permitted)+len(v.Forbidden) == 0 {
			c.fault(it, "permitted", "it permits nothing and forbids nothing", "write permitted, or [[cleaning.forbidden]]")
		}
		for n, f := range v.Forbidden {
			no := it.within("forbidden", n, fmt.Sprintf("forbidden %d", n+1))
			c.named(no, "what", f.What)
			c.named(no, "why", f.Why)
		}
	}
}

// symptoms looks at symptoms and their suspects.
func (c *checker) symptoms(s *Sheet) {
	for i, v := range s.Symptoms {
		it := c.item(s, aSymptom, i, v.ID)
		c.named(it, "text", v.Text)
		if len(v.Suspects) == 0 {
			c.fault(it, "id", "it has no suspect", "add [[symptom.suspect]]")
		}
		for n, sus := range v.Suspects {
			in := it.within("suspect", n, fmt.Sprintf("suspect %d", n+1))
			c.pointed(in, "of", sus.Of)
			if sus.Weight <= 0 {
				c.fault(in, "weight", fmt.Sprintf("weight is %g", sus.Weight), "write how likely it is against the others, above 0")
			}
		}
	}
}
