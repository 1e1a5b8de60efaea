package pairing

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/assign"
	"matchmark/internal/trade/quantity"
)

// Proposal is where the parts of one kind would go.
type Proposal struct {
	Moving  machine.PartID    // type of the parts that would change places
	Checks  []machine.CheckID // types of the clearances that count
	Pairs   []Pair            // by place, one for each
	Now     float64           // least probability of conforming as they are
	Best    float64           // the same as proposed; never below Now
	Moves   int               // how many parts change places; 0 where nothing is gained
	Says    string
	Limited string // provenance of the limits that were held to
}

// Pair is one part in its place.
type Pair struct {
	Part   machine.PartID // that goes there
	At     machine.Place  // where it goes
	From   machine.Place  // where it is from
	Chance float64        // that every clearance of the pair keeps its limits
	Value  float64        // mm, the clearance that decides
	Says   string
}

// gainful is the least gain in probability for which parts are moved; smaller
// differences are noise. Our own judgement.
const gainful = 0.01

// most is how many places are paired at once; a pair needs a judgement.
const most = 24

// Propose lists a proposal for every kind of part that can change places: it
// stands at several places, meets others in clearances there, has come off
// whole, and every surface has been measured. Each proposal supposes that only
// its own parts move; take one at a time. By the order of the checks.
// Cost: places² judgements for each clearance.
func Propose(m *machine.Machine, judged judge.Findings) []Proposal {
	var out []Proposal
	for _, g := range groups(m) {
		if p, ok := g.propose(m, judged); ok {
			out = append(out, p)
		}
	}
	return out
}

// group is a kind of part that can move, and its clearances: a check of each
// type at each place.
type group struct {
	moving machine.PartID // type
	parts  []*machine.Part
	rows   [][]*machine.Check // by type of check, then by place
}

// groups finds the kinds of part that can move: the inner one of a clearance,
// else the outer one.
func groups(m *machine.Machine) []*group {
	var out []*group
	for _, c := range m.Checks {
		if !pairs(c) {
			continue
		}
		for _, side := range []*machine.Part{c.Inner.Part, c.Outer.Part} {
			if slices.ContainsFunc(out, func(g *group) bool { return g.moving == side.Type }) {
				break
			}
			if g := groupOf(m, side.Type); g != nil {
				out = append(out, g)
				break
			}
		}
	}
	return out
}

// pairs tells a clearance between two parts at one of several places.
func pairs(c *machine.Check) bool {
	return c.By == machine.ByClearance && c.Place != "" && c.Unit == "mm" && c.Outer != nil && c.Inner != nil &&
		c.Outer.Part != nil && c.Inner.Part != nil && c.Outer.Part != c.Inner.Part
}

// groupOf collects all clearances of a kind of part; nil where the kind cannot
// move: a place without a piece of its own, one still held by a joint, or checks
// that do not stand at the same places.
func groupOf(m *machine.Machine, moving machine.PartID) *group {
	g := &group{moving: moving}
	var types []machine.CheckID
	for _, c := range m.Checks {
		if !pairs(c) || mover(c, moving) == nil {
			continue
		}
		i := slices.Index(types, c.Type)
		if i < 0 {
			i = len(types)
			types, g.rows = append(types, c.Type), append(g.rows, nil)
		}
		g.rows[i] = append(g.rows[i], c)
	}
	for _, c := range g.rows[0] {
		p := mover(c, moving)
		if p.Qty != 1 || slices.Contains(g.parts, p) || slices.ContainsFunc(p.Joints, holds) {
			return nil
		}
		g.parts = append(g.parts, p)
	}
	for _, row := range g.rows {
		if len(row) != len(g.parts) {
			return nil
		}
		for i, c := range row {
			if mover(c, moving) != g.parts[i] {
				return nil
			}
		}
	}
	if len(g.parts) < 2 || len(g.parts) > most {
		return nil
	}
	return g
}

