package fastener

import (
	"math"
	"slices"
)

// Method is the rule that made an order.
type Method string

const (
	Star    Method = "star"    // across the centre, each next one far from the last
	Outward Method = "outward" // from the centre, ring by ring, opposite ones in turn
)

// better keeps, of the candidates, those within near of the least score.
func better(candidates []int, score func(int) float64) []int {
	least := math.Inf(1)
	scores := make([]float64, len(candidates))
	for k, i := range candidates {
		scores[k] = score(i)
		least = min(least, scores[k])
	}
	var kept []int
	for k, i := range candidates {
		if scores[k] <= least+near {
			kept = append(kept, i)
		}
	}
	return kept
}

// walk is an order in the making; bolts are named by their place in the field.
type walk struct {
	field
	done       []int
	left       []int
	sumX, sumY float64 // of the tightened places about the centroid
}

func (f field) start() *walk {
	w := &walk{field: f}
	for i := range f.bolts {
		w.left = append(w.left, i)
	}
	return w
}

func (w *walk) take(i int) {
	w.done = append(w.done, i)
	w.left = slices.DeleteFunc(w.left, func(k int) bool { return k == i })
	w.sumX, w.sumY = w.sumX+w.bolts[i].X, w.sumY+w.bolts[i].Y
}

// lean is the resultant of the tightened places with one more.
func (w *walk) lean(i int) float64 {
	return math.Hypot(w.sumX+w.bolts[i].X, w.sumY+w.bolts[i].Y)
}

// gap is the distance of a bolt from the nearest of some others, below zero so
// that the farthest scores least; 0 where there are none.
func (w *walk) gap(i int, others []int) float64 {
	if len(others) == 0 {
		return 0
	}
	d := math.Inf(1)
	for _, o := range others {
		d = min(d, apart(w.bolts[i], w.bolts[o]))
	}
	return -d
}

// star goes on from what is done: least resultant, then farthest from its
// nearest tightened bolt, then farthest from the last finished pair (from the
// last bolt while a pair is open), then the lowest number. This brings the
// customary stars of 4, 6, 8, 12 and 16 bolts.
// Method: our own rule, held against the customary orders.
func (w *walk) star() {
	for len(w.left) > 0 {
		last := w.done
		if n := len(w.done); n > 0 {
			last = w.done[n-1:]
			if n%2 == 0 {
				last = w.done[n-2:]
			}
		}
		c := better(w.left, w.lean)
		c = better(c, func(i int) float64 { return w.gap(i, w.done) })
		c = better(c, func(i int) float64 { return w.gap(i, last) })
		w.take(c[0]) // left is by number
	}
}

// stepRound serves an odd number evenly on a circle: every ⌊n/2⌋th bolt round
// the circle, which meets each one since n and ⌊n/2⌋ share no factor.
func (w *walk) stepRound(round []int) {
	n := len(round)
	at := 0
	if len(w.done) > 0 {
		at = slices.Index(round, w.done[len(w.done)-1])
	} else {
		w.take(round[0])
	}
	for len(w.left) > 0 {
		at = (at + n/2) % n
		for slices.Contains(w.done, round[at]) { // only after bolts that had to start
			at = (at + 1) % n
		}
		w.take(round[at])
	}
}

// outward takes ring after ring by distance from the centroid; within a ring
// the least resultant, then the farthest from those tightened in the ring,
// then from the last bolt, then the lowest number.
func (w *walk) outward() {
	for len(w.left) > 0 {
		ring := better(w.left, func(i int) float64 { return w.bolts[i].out() })
		var inRing []int
		for len(ring) > 0 {
			var last []int
			if n := len(w.done); n > 0 {
				last = w.done[n-1:]
			}
			c := better(ring, w.lean)
			c = better(c, func(i int) float64 { return w.gap(i, inRing) })
			c = better(c, func(i int) float64 { return w.gap(i, last) })
			w.take(c[0])
			inRing = append(inRing, c[0])
			ring = slices.DeleteFunc(ring, func(i int) bool { return i == c[0] })
		}
	}
}
