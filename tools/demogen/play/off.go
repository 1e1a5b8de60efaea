package play

import (
	"slices"
	"strings"

	"matchmark/internal/machine"
)

// carriers are the big castings, the heaviest first: what is fast to one of
// them has not come off.
var carriers = []machine.PartID{"rear-case", "gb-case", "bell-housing", "block", "head", "front-axle", "front-support",
	"timing-cover", "ip-body", "steer-box", "bulkhead", "starter-body", "gen-body", "wp-housing", "rocker-shaft", "gb-top"}

// lifted are castings that leave at one removal although pipes or brackets may
// still hang between them and the rest.
var lifted = map[machine.JointID]machine.PartID{"bell-engine": "block", "crank-mains.4": "crankshaft"}

// liftedAt adds the casting that leaves with a joint, if one does.
func (s *story) liftedAt(j *machine.Joint, off []machine.PartID) []machine.PartID {
	if p := s.machine().Part(lifted[j.ID]); p != nil && p.Tray == "" && !slices.Contains(off, p.ID) {
		off = append(off, p.ID)
	}
	return off
}

// rank is the place of a part among the castings; a surface of a casting that
// the kit lists as a part counts as the casting.
func rank(p *machine.Part) int {
	if isSurface(p) {
		return 3
	}
	if i := slices.Index(carriers, p.Type); i >= 0 {
		return i
	}
	return len(carriers)
}

// comesOff lists the parts that opening a joint sets free: those that nothing
// closed holds any longer to a heavier casting. What hangs on them goes with
// them, as a piece, and comes off when it is parted from it.
func comesOff(opened *machine.Joint) []machine.PartID {
	var out []machine.PartID
	for _, p := range opened.Parts {
		if p.Tray == "" && !isSurface(p) && rank(p) > 0 && !held(p, opened) {
			out = append(out, p.ID)
		}
	}
	return out
}

// isSurface tells parts that the kit lists only for their surface: the bore of
// a block, the land of a pin.
func isSurface(p *machine.Part) bool { return strings.Contains(p.Name, "(of the ") }

// held tells whether a part is fast, through joints that are not open, to a
// casting heavier than itself.
func held(p *machine.Part, opened *machine.Joint) bool {
	seen := map[*machine.Part]bool{p: true}
	for queue := []*machine.Part{p}; len(queue) > 0; queue = queue[1:] {
		for _, j := range queue[0].Joints {
			if j == opened || j.State == machine.Open {
				continue
			}
			for _, q := range j.Parts {
				if rank(q) < rank(p) {
					return true
				}
				if !seen[q] {
					seen[q] = true
					queue = append(queue, q)
				}
			}
		}
	}
	return false
}