// mover is the side of a clearance that a kind of part is on, nil for neither.
func mover(c *machine.Check, moving machine.PartID) *machine.Part {
	switch moving {
	case c.Inner.Part.Type:
		return c.Inner.Part
	case c.Outer.Part.Type:
		return c.Outer.Part
	}
	return nil
}

// holds tells whether a joint still holds its parts where they are.
func holds(j *machine.Joint) bool { return j.State == machine.AsMade || j.State == machine.Closed }

// seat is what comes of one part at one place.
type seat struct{ chance, value float64 }

func (g *group) propose(m *machine.Machine, judged judge.Findings) (Proposal, bool) {
	n := len(g.parts)
	seats, loss, stay := make([][]seat, n), make([][]float64, n), make([][]float64, n)
	for i := range n {
		seats[i], loss[i], stay[i] = make([]seat, n), make([]float64, n), make([]float64, n)
		for j := range n {
			s, ok := g.seat(m, judged, i, j)
			if !ok {
				return Proposal{}, false
			}
			seats[i][j], loss[i][j] = s, math.Round((1-s.chance)*1e6)
			if i != j {
				stay[i][j] = 1
			}
		}
	}
	plan, err := assign.Worst(loss, stay)
	if err != nil {
		return Proposal{}, false
	}
	p := Proposal{Moving: g.moving, Now: 1, Best: 1, Limited: limits(judged, g.rows)}
	for _, row := range g.rows {
		p.Checks = append(p.Checks, row[0].Type)
	}
	for i := range n {
		p.Now, p.Best = min(p.Now, seats[i][i].chance), min(p.Best, seats[i][plan.To[i]].chance)
	}
	to := plan.To
	if p.Best < p.Now+gainful {
		p.Best = p.Now
		for i := range n {
			to[i] = i
		}
	}
	for i, j := range to {
		p.Pairs = append(p.Pairs, Pair{Part: g.parts[j].ID, At: g.parts[i].Place, From: g.parts[j].Place, Chance: seats[i][j].chance, Value: seats[i][j].value,
			Says: fmt.Sprintf("%s to place %s: %.3f mm, %s", g.parts[j].Name, g.parts[i].Place, seats[i][j].value, quantity.Percent(seats[i][j].chance))})
		if i != j {
			p.Moves++
		}
	}
	p.Says = p.say()
	return p, true
}

// seat judges every clearance of the part from place j at place i and gives the
// least likely. It fails where a surface is not measured or a limit not known.
func (g *group) seat(m *machine.Machine, judged judge.Findings, i, j int) (seat, bool) {
	out := seat{chance: 2}
	for _, row := range g.rows {
		f := judged.Of(row[i].ID)
		if f == nil || f.Limit.Missing != "" || !bounded(f.Limit.High) {
			return out, false
		}
		outer, inner := row[i].Outer, row[j].Inner
		if row[i].Outer.Part.Type == g.moving {
			outer, inner = row[j].Outer, row[i].Inner
		}
		got := judge.One(m, trial(row[i], outer, inner, f.Limit))
		if got.Verdict == judge.NotRead || got.Verdict == judge.NoLimit {
			return out, false
		}
		if got.P < out.chance {
			out = seat{got.P, got.Value}
		}
	}
	return out, true
}

// trial is the clearance of a pair that is not together yet, with the limits of
// the place.
func trial(at *machine.Check, outer, inner *machine.Feature, b judge.Bounds) *machine.Check {
	l := machine.Limit{High: text(b.High), From: b.From, Source: b.Source}
	low := b.Low
	if bounded(b.NewLow) {
		low = max(low, b.NewLow)
	}
	if bounded(low) {
		l.Low = text(low)
	}
	return &machine.Check{ID: at.ID, Type: at.Type, Place: at.Place, Name: at.Name, When: at.When, By: machine.ByClearance,
		Outer: outer, Inner: inner, Unit: at.Unit, Tool: at.Tool, Repeats: at.Repeats, Limits: []machine.Limit{l}}
}

func text(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func bounded(v float64) bool { return !math.IsInf(v, 0) && !math.IsNaN(v) }
