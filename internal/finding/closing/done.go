package closing

import (
	"fmt"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// Done is what was really done, as last written.
type Done struct {
	machine.Closing
	Says []string // torque against what is advised, shims, sealant
	Over bool     // the torque is more than anything here allows
}

// doneOf holds the last closing against what was advised and found.
func doneOf(s Sheet) *Done {
	n := len(s.Joint.Closings)
	if n == 0 {
		return nil
	}
	d := &Done{Closing: s.Joint.Closings[n-1]}
	how := "Closed for good"
	if d.As == machine.Trial {
		how = "Built dry"
	}
	d.Says = append(d.Says, how+when(d.Stamp)+behind(" by ", d.By)+".")
	if d.Torque != nil {
		d.Says = append(d.Says, d.torque(*d.Torque, s))
	}
	if len(d.Shims) > 0 {
		d.Says = append(d.Says, fmt.Sprintf("Shims %.2f mm.", thickness(d.Shims)))
	}
	if d.Sealant != "" {
		d.Says = append(d.Says, spelling.Head(d.Sealant)+".")
	}
	return d
}

// proviso keeps a class that has to be read on the head from counting without.
func (q Torque) proviso() string {
	if !strings.Contains(q.If, "the head reads") {
		return ""
	}
	return "; that counts only where " + strings.TrimPrefix(strings.TrimSuffix(q.If, ", usual here"), "only if ")
}

// torque says how a torque lies to the paper, else to the ranges, else to what
// was found, else to the ranges of a deep thread. Over is set where it is above all of them.
func (d *Done) torque(a machine.Amount, s Sheet) string {
	text := "Tightened to " + nm(a.Value) + " N·m"
	if a.Typed != "" && a.Typed != nm(a.Value) {
		text += " (" + a.Typed + ")"
	}
	if s.Paper != nil && s.Paper.Rules {
		return fmt.Sprintf("%s; the paper says %s N·m.", text, nm(s.Paper.NM))
	}
	list := ranges(s.Tightening)
	for _, q := range list {
		if a.Value >= q.LowNM && a.Value <= q.HighNM {
			return fmt.Sprintf("%s, within the range of class %s (%s to %s)%s.", text, q.Class, nm(q.LowNM), floored(q.HighNM), q.proviso())
		}
	}
	for _, f := range s.Found {
		if a.Value >= f.Low && a.Value <= f.High {
			return fmt.Sprintf("%s, about what it had when it came undone (%s to %s).", text, nm(f.Low), nm(f.High))
		}
	}
	for _, q := range list {
		if q.Deep != nil && a.Value >= q.Deep.LowNM && a.Value <= q.Deep.HighNM {
			return fmt.Sprintf("%s, within the range of class %s where the thread bites %.0f mm (%s to %s)%s.", text, q.Class, q.Deep.MM, nm(q.Deep.LowNM), floored(q.Deep.HighNM), q.proviso())
		}
	}
	if n := len(list); n > 0 && a.Value > list[n-1].most() {
		d.Over = true
		return fmt.Sprintf("%s: more than anything worked out here allows (%s). Read the head marks; renew the bolts if they do not bear it out.", text, floored(list[n-1].most()))
	}
	if len(list) > 0 {
		text += ", outside the ranges worked out for the classes it may be of"
	}
	return text + "."
}
