package draw

import (
	"cmp"
	"math"
	"slices"
)

// Balloons of the general arrangement look for a place round their part: near,
// clear of every symbol and of one another, their leaders crossing nothing.
// They are placed twice: at their full size, as many as find room, for a sheet
// shown small, and at a reduced size, all of them, for a sheet shown large.

// What is tried round a part: directions by 10 degrees, and distances from its
// outline.
const (
	directions = 36
	nearest    = 30.0
	farthest   = 240.0
	stepOut    = 6.0
)

// A showing is a size at which balloons are shown, as a share of their full
// one, with the least gap of what presses them, and the class it is shown by.
type showing struct {
	size, gap float64
	class     string
}

// showings: full size down to 0.668 pixels to a unit, reduced from 0.96 on.
var (
	shownSmall = showing{1, apart, "near"}
	shownLarge = showing{0.7, 9, "far"}
)

// air is the least room between a balloon and a symbol.
const air = 5.0

// around is the work of placing the balloons of one sheet for one showing.
type around struct {
	showing
	paper    box
	symbols  []box
	outlines []box // of balloons
	targets  []box
	lines    []edge // leaders
	placed   []Balloon
}

// group is one part of the general arrangement, at all its places.
type group struct{ marks []Mark }

// balloons places what it can of the balloons of some groups. Those with the fewest free places choose first; in further rounds
// those that were left before do.
func (s Sheet) balloons(groups []group, as showing, rounds int) []Balloon {
	a := around{showing: as, paper: box{margin, margin, Width - 2*margin, s.Height - 2*margin}.grown(-6)}
	for _, m := range s.Marks {
		a.symbols = append(a.symbols, m.At)
	}
	all := make([]waits, len(groups))
	for i, g := range groups {
		all[i] = waits{group: g, balloon: g.balloon(), places: a.places(g)}
	}
	var best []Balloon
	for range rounds {
		placed, left := a.round(all)
		if len(placed) > len(best) {
			best = placed
		}
		if len(left) == 0 {
			break
		}
		for i, w := range all {
			all[i].first = w.first || slices.Contains(left, w.marks[0].Item.ID)
		}
	}
	return best
}

// round places balloons once, on an empty sheet, and names the first items of
// the groups that are left.
func (a around) round(all []waits) (placed []Balloon, left []string) {
	waiting := slices.Clone(all)
	for i, w := range waiting {
		waiting[i].places = slices.Clone(w.places)
	}
	for len(waiting) > 0 {
		next := 0
		for i, w := range waiting {
			if w.before(waiting[next]) {
				next = i
			}
		}
		w := waiting[next]
		waiting = slices.Delete(waiting, next, next+1)
		b, ok := a.best(w)
		if !ok {
			left = append(left, w.marks[0].Item.ID)
			continue
		}
		a.take(b)
		for i, w := range waiting {
			waiting[i].places = slices.DeleteFunc(w.places, func(p balloonPlace) bool { return !a.leaves(p) })
		}
	}
	return a.placed, left
}

// waits is a group whose balloon is not placed yet, with the places left.
type waits struct {
	group
	balloon Balloon
	places  []balloonPlace
	first   bool
}

// before tells whether a group chooses before another.
func (w waits) before(v waits) bool {
	if w.first != v.first {
		return w.first
	}
	return len(w.places) < len(v.places)
}

// balloonPlace is a place near one of the marks of a group.
type balloonPlace struct {
	at      point
	mark    int
	out     float64 // from the outline of the mark's box
	outline box     // with the air round it
	press   box     // with the gap round it
}

// balloon is the balloon of a group, not placed yet.
func (g group) balloon() Balloon {
	var b Balloon
	for _, m := range g.marks {
		b.Items = append(b.Items, m.Item)
	}
	b.Width = wide(b.Text())
	return b
}

// aims are the points of a part that its leader may make for, as shares of its
// box.
var aims = []point{{0.5, 0.5}, {0.25, 0.5}, {0.75, 0.5}, {0.5, 0.25}, {0.5, 0.75}}

