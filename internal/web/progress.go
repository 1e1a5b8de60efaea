package web

import (
	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// progressOf counts the seven stages from the machine's own records.
func progressOf(v *bench.View) []stage {
	m := v.Machine
	opened, away, built := 0, 0, 0
	for _, j := range m.Joints {
		if j.Opened > 0 || j.Left != "" {
			away++
		}
		if j.Opened > 0 {
			opened++
			if j.State == machine.Closed {
				built++
			}
		}
	}
	off, clean, called, judgeable := partCounts(m)
	read, checks := 0, 0
	for _, f := range v.Judged().List {
		if f.Check.When == machine.Running {
			continue
		}
		checks++
		if f.Verdict != judge.NotRead {
			read++
		}
	}
	arrived := 0
	for _, o := range m.Orders {
		if o.Received != nil {
			arrived++
		}
	}
	passed := 0
	for _, t := range m.Tests {
		if n := len(t.Runs); n > 0 && t.Runs[n-1].Passed {
			passed++
		}
	}
	return []stage{newStage("Strip", away, len(m.Joints)), newStage("Clean", clean, off), newStage("Measure", read, checks),
		newStage("Decide", called, judgeable), newStage("Parts in", arrived, len(m.Orders)),
		newStage("Build", built, opened), newStage("Prove", passed, len(m.Tests))}
}

// partCounts counts parts that came off, those cleaned, and of the parts that
// carry a check those that bear a word of the restorer.
func partCounts(m *machine.Machine) (off, clean, called, judgeable int) {
	carries := map[*machine.Part]bool{}
	for _, c := range m.Checks {
		for _, p := range c.Parts {
			carries[p] = true
		}
		for _, ft := range c.Surfaces() {
			carries[ft.Part] = true
		}
	}
	for _, p := range m.Parts {
		if p.Tray != "" || len(p.Cleaned) > 0 {
			off++
		}
		if len(p.Cleaned) > 0 {
			clean++
		}
		if carries[p] {
			judgeable++
			if p.Call != machine.NotJudged {
				called++
			}
		}
	}
	return off, clean, called, judgeable
}
