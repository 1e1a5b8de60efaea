package judge

import (
	"fmt"
	"math"
	"slices"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/quantity"
)

// candidate is one value that the limit is held against; the worst of a
// check's candidates gives the verdict. Values are in the check's unit.
type candidate struct {
	at     string
	est    metrology.Estimate
	random float64 // standard deviation of one reading of it
	count  int     // repeats behind it
	terms  []term
	factor float64 // from the unit held inside to the check's
	spread *spread // set for a largest less smallest

	gauge   *gauge // the least exact instrument in it
	assumed string // why an instrument had to be assumed
	coarse  bool   // typed to fewer figures than an instrument shows
}

// fixed is the part of the uncertainty that repeats do not lessen.
func (c candidate) fixed() float64 {
	part := c.random * c.random / float64(max(c.count, 1))
	return math.Sqrt(math.Max(0, c.est.U*c.est.U-part))
}

// measured is what the readings of a check amount to.
type measured struct {
	list    []candidate
	read    int
	points  int
	missing []string // points still to be read
	wanted  string   // what else is wanted before it can be judged
	odd     string   // why the result cannot be believed
	working []string
	step    float64 // finest step typed, in the check's unit
}

// note adds lines of working, leaving out empty ones.
func (m *measured) note(lines ...string) {
	for _, l := range lines {
		if l != "" {
			m.working = append(m.working, l)
		}
	}
}

// measure works out a check's value from its readings.
func (b *bench) measure(c *machine.Check, s scale) measured {
	if c.By == machine.ByReading {
		return b.byReading(c, s)
	}
	length := b.scaleOf("mm")
	if c.Unit != "" && !s.length() {
		return measured{wanted: fmt.Sprintf("%s is worked out from sizes in mm, but its limits are %s: correct the check", c.Name, s.unit)}
	}
	switch c.By {
	case machine.ByClearance:
		return b.byClearance(c, s, length)
	case machine.ByStack:
		return b.byStack(c, s, length)
	case machine.BySize, machine.ByOval, machine.ByTaper, machine.ByWear:
		ft := c.Outer
		if ft == nil {
			ft = c.Inner
		}
		if ft == nil {
			return measured{wanted: "the check names no surface to be measured: correct the check"}
		}
		surf := b.surface(ft, c.Tool, length)
		m := measured{read: surf.read, points: len(surf.points), missing: surf.missing, working: slices.Clone(surf.lines), step: s.factor * surf.step}
		m.note(sizeLine(surf))
		switch c.By {
		case machine.BySize:
			for _, sp := range surf.spots {
				m.list = append(m.list, s.candidate(pointWords(sp.point), sp.est, term{times: 1, spot: sp}))
			}
		case machine.ByWear:
			b.wear(&m, ft, surf, s)
		default:
			form(&m, c.By, ft, surf, s)
		}
		return m
	}
	return measured{wanted: fmt.Sprintf("a check by %s is not known: correct the check", quote(c.By))}
}

// byReading takes the direct readings of a check, point by point.
func (b *bench) byReading(c *machine.Check, s scale) measured {
	takes, lines := b.usable(c.Current(), c.Tool, s, false)
	var mat *metrology.Material
	if s.dim == quantity.Length && !s.word {
		mat = b.metal(c.Parts...)
	}
	spots, more := b.spots(takes, nil, mat, s)
	m := measured{read: len(spots), points: max(1, len(spots))}
	m.note(lines...)
	m.note(more...)
	taken := 0
	for _, sp := range spots {
		m.list = append(m.list, s.candidate(pointWords(sp.point), sp.est, term{times: 1, spot: sp}))
		m.step = finer(m.step, s.factor*sp.step)
		taken += sp.count
	}
	if len(spots) == 0 {
		m.wanted = "take the reading" + space(choose(s.unit == "", "", "in "+s.unit)) + in(c.How)
	}
	if taken > 0 && taken < c.Repeats {
		m.note(fmt.Sprintf("%d of %d readings asked for", taken, c.Repeats))
	}
	return m
}

