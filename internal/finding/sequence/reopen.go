package sequence

import "matchmark/internal/machine"

// reopening lists what would have to be opened again to reach a joint if
// everything were closed, the joint itself first and what lies over it after,
// with the hours to close it all again. Where there are several ways in, the
// one with the fewest hours of its own joints is taken, so the figure is close
// to the least but not proved to be. It is worked out once for each joint.
func (d *draft) reopening(j *machine.Joint) (again []*machine.Joint, hours float64) {
	if d.costs == nil {
		d.costs = newCosts(len(d.m.Joints))
	}
	c := d.costs
	if known := c.known[j.Number()]; known.again != nil {
		return known.again, known.hours
	}
	c.round++
	line := []int{j.Number()}
	c.seen[line[0]] = c.round
	for i := 0; i < len(line); i++ {
		k := d.m.Joints[line[i]]
		again = append(again, k)
		hours += k.Hours
		for _, any := range d.ways[line[i]] {
			for _, over := range c.least(any) {
				if c.seen[over.Number()] != c.round {
					c.seen[over.Number()] = c.round
					line = append(line, over.Number())
				}
			}
		}
	}
	c.known[j.Number()] = cost{again, hours}
	return again, hours
}

// costs keeps, by joint, what was worked out already.
type costs struct {
	seen  []int // in which round a joint was last met
	round int
	known []cost
}

// cost is what reaching a joint again would take.
type cost struct {
	again []*machine.Joint
	hours float64
}

func newCosts(joints int) *costs {
	return &costs{seen: make([]int, joints), known: make([]cost, joints)}
}

// least is the alternative that adds the fewest hours, the first of equals.
func (c *costs) least(any [][]*machine.Joint) []*machine.Joint {
	var best []*machine.Joint
	bestHours := -1.0
	for _, set := range any {
		hours := 0.0
		for _, k := range set {
			if c.seen[k.Number()] != c.round {
				hours += k.Hours
			}
		}
		if bestHours < 0 || hours < bestHours {
			best, bestHours = set, hours
		}
	}
	return best
}
