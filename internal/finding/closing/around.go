package closing

import (
	"errors"
	"fmt"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/fastener"
	"matchmark/internal/trade/spelling"
)

// Pattern is the order of a field of bolts with their places, to be drawn.
type Pattern struct {
	Layout    string
	Bolts     []fastener.Bolt
	Order     []int
	Say       string // 1-4-2-5-3-6
	Stages    []fastener.Stage
	Loosening []fastener.Stage
}

// field is a layout with the number of bolts in it.
type field struct {
	layout string
	n      int
}

// Crosswise is the order where nobody knows how the bolts lie.
const Crosswise = "Crosswise from the middle outward, in three steps, then once more round."

// around gives the pattern of a joint, and the order in words: the kit's own,
// and the rule where there is no picture. The number that came out rules; a
// layout that it does not fit draws nothing.
func (d *Desk) around(j *machine.Joint, n int) (*Pattern, []string) {
	words := parted(j.Plan.Tighten)
	if j.Sort != "bolted" {
		return nil, words
	}
	p, why := d.pattern(j.Plan.Layout, n)
	switch {
	case p != nil:
		return p, words
	case why != "":
		words = append(words, why)
	}
	switch {
	case n == 1:
		return nil, words
	case n == 2:
		return nil, append(words, "Turn about, in three steps.")
	}
	return nil, append(words, Crosswise)
}

// pattern orders a layout once; nil with the reason, or with none where there
// is no layout.
func (d *Desk) pattern(layout string, n int) (*Pattern, string) {
	if layout == "" {
		return nil, ""
	}
	key := field{layout, n}
	if p, ok := d.patterns[key]; ok {
		return p, ""
	}
	l, err := fastener.ParseLayout(layout)
	if err != nil {
		return nil, spelling.Head(err.Error()) + "."
	}
	bolts, err := l.Bolts(n)
	var count fastener.CountError
	if errors.As(err, &count) && n > 0 {
		return nil, fmt.Sprintf("%d came out, which does not fill the usual layout (%s): mark their places on a card.", n, layout)
	}
	if err != nil {
		return nil, ""
	}
	order, err := fastener.PatternOf(bolts, fastener.Rules{})
	if err != nil {
		return nil, spelling.Head(err.Error()) + "."
	}
	p := &Pattern{Layout: layout, Bolts: bolts, Order: order.Order, Say: order.String(), Stages: order.Stages, Loosening: order.Loosening()}
	d.patterns[key] = p
	return p, ""
}

// among orders joints of one kind that are tightened together, such as the
// caps of the mains: from the middle outward where the kit says so, by the rule
// for bolts in a line.
func (d *Desk) among(j *machine.Joint) []machine.JointID {
	if j.Place == "" || !strings.Contains(strings.ToLower(j.Plan.Tighten), "centre out") {
		return nil
	}
	var like []machine.JointID
	for _, k := range d.m.Joints {
		if k.Type == j.Type {
			like = append(like, k.ID)
		}
	}
	p, _ := d.pattern(fmt.Sprintf("rows 1x%d", len(like)), len(like))
	if p == nil {
		return nil
	}
	out := make([]machine.JointID, 0, len(like))
	for _, n := range p.Order {
		out = append(out, like[n-1])
	}
	return out
}
