package sequence

import (
	"slices"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// writeCleaning gives a cleaning step to every part that is off, or will come
// off, and is measured, has passages or has a cleaning rule of its own. It is
// left out once a joint of the part has been closed again, dry or for good:
// the part went back as it was.
func (d *draft) writeCleaning() {
	wanted := d.toBeCleaned()
	for _, p := range d.m.Parts {
		if !wanted[p] {
			continue
		}
		s := Step{ID: CleanID(p.ID), Act: Clean, Name: "Clean " + spelling.Inside(p.Name), Assembly: p.Assembly, Part: p,
			Hours: d.hours.clean(p), Hazards: p.Hazards}
		if len(p.Cleaned) > 0 {
			s.Done = true
			d.add(s)
			continue
		}
		var ways [][]int
		off, back := p.Tray != "", false
		for _, j := range p.Joints {
			if n, ok := d.wayIn(j); ok && !isTrial(j) {
				ways = append(ways, []int{n})
				off = true
			}
			back = back || isTrial(j) || j.State == machine.Closed
		}
		if !off || back {
			continue
		}
		step := d.add(s)
		if p.Tray == "" {
			d.after(step, ways, process("it is cleaned off the machine"))
		}
		d.beforeClosings(step, []*machine.Part{p}, "parts go back clean")
	}
}

// toBeCleaned are the parts with features, passages or a cleaning rule.
func (d *draft) toBeCleaned() map[*machine.Part]bool {
	wanted := map[*machine.Part]bool{}
	named := map[machine.PartID]bool{}
	for _, rule := range d.m.Cleaning {
		for _, typ := range rule.For {
			named[typ] = true
		}
	}
	for _, p := range d.m.Parts {
		wanted[p] = len(p.Features) > 0 || named[p.Type]
	}
	for _, c := range d.m.Checks {
		if c.By == machine.ByPassage {
			for _, p := range c.Parts {
				wanted[p] = true
			}
		}
	}
	return wanted
}

// writeOrders gives every order a step to collect it, before its parts go back
// and before any work on what is away.
func (d *draft) writeOrders() {
	for _, o := range d.m.Orders {
		step := d.add(Step{ID: CollectID(o.Order), Act: Collect, Name: "Collect " + o.What, Order: o, Done: o.Received != nil})
		if step < 0 {
			continue
		}
		var parts []*machine.Part
		for _, id := range o.Parts {
			if p := d.m.Part(id); p != nil {
				parts = append(parts, p)
			}
		}
		d.steps[step].Assembly = assemblyOf(parts)
		d.beforeClosings(step, parts, "it has not come yet")
		d.awaiting(step, o, parts)
	}
}

func assemblyOf(parts []*machine.Part) machine.AssemblyID {
	if len(parts) == 0 {
		return ""
	}
	return parts[0].Assembly
}

// awaiting: a remedy waits for the parts ordered for it, or sent out for it;
// what is away can be neither cleaned nor checked apart.
func (d *draft) awaiting(step int, o *machine.Order, parts []*machine.Part) {
	shares := func(list []*machine.Part) bool {
		return slices.ContainsFunc(list, func(p *machine.Part) bool { return slices.Contains(parts, p) })
	}
	why := process("it has not come yet")
	for _, jb := range d.jobs {
		if shares(jb.parts) {
			d.after(jb.step, [][]int{{step}}, why)
		}
	}
	if !o.Out {
		return
	}
	for i := range d.steps {
		if s := &d.steps[i]; s.Act == Clean && slices.Contains(parts, s.Part) {
			d.after(i, [][]int{{step}}, why)
		}
	}
	for _, c := range d.m.Checks {
		if n := d.checks[c.Number()].step; n >= 0 && c.When == machine.Apart && shares(partsOf(c)) {
			d.after(n, [][]int{{step}}, why)
		}
	}
}
