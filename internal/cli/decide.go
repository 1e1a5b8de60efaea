package cli

import (
	"fmt"

	"matchmark/internal/bench"
	"matchmark/internal/finding/pairing"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
)

type decideCmd struct {
	Aim string `help:"What the set is judged by." enum:"cheapest,soonest,longest" default:"cheapest"`
}

// aims are the words of --aim.
var aims = map[string]remedy.Aim{"cheapest": remedy.Cheapest, "soonest": remedy.Soonest, "longest": remedy.LongestLived}

func (c *decideCmd) Run(r *run) error {
	v, done, err := r.view()
	if err != nil {
		return err
	}
	defer done()
	p := v.Choices(aims[c.Aim])
	moves := gains(v)
	if r.json {
		out := planJSONOf(p)
		out.Pairing = moves
		return r.print(out)
	}
	for _, says := range moves {
		fmt.Fprintf(r.Out, "first try, at no cost: %s\n", says)
	}
	if len(p.Choices) == 0 && len(p.Infeasible) == 0 {
		fmt.Fprintln(r.Out, "No failing check asks for a remedy.")
		return nil
	}
	fmt.Fprintf(r.Out, "%s set: %.2f bench hours' worth, %.0f days\n", c.Aim, p.Cost, p.Days)
	if p.Incomplete != "" {
		fmt.Fprintf(r.Out, "%s; no set can cost less than %.2f\n", p.Incomplete, p.Bound)
	}
	for _, j := range p.Jobs {
		size := ""
		if j.Step != 0 {
			size = fmt.Sprintf(", size %.2f mm", j.Step)
		}
		fmt.Fprintf(r.Out, "  %s%s: %.2f h, %.0f days, %s. For %v\n", j.Name, size, j.Cost, j.Days, j.Where, j.Serves)
		if j.Beware != "" {
			fmt.Fprintf(r.Out, "    mind: %s\n", j.Beware)
		}
	}
	for _, f := range p.Forced {
		fmt.Fprintf(r.Out, "  forced: %s\n", f.Says)
	}
	for _, f := range p.Flips {
		fmt.Fprintf(r.Out, "  flips: %s\n", f.Says)
	}
	for _, a := range p.Alternatives {
		fmt.Fprintf(r.Out, "  else: %s\n", a.Says)
	}
	for _, w := range p.IfWorn {
		fmt.Fprintf(r.Out, "  in doubt: %s\n", w.Says)
	}
	for _, x := range p.Infeasible {
		fmt.Fprintf(r.Out, "  no way: %s\n", x.Says)
	}
	return nil
}

// gains lists where like parts would fit better at one another's places.
func gains(v *bench.View) []string {
	var out []string
	for _, p := range pairing.Propose(v.Machine, v.Judged()) {
		if p.Moves > 0 {
			out = append(out, p.Says+" Limits: "+p.Limited+".")
		}
	}
	return out
}

type jobJSON struct {
	Remedy  string              `json:"remedy"`
	Name    string              `json:"name"`
	Where   string              `json:"where"`
	Cost    float64             `json:"costHours"`
	Days    float64             `json:"days"`
	Step    float64             `json:"stepMm,omitempty"`
	Serves  []machine.CheckID   `json:"serves"`
	Renews  []machine.PartID    `json:"renews,omitempty"`
	Reworks []machine.FeatureID `json:"reworks,omitempty"`
	Opens   []machine.CheckID   `json:"opens,omitempty"`
}

type decisionJSON struct {
	Aim        remedy.Aim `json:"aim"`
	Cost       float64    `json:"costHours"`
	Days       float64    `json:"days"`
	Jobs       []jobJSON  `json:"jobs"`
	Forced     []string   `json:"forced,omitempty"`
	Flips      []string   `json:"flips,omitempty"`
	Else       []string   `json:"alternatives,omitempty"`
	Doubt      []string   `json:"inDoubt,omitempty"`
	NoWay      []string   `json:"noWay,omitempty"`
	Pairing    []string   `json:"pairing,omitempty"`
	Proved     bool       `json:"proved"`
	Incomplete string     `json:"incomplete,omitempty"`
	Bound      float64    `json:"boundHours"`
}

func planJSONOf(p remedy.Plan) decisionJSON {
	out := decisionJSON{Aim: p.Aim, Cost: p.Cost, Days: p.Days, Jobs: []jobJSON{}, Proved: p.Proved, Incomplete: p.Incomplete, Bound: p.Bound}
	for _, j := range p.Jobs {
		out.Jobs = append(out.Jobs, jobJSON{j.Remedy, j.Name, j.Where, j.Cost, j.Days, j.Step, j.Serves, j.Renews, j.Reworks, j.Opens})
	}
	for _, f := range p.Forced {
		out.Forced = append(out.Forced, f.Says)
	}
	for _, f := range p.Flips {
		out.Flips = append(out.Flips, f.Says)
	}
	for _, a := range p.Alternatives {
		out.Else = append(out.Else, a.Says)
	}
	for _, w := range p.IfWorn {
		out.Doubt = append(out.Doubt, w.Says)
	}
	for _, x := range p.Infeasible {
		out.NoWay = append(out.NoWay, x.Says)
	}
	return out
}
