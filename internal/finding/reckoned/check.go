package reckoned

import (
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/quantity"
)

// reading is the latest figure of a check that is read directly, else the one
// that is worked out from its surfaces; sign is 1, or -1 to turn it.
func (d *Desk) reading(id machine.CheckID, sign float64) value {
	c := d.m.Check(id)
	if c == nil {
		return want("check %q is not on this machine", id)
	}
	if c.By == machine.ByReading {
		list := c.Current()
		if len(list) == 0 {
			return want("read “%s”%s", c.Name, in(c.Unit))
		}
		v, unit := inUnit(list[len(list)-1].Amount, c.Unit)
		return value{text: shown(sign*v, unit), from: c.Name + ", as read last"}
	}
	f := d.verdict(c)
	if f == nil || f.Verdict == judge.NotRead {
		return want("measure the surfaces of “%s”", c.Name)
	}
	return value{text: shown(sign*f.Value, c.Unit), from: c.Name + ", worked out from what was read"}
}

// repeats lists the present figures of a check that is read directly. One
// reading of several wanted does not yet tell how far they part.
func (d *Desk) repeats(id machine.CheckID) value {
	c := d.m.Check(id)
	if c == nil {
		return want("check %q is not on this machine", id)
	}
	var list []string
	for _, r := range c.Current() {
		v, unit := inUnit(r.Amount, c.Unit)
		list = append(list, shown(v, unit))
	}
	if len(list) < max(c.Repeats, 1) {
		return want("read “%s”%s, %d of %d times so far", c.Name, in(c.Unit), len(list), max(c.Repeats, 1))
	}
	return value{text: strings.Join(list, "; "), from: c.Name + ", as read"}
}

// tight is how far a clearance lies below nothing; with play it is not known
// how tight the parts will be made.
func (d *Desk) tight(id machine.CheckID) value {
	v := d.reading(id, -1)
	if strings.HasPrefix(v.text, "-") {
		return want("“%s” has play as read, so it is not tight; read it again or make the parts good", d.m.Check(id).Name)
	}
	return v
}

// every lists the figures of a check of all places.
func (d *Desk) every(typ machine.CheckID) value {
	var list []string
	var out value
	for _, c := range d.m.Checks {
		if c.Type != typ {
			continue
		}
		one := d.reading(c.ID, 1)
		list = append(list, one.text)
		out.wants = append(out.wants, one.wants...)
		out.from = "as read at every place, " + c.Name + " the last"
	}
	if len(list) == 0 {
		return want("check %q is not on this machine", typ)
	}
	out.text = strings.Join(list, "; ")
	return out
}

// verdict is the finding on a check, made once.
func (d *Desk) verdict(c *machine.Check) *judge.Finding {
	if f := d.judged.Of(c.ID); f != nil {
		return f
	}
	f, known := d.judging[c.ID]
	if !known {
		f = judge.One(d.m, c)
		d.judging[c.ID] = f
	}
	return f
}

// inUnit is a figure in the unit of its check; where the two do not go together
// it keeps its own, so that the topic sees it and refuses it.
func inUnit(a machine.Amount, unit string) (float64, string) {
	if a.Unit == unit || bare(a.Unit) || bare(unit) {
		return a.Value, a.Unit
	}
	q, err := quantity.Parse("1 "+unit, quantity.AnyDimension, "")
	if err != nil {
		return a.Value, a.Unit
	}
	v, err := quantity.Convert(a.Value, q.Dim, a.Unit, unit)
	if err != nil {
		return a.Value, a.Unit
	}
	return v, unit
}
