package bench

import (
	"slices"
	"strings"
	"testing"

	"matchmark/internal/finding/caution"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/kit"
	"matchmark/internal/machine"
	"matchmark/internal/store"
)

// TestEveryHazardWordHasACaution walks the words a kit may write.
func TestEveryHazardWordHasACaution(t *testing.T) {
	for _, h := range kit.Hazards() {
		if c, ok := caution.Of(h); !ok {
			t.Errorf("hazard %q: %s", h, c.Text)
		}
	}
}

// TestEveryHazardOfTheKitsHasACaution walks all kits as written, with every
// choice, so that what a usual tractor leaves out is held too.
func TestEveryHazardOfTheKitsHasACaution(t *testing.T) {
	sheets, err := kit.Library()
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	held := func(what string, hazards []string) {
		for _, h := range hazards {
			n++
			if _, ok := caution.Of(h); !ok {
				t.Errorf("%s: hazard %q has no caution", what, h)
			}
		}
	}
	for _, s := range sheets {
		for _, p := range s.Parts {
			held(s.Name+" part "+p.ID, p.Hazards)
		}
		for _, j := range s.Joints {
			held(s.Name+" joint "+j.ID, j.Hazards)
		}
		for _, c := range s.Checks {
			held(s.Name+" check "+c.ID, c.Hazards)
		}
		for _, x := range s.Tests {
			held(s.Name+" test "+x.ID, x.Hazards)
		}
	}
	if n < 200 {
		t.Errorf("only %d hazards found in the kits: is the walk whole?", n)
	}
	t.Logf("%d hazards written in %d kits, each with its caution", n, len(sheets))
}

// danger tells, from what a step is about and not from its hazards, that it
// must carry one. Each is narrow: common practice, no source.
var danger = []struct {
	hazard string
	tells  func(s *sequence.Step) bool
}{
	{"lifting", func(s *sequence.Step) bool { return s.Joint != nil && openOrClose(s) && heaviest(s.Joint) >= 25 }},
	{"injection pressure", func(s *sequence.Step) bool {
		return s.Joint != nil && touches(s.Joint, "high pressure pipe", "nozzle and needle") && !strings.Contains(s.Name, "clamp")
	}},
	{"old lining dust", func(s *sequence.Step) bool { return s.Part != nil && touchesPart(s.Part, "brake shoe", "clutch disc") }},
	{"spring under load", func(s *sequence.Step) bool {
		return s.Joint != nil && openOrClose(s) && s.Joint.Sort == "spring-loaded"
	}},
	{"brake trial", func(s *sequence.Step) bool { return s.Test != nil && s.Test.System == "brakes" }},
	{"runaway engine", func(s *sequence.Step) bool { return s.Test != nil && s.Test.ID == "e10-start" }},
	{"pressure air", func(s *sequence.Step) bool { return s.Test != nil && s.Test.ID == "e06-leakdown" }},
	{"power take-off", func(s *sequence.Step) bool { return s.Test != nil && s.Test.System == "power take-off" }},
}

func touches(j *machine.Joint, words ...string) bool {
	return slices.ContainsFunc(j.Parts, func(p *machine.Part) bool { return touchesPart(p, words...) })
}

func touchesPart(p *machine.Part, words ...string) bool {
	name := strings.ToLower(p.Name)
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(name, w) })
}

func openOrClose(s *sequence.Step) bool {
	return slices.Contains([]sequence.Act{sequence.Open, sequence.Undo, sequence.Trial, sequence.Close}, s.Act)
}

// heaviest is the mass of the lighter side of a joint, kg: what is taken off.
func heaviest(j *machine.Joint) float64 {
	masses := []float64{}
	for _, p := range j.Parts {
		masses = append(masses, p.MassKg)
	}
	if len(masses) < 2 {
		return 0
	}
	return slices.Min(masses)
}

// owed gathers what a step's joint, parts, check and test say of hazards.
func owed(s *sequence.Step) []string {
	var out []string
	parts := func(list []*machine.Part) {
		for _, p := range list {
			out = append(out, p.Hazards...)
		}
	}
	switch {
	case s.Joint != nil:
		out = append(out, s.Joint.Hazards...)
		parts(s.Joint.Parts)
	case s.Check != nil:
		out = append(out, s.Check.Hazards...)
		parts(s.Check.Parts)
	case s.Part != nil:
		out = append(out, s.Part.Hazards...)
	case s.Test != nil:
		out = append(out, s.Test.Hazards...)
	}
	return out
}

// TestNoHazardousStepWithoutItsCaution walks every step of a whole tractor's
// plan: what its things say, and what it plainly is, must stand beside it.
func TestNoHazardousStepWithoutItsCaution(t *testing.T) {
	v := tractor(t, store.OpenMemory()).look(t)
	steps, with, told := 0, 0, map[string]int{}
	all := v.Plan().Steps
	for i := range all {
		s := &all[i]
		steps++
		shown := caution.For(s.Hazards, string(s.Act))
		has := func(h string) bool {
			return slices.ContainsFunc(shown, func(c caution.Caution) bool { return c.Hazard == h && c.Text != "" })
		}
		for _, h := range owed(s) {
			if !has(h) {
				t.Errorf("step %s: its things say %q and no caution stands with it", s.ID, h)
			}
		}
		for _, d := range danger {
			if d.tells(s) {
				told[d.hazard]++
				if !has(d.hazard) {
					t.Errorf("step %s (%s) is plainly %q and no caution stands with it", s.ID, s.Name, d.hazard)
				}
			}
		}
		if len(shown) > 0 {
			with++
		}
	}
	for _, d := range danger {
		if told[d.hazard] == 0 {
			t.Errorf("no step of the whole tractor is plainly %q: the walk has lost it", d.hazard)
		}
	}
	t.Logf("%d steps, %d with cautions; plainly dangerous by sort: %v", steps, with, told)
}

// TestEveryLifeGateIsInTheKits: each gate that the book promises is guarded
// by something of the kits.
func TestEveryLifeGateIsInTheKits(t *testing.T) {
	guards := map[string]string{
		"stop reaches zero fuel": "stop-zero", "rack free": "pump-rack-free", "starts only in neutral": "l04-interlock",
		"power take-off guard": "pto-guard-fitted", "protective frame": "rops-check", "brakes": "b01-brake", "steering": "s01-steer",
	}
	life := map[string]bool{}
	m := tractor(t, store.OpenMemory()).look(t).Machine
	for _, j := range m.Joints {
		life[string(j.Type)] = life[string(j.Type)] || j.Life
	}
	for _, c := range m.Checks {
		life[string(c.Type)] = life[string(c.Type)] || c.Life
	}
	for _, x := range m.Tests {
		life[string(x.ID)] = x.Life
	}
	for _, g := range caution.Gates() {
		if id := guards[g.Name]; !life[id] {
			t.Errorf("life gate %q: %q of the kits does not guard life", g.Name, id)
		}
	}
}

func (b *Bench) look(t *testing.T) *View {
	t.Helper()
	v, err := b.View(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return v
}
