package cli

import (
	"fmt"
	"strings"

	"matchmark/internal/finding/heard"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

type hearCmd struct {
	Line  []string `arg:"" help:"What was said, such as \"4 M8x25 front cover, tray 14\"."`
	Joint string   `help:"The joint it is about, by its id, where the line may name another."`
}

// Run shows what is understood of a line. Nothing is kept.
func (c *hearCmd) Run(r *run) error {
	v, done, err := r.view()
	if err != nil {
		return err
	}
	defer done()
	line := strings.Join(c.Line, " ")
	var h heard.Heard
	if c.Joint == "" {
		h = v.Ear().Hear(line)
	} else {
		j := v.Machine.Joint(machine.JointID(c.Joint))
		if j == nil {
			return noJoint(c.Joint, v.Machine)
		}
		h = v.Ear().HearOf(line, j)
	}
	if r.json {
		return r.print(heardJSONOf(h))
	}
	r.tellHeard(h)
	return nil
}

// noJoint names joints that are spelled nearly so.
func noJoint(typed string, m *machine.Machine) error {
	var ids []string
	for _, j := range m.Joints {
		ids = append(ids, string(j.ID))
	}
	near := ""
	if list := spelling.Nearest(typed, ids); len(list) > 0 {
		near = " (near: " + strings.Join(list, ", ") + ")"
	}
	return fmt.Errorf("%q is no joint of this machine%s; `matchmark order` names them all", typed, near)
}

// tellHeard prints it in the words of the page.
func (r *run) tellHeard(h heard.Heard) {
	j := h.Joint()
	if j == nil {
		fmt.Fprintln(r.Out, "No joint is named for certain.")
	} else {
		fmt.Fprintf(r.Out, "%s (%s)\n", j.Name, j.ID)
	}
	for _, f := range h.Facts {
		fmt.Fprintln(r.Out, "  "+f.Text)
		if f.Doubt != "" {
			fmt.Fprintln(r.Out, "    "+f.Doubt)
		}
	}
	for _, p := range h.Off {
		fmt.Fprintln(r.Out, "  off: "+p.Name)
	}
	if left := h.Unheard(); len(left) > 0 {
		fmt.Fprintln(r.Out, "Not understood, kept in the note: "+strings.Join(left, ", "))
	}
	for _, c := range h.Joints {
		if c.Joint != j {
			fmt.Fprintf(r.Out, "Or %s (%s), weight %.2f\n", c.Joint.Name, c.Joint.ID, c.Weight)
		}
	}
}

type heardJSON struct {
	Line      string             `json:"line"`
	Joint     machine.JointID    `json:"joint,omitempty"`
	Joints    []meantJSON        `json:"joints"`
	None      float64            `json:"weightOfNone"`
	Facts     []factJSON         `json:"facts"`
	Fasteners []machine.Fastener `json:"fasteners,omitempty"`
	Shims     []machine.Shim     `json:"shims,omitempty"`
	Tray      string             `json:"tray,omitempty"`
	MatchMark string             `json:"matchMark,omitempty"`
	Breakaway *machine.Amount    `json:"breakaway,omitempty"`
	InTheWay  []machine.JointID  `json:"inTheWay,omitempty"`
	Off       []machine.PartID   `json:"off,omitempty"`
	Pieces    []pieceJSON        `json:"pieces"`
}

type meantJSON struct {
	Joint  machine.JointID `json:"joint"`
	Name   string          `json:"name"`
	Weight float64         `json:"weight"`
}

type factJSON struct {
	Sort  heard.Sort `json:"sort"`
	Text  string     `json:"text"`
	Doubt string     `json:"doubt,omitempty"`
	From  int        `json:"from"` // bytes of the line
	To    int        `json:"to"`
}

type pieceJSON struct {
	Text string     `json:"text"`
	Sort heard.Sort `json:"sort,omitempty"`
}

func heardJSONOf(h heard.Heard) heardJSON {
	out := heardJSON{Line: h.Line, Joints: []meantJSON{}, None: h.None, Facts: []factJSON{}, Fasteners: h.Fasteners, Shims: h.Shims,
		Tray: h.Tray, MatchMark: h.MatchMark, Breakaway: h.LetGo, Pieces: []pieceJSON{}}
	if j := h.Joint(); j != nil {
		out.Joint = j.ID
	}
	for _, c := range h.Joints {
		out.Joints = append(out.Joints, meantJSON{c.Joint.ID, c.Joint.Name, c.Weight})
	}
	for _, f := range h.Facts {
		out.Facts = append(out.Facts, factJSON{f.Sort, f.Text, f.Doubt, f.From, f.To})
	}
	for _, j := range h.Way {
		out.InTheWay = append(out.InTheWay, j.ID)
	}
	for _, p := range h.Off {
		out.Off = append(out.Off, p.ID)
	}
	for _, p := range h.Pieces {
		out.Pieces = append(out.Pieces, pieceJSON{h.Line[p.From:p.To], p.Sort})
	}
	return out
}