// sized is the outline and the target of a balloon at a share of its size.
func (b Balloon) sized(k float64) (outline, press box) {
	return about(b.At, k*b.Width, k*2*radius), about(b.At, k*max(b.Width, target), k*target)
}

// places are all places for a group's balloon that are clear of symbols, the
// nearest first.
func (a *around) places(g group) []balloonPlace {
	var out []balloonPlace
	b := g.balloon()
	for i, m := range g.marks {
		for d := range directions {
			sin, cos := math.Sincos(2 * math.Pi * float64(d) / directions)
			for far := nearest; far <= farthest; far += stepOut {
				b.At = ray(m.At, cos, sin, far)
				outline, press := b.sized(a.size)
				outline = outline.grown(air)
				if a.paper.holds(press) && !anyMeets(a.symbols, outline) {
					out = append(out, balloonPlace{b.At, i, far, outline, press.grown(a.gap)})
				}
			}
		}
	}
	slices.SortStableFunc(out, func(p, q balloonPlace) int { return cmp.Compare(p.out, q.out) })
	return out
}

// best is the balloon with the shortest clear leader of those places.
func (a *around) best(g waits) (Balloon, bool) {
	best := math.Inf(1)
	b := g.balloon
	var found Balloon
	for _, p := range g.places {
		if p.out >= best {
			break
		}
		m := g.marks[p.mark]
		b.At = p.at
		for _, aim := range aims {
			b.To = m.enter(b.At, point{m.At.x + aim.x*m.At.w, m.At.y + aim.y*m.At.h})
			cost := math.Hypot(b.At.x-b.To.x, b.At.y-b.To.y) + lean(b.At, b.To)
			if cost < best && a.clear(b, m) {
				best, found = cost, b
			}
		}
	}
	return found, !math.IsInf(best, 1)
}

// take puts a balloon on the sheet.
func (a *around) take(b Balloon) {
	outline, press := b.sized(a.size)
	b.Shown = a.class
	b.Target = about(b.At, max(b.Width, target), target)
	a.placed = append(a.placed, b)
	a.lines = append(a.lines, edge{b.At, b.To})
	a.outlines = append(a.outlines, outline)
	a.targets = append(a.targets, press)
}

// leaves tells whether the balloon placed last leaves a place free.
func (a *around) leaves(p balloonPlace) bool {
	last := len(a.targets) - 1
	return !a.targets[last].meets(p.press) && !p.outline.cuts(a.lines[last].from, a.lines[last].to)
}

// ray is the point at a distance outside a box, in a direction from its
// middle.
func ray(b box, cos, sin, out float64) point {
	t := math.Inf(1)
	if cos != 0 {
		t = min(t, b.w/2/math.Abs(cos))
	}
	if sin != 0 {
		t = min(t, b.h/2/math.Abs(sin))
	}
	mid := b.middle()
	return point{mid.x + cos*(t+out), mid.y + sin*(t+out)}
}

// lean makes a level or upright leader a little dearer than a slanting one,
// which is not taken for an edge of the part.
func lean(from, to point) float64 {
	if math.Abs(from.x-to.x) < 4 || math.Abs(from.y-to.y) < 4 {
		return 6
	}
	return 0
}

func anyMeets(list []box, b box) bool {
	for _, t := range list {
		if t.meets(b) {
			return true
		}
	}
	return false
}

// clear tells whether a leader runs clear of all but its own part.
func (a *around) clear(b Balloon, m Mark) bool {
	for _, t := range a.symbols {
		if t != m.At && t.cuts(b.At, b.To) {
			return false
		}
	}
	for _, t := range a.outlines {
		if t.grown(2).cuts(b.At, b.To) {
			return false
		}
	}
	for _, l := range a.lines {
		if cross(l.from, l.to, b.At, b.To) {
			return false
		}
	}
	return true
}
