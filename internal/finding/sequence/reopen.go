package sequence

import "matchmark/internal/machine"

// reopening lists what would have to be opened again to reach a joint if
// everything were closed, the joint itself first and what lies over it after,
// with the hours to close it all again. Where there are several ways in, the
// one with the fewest hours of its own joints is taken, so the figure is close
// to the least but not proved to be. It is worked out once for each joint.
func (d *draft) reopening(j *machine.Joint) (again []*machine.Joint, hours float64) {
	if d.costs == nil {
		d.costs = newCosts(d)
	}
	c := d.costs
	if known, ok := c.known[j]; ok {
		return known.again, known.hours
	}
	c.round++
	line := []int{c.number[j]}
	c.seen[line[0]] = c.round
	for i := 0; i < len(line); i++ {
		k := d.m.Joints[line[i]]
		again = append(again, k)
		hours += k.Hours
		for _, any := range c.ways[line[i]] {
			for _, over := range c.least(d.m, any) {
				if c.seen[over] != c.round {
					c.seen[over] = c.round
					line = append(line, over)
				}
			}
		}
	}
	c.known[j] = cost{again, hours}
	return again, hours
}

// costs keeps reach by joint number, for walking it many times.
type costs struct {
	number map[*machine.Joint]int
	ways   [][][][]int
	seen   []int // in which round a joint was last met
	round  int
	known  map[*machine.Joint]cost
}

// cost is what reaching a joint again would take.
type cost struct {
	again []*machine.Joint
	hours float64
}

func newCosts(d *draft) *costs {
	c := &costs{number: make(map[*machine.Joint]int, len(d.m.Joints)), ways: make([][][][]int, len(d.m.Joints)),
		seen: make([]int, len(d.m.Joints)), known: map[*machine.Joint]cost{}}
	for i, j := range d.m.Joints {
		c.number[j] = i
	}
	for i, j := range d.m.Joints {
		for _, any := range d.ways[j] {
			var alts [][]int
			for _, set := range any {
				alt := make([]int, len(set))
				for n, k := range set {
					alt[n] = c.number[k]
				}
				alts = append(alts, alt)
			}
			c.ways[i] = append(c.ways[i], alts)
		}
	}
	return c
}

// least is the alternative that adds the fewest hours, the first of equals.
func (c *costs) least(m *machine.Machine, any [][]int) []int {
	var best []int
	bestHours := -1.0
	for _, set := range any {
		hours := 0.0
		for _, k := range set {
			if c.seen[k] != c.round {
				hours += m.Joints[k].Hours
			}
		}
		if bestHours < 0 || hours < bestHours {
			best, bestHours = set, hours
		}
	}
	return best
}