// candidate turns a sum of points, held inside, into one value in the check's
// unit. When asking what would settle it, the least exact gauge and the random
// parts of all stand for it.
func (s scale) candidate(at string, e metrology.Estimate, terms ...term) candidate {
	f := math.Abs(s.factor)
	c := candidate{at: at, est: metrology.Estimate{Value: s.show(e.Value), U: f * e.U, Dof: e.Dof}, terms: terms, factor: f}
	worst, random := 0.0, 0.0
	for i, t := range terms {
		weight := math.Abs(t.times)
		random += math.Pow(f*weight*t.spot.random, 2)
		if i == 0 || t.spot.count < c.count {
			c.count = t.spot.count
		}
		if g := t.spot.gauge; g != nil {
			if c.gauge == nil || weight*t.spot.est.U > worst {
				c.gauge, worst = g, weight*t.spot.est.U
			}
			if c.assumed == "" {
				c.assumed = g.assumed
			}
			c.coarse = c.coarse || g.coarse
		}
	}
	c.random = math.Sqrt(random)
	return c
}

// surface is a feature as read in its present version.
type surface struct {
	spots   []*spot
	points  []machine.Point // asked for
	read    int             // of them with a reading
	missing []string        // the rest, in words
	step    float64         // finest step typed, mm
	lines   []string

	unworn      *spot // the unworn surface, where it was read
	unwornLines []string
}

// surfaceKey names a feature as read with an instrument to assume.
type surfaceKey struct {
	id    machine.FeatureID
	usual string
}

// surface gathers the readings of a feature. usual is the instrument where
// neither the reading nor the feature names one.
func (b *bench) surface(ft *machine.Feature, usual string, length scale) surface {
	if ft.Tool != "" {
		usual = ft.Tool
	}
	key := surfaceKey{ft.ID, usual}
	out, known := b.surfaces[key]
	if !known {
		out = b.gather(ft, usual, length)
		b.surfaces[key] = out
	}
	return out
}

func (b *bench) gather(ft *machine.Feature, usual string, length scale) surface {
	mat := b.metal(ft.Part)
	var worn, fresh []*machine.Reading
	for _, r := range ft.Current() {
		if r.Unworn {
			fresh = append(fresh, r)
		} else {
			worn = append(worn, r)
		}
	}
	var out surface
	out.points = ft.Points()
	takes, refused := b.usable(worn, usual, length, true)
	spots, lines := b.spots(takes, out.points, mat, length)
	for _, sp := range spots {
		sp.warm.part = partOf(ft)
	}
	out.spots, out.lines = spots, append(refused, lines...)
	have := map[machine.Point]bool{}
	for _, sp := range out.spots {
		have[sp.point] = true
		out.step = finer(out.step, sp.step)
		if sp.listed {
			out.read++
		}
	}
	for _, p := range out.points {
		if !have[p] {
			out.missing = append(out.missing, missingWords(ft, p))
		}
	}
	out.unworn, out.unwornLines = b.fresh(fresh, usual, mat, length)
	if out.unworn != nil {
		out.unworn.warm.part = partOf(ft)
	}
	return out
}

func partOf(ft *machine.Feature) machine.PartID {
	if ft.Part == nil {
		return ""
	}
	return ft.Part.ID
}

// fresh averages all readings of the unworn surface.
func (b *bench) fresh(readings []*machine.Reading, usual string, mat *metrology.Material, length scale) (*spot, []string) {
	takes, lines := b.usable(readings, usual, length, true)
	if len(takes) == 0 {
		return nil, lines
	}
	for i := range takes {
		takes[i].point = machine.Point{Level: "unworn"}
	}
	sp, more, err := average(takes, mat, length)
	if err != nil {
		return nil, append(lines, fmt.Sprintf("unworn surface: not used: %v", err))
	}
	return sp, append(lines, more...)
}

// finer is the finer of two steps; 0 is not known.
func finer(a, b float64) float64 {
	switch {
	case a <= 0:
		return b
	case b <= 0:
		return a
	}
	return min(a, b)
}
