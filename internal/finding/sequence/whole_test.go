package sequence

import (
	"testing"

	"matchmark/internal/kit"
	"matchmark/internal/machine"
)

// The whole tractor of the kits, untouched, then stripped, checked, built back
// and proved in the plan's order, a new plan every few steps: no contradiction
// in the kits, no closing offered over an open check, nothing left at the end.
func TestWholeTractorGoesTogetherAgain(t *testing.T) {
	sheets, take, err := kit.Whole()
	if err != nil {
		t.Fatal(err)
	}
	bodies, _, err := kit.Expand(sheets, take)
	if err != nil {
		t.Fatal(err)
	}
	b := new(book).write(bodies...)
	first := b.plan()
	t.Logf("%d joints, %d steps, %d rules; benches at first: %d", len(b.fold().Joints), first.todo, len(first.rules), len(first.Benches))
	for round := 0; ; round++ {
		m := b.fold()
		p := Make(m, looks{m})
		for _, c := range p.Contradictions {
			t.Error(c.Words)
		}
		for _, br := range p.Breaches {
			t.Errorf("breach: %s", br.Why)
		}
		for _, s := range p.Free {
			if s.Act == Close {
				if c := overOpen(m, looks{m}, s.Joint); c != nil {
					t.Errorf("%s is offered over open check %s", s.ID, c.ID)
				}
			}
		}
		if p.todo == 0 || t.Failed() {
			break
		}
		if round > first.todo {
			t.Fatalf("no end: %v", ids(p.Order))
		}
		for _, s := range p.Order[:min(60, len(p.Order))] {
			b.do(s)
		}
	}
	for _, j := range b.fold().Joints {
		if j.State != machine.Closed {
			t.Errorf("%s is %s at the end", j.Name, j.State)
		}
	}
}
