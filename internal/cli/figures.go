package cli

import (
	"fmt"
	"io"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// figuresJSON sums a machine up.
type figuresJSON struct {
	ID        machine.MachineID     `json:"id"`
	Name      string                `json:"name"`
	Parts     int                   `json:"parts"`
	Pieces    int                   `json:"pieces"`
	Joints    int                   `json:"joints"`
	Open      int                   `json:"jointsOpen"`
	Checks    int                   `json:"checks"`
	Verdicts  map[judge.Verdict]int `json:"verdicts"`
	Failing   int                   `json:"checksFailing"`
	Free      int                   `json:"stepsFree"`
	Held      int                   `json:"stepsHeld"`
	Questions int                   `json:"questions"`
	Entries   int                   `json:"entries"`
}

func figuresOf(v *bench.View) figuresJSON {
	m := v.Machine
	s := figuresJSON{ID: v.ID, Name: m.Name, Parts: len(m.Parts), Joints: len(m.Joints), Checks: len(m.Checks),
		Verdicts: map[judge.Verdict]int{}, Questions: len(m.Questions), Entries: m.Entries}
	for _, p := range m.Parts {
		s.Pieces += p.Qty
	}
	for _, j := range m.Joints {
		if j.State == machine.Open || j.State == machine.OnTrial {
			s.Open++
		}
	}
	for _, f := range v.Judged().List {
		s.Verdicts[f.Verdict]++
	}
	s.Failing = s.Verdicts[judge.Worn]
	s.Free, s.Held = len(v.Plan().Free), len(v.Plan().Held)
	return s
}

func (s figuresJSON) write(w io.Writer) {
	fmt.Fprintf(w, "parts %d (%d pieces), joints %d (%d open), checks %d\n", s.Parts, s.Pieces, s.Joints, s.Open, s.Checks)
	fmt.Fprintf(w, "failing checks %d, doubtful %d, not read %d\n", s.Failing, s.Verdicts[judge.Doubtful], s.Verdicts[judge.NotRead])
	fmt.Fprintf(w, "steps free now %d, held %d\n", s.Free, s.Held)
	fmt.Fprintf(w, "entries %d, questions %d\n", s.Entries, s.Questions)
}
