package cli

import (
	"fmt"
	"strings"

	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
)

type orderCmd struct {
	First int `help:"Only the first N steps." placeholder:"N"`
}

func (c *orderCmd) Run(r *run) error {
	v, done, err := r.view()
	if err != nil {
		return err
	}
	defer done()
	p := v.Plan()
	steps := p.Order
	if c.First > 0 && len(steps) > c.First {
		steps = steps[:c.First]
	}
	if r.json {
		return r.print(struct {
			Steps          []stepJSON `json:"steps"`
			Stuck          []stepJSON `json:"stuck"`
			Contradictions []string   `json:"contradictions"`
			Claims         string     `json:"claims"`
		}{stepsJSON(steps), stepsJSON(p.Stuck), contradictions(p), "consistent with the record"})
	}
	for i, s := range steps {
		fmt.Fprintf(r.Out, "%4d  %-34s %s\n", i+1, s.ID, s.Name)
	}
	for _, s := range p.Stuck {
		fmt.Fprintf(r.Out, "stuck %-34s %s\n", s.ID, s.Name)
	}
	for _, words := range contradictions(p) {
		fmt.Fprintln(r.Out, "\nThe record contradicts itself.", words)
	}
	return nil
}

func contradictions(p *sequence.Plan) []string {
	out := []string{}
	for _, c := range p.Contradictions {
		out = append(out, strings.TrimSpace(c.Words+" "+c.Ask))
	}
	return out
}

type nextCmd struct {
	First int `help:"Only the first N of each; JSON has them all." placeholder:"N" default:"20"`
}

func (c *nextCmd) Run(r *run) error {
	v, done, err := r.view()
	if err != nil {
		return err
	}
	defer done()
	p := v.Plan()
	if r.json {
		held := []holdJSON{}
		for _, h := range p.Held {
			held = append(held, holdJSONOf(h))
		}
		return r.print(struct {
			Free           []stepJSON `json:"free"`
			Held           []holdJSON `json:"held"`
			Contradictions []string   `json:"contradictions"`
		}{stepsJSON(p.Free), held, contradictions(p)})
	}
	fmt.Fprintf(r.Out, "%s free now\n", plural(len(p.Free), "step", "steps"))
	for _, s := range p.Free[:min(c.First, len(p.Free))] {
		fmt.Fprintf(r.Out, "  %-34s %s\n", s.ID, s.Name)
	}
	more(r, len(p.Free)-c.First)
	fmt.Fprintf(r.Out, "%s held\n", plural(len(p.Held), "closing", "closings"))
	for _, h := range p.Held[:min(c.First, len(p.Held))] {
		fmt.Fprintf(r.Out, "  %-34s %s\n", h.Step, h.Why)
	}
	more(r, len(p.Held)-c.First)
	for _, words := range contradictions(p) {
		fmt.Fprintln(r.Out, "The record contradicts itself.", words)
	}
	return nil
}

func more(r *run, n int) {
	if n > 0 {
		fmt.Fprintf(r.Out, "  and %d more; --first shows them\n", n)
	}
}

type whyCmd struct {
	Step string `arg:"" help:"A step, such as close:sump-block; matchmark order lists them."`
}

func (c *whyCmd) Run(r *run) error {
	v, done, err := r.view()
	if err != nil {
		return err
	}
	defer done()
	p := v.Plan()
	if _, ok := p.Step(sequence.StepID(c.Step)); !ok {
		return fmt.Errorf("%q is no step of this machine%s; `matchmark order` lists them", c.Step, nearSteps(p, c.Step))
	}
	b := p.Blocked(sequence.StepID(c.Step))
	if r.json {
		out := blockJSON{Step: stepJSONOf(b.Step), Needs: []needJSON{}, Hours: b.Hours, Exact: b.Exact, Least: b.Least, Never: b.Never, Words: b.Words}
		for _, n := range b.Needs {
			out.Needs = append(out.Needs, needJSON{stepJSONOf(n.Step), n.Why.Words, n.Why.Source, n.Why.Certainty})
		}
		return r.print(out)
	}
	fmt.Fprintln(r.Out, b.Words)
	for i, n := range b.Needs {
		fmt.Fprintf(r.Out, "%4d  %-34s %s\n", i+1, n.Step.ID, n.Step.Name)
		fmt.Fprintf(r.Out, "      because: %s\n", n.Why.Words)
	}
	return nil
}

// nearSteps offers steps that hold the word typed.
func nearSteps(p *sequence.Plan, typed string) string {
	_, word, _ := strings.Cut(typed, ":")
	if word == "" {
		word = typed
	}
	var near []string
	for _, s := range p.Steps {
		if strings.Contains(string(s.ID), word) && len(near) < 3 {
			near = append(near, string(s.ID))
		}
	}
	if len(near) == 0 {
		return ""
	}
	return " (near: " + strings.Join(near, ", ") + ")"
}

type stepJSON struct {
	ID       sequence.StepID    `json:"id"`
	Act      sequence.Act       `json:"act"`
	Name     string             `json:"name"`
	Assembly machine.AssemblyID `json:"assembly,omitempty"`
	Hours    float64            `json:"hours,omitempty"`
	Hazards  []string           `json:"hazards,omitempty"`
	Bench    string             `json:"bench,omitempty"`
}

func stepJSONOf(s *sequence.Step) stepJSON {
	return stepJSON{s.ID, s.Act, s.Name, s.Assembly, s.Hours, s.Hazards, s.Bench}
}

func stepsJSON(steps []*sequence.Step) []stepJSON {
	out := []stepJSON{}
	for _, s := range steps {
		out = append(out, stepJSONOf(s))
	}
	return out
}

type holdJSON struct {
	Step    sequence.StepID `json:"step"`
	Joint   machine.JointID `json:"joint"`
	Check   machine.CheckID `json:"check,omitempty"`
	Verdict string          `json:"verdict,omitempty"`
	Life    bool            `json:"guardsLife,omitempty"`
	Why     string          `json:"why"`
	Hours   float64         `json:"hoursToReopen"`
}

func holdJSONOf(h sequence.Hold) holdJSON {
	out := holdJSON{Step: h.Step, Joint: h.Joint.ID, Verdict: string(h.Verdict), Life: h.Life, Why: h.Why, Hours: h.Hours}
	if h.Check != nil {
		out.Check = h.Check.ID
	}
	return out
}

type needJSON struct {
	Step      stepJSON           `json:"step"`
	Because   string             `json:"because"`
	Source    string             `json:"source"`
	Certainty sequence.Certainty `json:"certainty"`
}

type blockJSON struct {
	Step  stepJSON   `json:"step"`
	Needs []needJSON `json:"needs"`
	Hours float64    `json:"hours"`
	Exact bool       `json:"exact"`
	Least int        `json:"least"`
	Never bool       `json:"never"`
	Words string     `json:"words"`
}
