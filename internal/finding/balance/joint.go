package balance

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"matchmark/internal/machine"
)

// JointLine is one joint that was opened: what came out of it in its present
// round, and what went in when it was last closed for good.
type JointLine struct {
	Joint     *machine.Joint
	Fasteners []FastenerLine // by size
	ShimsOut  float64        // thickness, mm
	ShimsIn   float64        // mm; may differ on purpose
	Written   bool           // fasteners were written both out and in, or none came out
	Words     string
}

// FastenerLine is one size of fastener of a joint. Get counts those that were
// missing, broken or otherwise unfit when it was opened, to be got new.
type FastenerLine struct {
	Size string
	Out  int // that belong: came out, or were missing already
	In   int
	Get  int
}

// jointLine balances the last round of a joint. Only a joint closed for good
// can be short: before that everything is simply out.
func jointLine(j *machine.Joint) JointLine {
	out, shimsOut := cameOut(j)
	l := JointLine{Joint: j, ShimsOut: thickness(shimsOut)}
	sizes := map[string]*FastenerLine{}
	at := func(size string) *FastenerLine {
		if sizes[size] == nil {
			sizes[size] = &FastenerLine{Size: size}
		}
		return sizes[size]
	}
	for _, f := range out {
		at(f.Size).Out += f.Count
		if f.State != "" {
			at(f.Size).Get += f.Count
		}
	}
	var in []machine.Fastener
	if j.State == machine.Closed && len(j.Closings) > 0 {
		last := j.Closings[len(j.Closings)-1]
		in = last.Fasteners
		l.ShimsIn = thickness(last.Shims)
	}
	for _, f := range in {
		at(f.Size).In += f.Count
	}
	l.Written = len(out) == 0 || len(in) > 0
	for _, f := range sizes {
		l.Fasteners = append(l.Fasteners, *f)
	}
	slices.SortFunc(l.Fasteners, func(a, b FastenerLine) int { return cmp.Compare(a.Size, b.Size) })
	if j.State == machine.Closed {
		l.Words = l.tell()
	}
	return l
}

// cameOut gives the fasteners and shims written at the latest opening of the
// round that wrote any: an opening after a dry build often names none.
func cameOut(j *machine.Joint) (fasteners []machine.Fastener, shims []machine.Shim) {
	var began, ended machine.Stamp // the final closings before and at the end of the round
	for _, c := range j.Closings {
		if c.As == machine.Final {
			began, ended = ended, c.Stamp
		}
	}
	if j.State != machine.Closed {
		began = ended
	}
	for _, r := range slices.Backward(j.Removals) {
		if !r.At.After(began.At) && !began.At.IsZero() {
			break
		}
		if fasteners == nil {
			fasteners = r.Fasteners
		}
		if shims == nil {
			shims = r.Shims
		}
	}
	return fasteners, shims
}

func thickness(shims []machine.Shim) float64 {
	sum := 0.0
	for _, s := range shims {
		sum += s.ThicknessMM * float64(max(s.Count, 1))
	}
	return sum
}

// tell says what does not balance about a closed joint. Other sizes in the
// same number are named, not faulted twice.
func (l *JointLine) tell() string {
	var said []string
	if !l.Written {
		said = append(said, "fasteners came out, but none are written as put back")
	} else {
		for _, f := range l.Fasteners {
			switch {
			case f.In < f.Out:
				said = append(said, fmt.Sprintf("%d of %d %s back, %d missing", f.In, f.Out, f.Size, f.Out-f.In))
			case f.In > f.Out && l.total() > 0:
				said = append(said, fmt.Sprintf("%d %s in where %d came out", f.In, f.Size, f.Out))
			}
		}
	}
	if math.Abs(l.ShimsIn-l.ShimsOut) > 1e-9 && l.ShimsOut > 0 && l.ShimsIn == 0 {
		said = append(said, fmt.Sprintf("shims of %.2f mm came out, none are written as put back", l.ShimsOut))
	}
	if len(said) == 0 {
		return ""
	}
	return l.Joint.Name + ": " + strings.Join(said, "; ")
}

// total is how many fasteners came out.
func (l *JointLine) total() int {
	n := 0
	for _, f := range l.Fasteners {
		n += f.Out
	}
	return n
}
