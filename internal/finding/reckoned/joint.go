package reckoned

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/fastener"
)

// joint is what a joint gives: what came out of it, else what its kit names.
func (d *Desk) joint(kind string, id machine.JointID) value {
	j := d.m.Joint(id)
	switch {
	case j == nil:
		return want("joint %q is not on this machine", id)
	case kind == machine.FromThread:
		return d.thread(j)
	case kind == machine.FromGrade:
		return grade(j)
	case kind == machine.FromPack:
		return pack(j)
	}
	return shims(j)
}

// thread is that of the bolts that came out of a joint last, else the one its
// kit names, where that is one.
func (d *Desk) thread(j *machine.Joint) value {
	for _, r := range slices.Backward(j.Removals) {
		for _, f := range r.Fasteners {
			if name, ok := d.named(f.Size); ok {
				return value{text: name, from: j.Name + ", as it came out"}
			}
		}
	}
	usual := j.Plan.Thread
	if usual == "" || strings.Contains(usual, " or ") {
		if usual != "" {
			usual = "; usual here: " + usual
		}
		return want("write the size of the bolts of “%s” when it comes apart%s", j.Name, usual)
	}
	return value{text: usual, from: j.Name + ", " + fromKit + ": measure it"}
}

// named reads the thread off a fastener's size: "M10x1.25x60".
func (d *Desk) named(size string) (string, bool) {
	if d.threads == nil {
		list, err := fastener.Threads()
		if err != nil {
			return "", false
		}
		d.threads = &list
	}
	s, err := d.threads.Size(size)
	return s.Thread.Designation, err == nil && s.Thread.D > 0
}

func grade(j *machine.Joint) value {
	if j.Plan.Grade == "" {
		return want("read the mark on the bolt heads of “%s”", j.Name)
	}
	return value{text: j.Plan.Grade, from: j.Name + ", " + fromKit + ": the mark on the head rules"}
}

// found lists the shims of the latest opening that wrote any.
func found(j *machine.Joint) []machine.Shim {
	for _, r := range slices.Backward(j.Removals) {
		var list []machine.Shim
		for _, s := range r.Shims {
			if s.ThicknessMM > 0 && s.Count > 0 {
				list = append(list, s)
			}
		}
		if len(list) > 0 {
			return list
		}
	}
	return nil
}

// shims are those found, one by one; pack is how thick they are together.
func shims(j *machine.Joint) value {
	var list []string
	for _, s := range found(j) {
		list = append(list, fmt.Sprintf("%s x %d", shown(s.ThicknessMM, "mm"), s.Count))
	}
	if len(list) == 0 {
		return want("measure the shims of “%s” one by one when it comes apart", j.Name)
	}
	slices.Sort(list)
	return value{text: strings.Join(list, "; "), from: j.Name + ", shims as they came out"}
}

func pack(j *machine.Joint) value {
	var mm float64
	for _, s := range found(j) {
		mm += s.ThicknessMM * float64(s.Count)
	}
	if mm == 0 {
		return want("measure the shims of “%s” one by one when it comes apart", j.Name)
	}
	return value{text: shown(mm, "mm"), from: j.Name + ", all shims as they came out"}
}
