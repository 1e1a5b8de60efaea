package web

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"matchmark/internal/finding/closing"
)

// boltField is the drawing of a field of bolts: each a head with its place in
// the order.
type boltField struct {
	Width, Height int
	Path          string // thin line from bolt to bolt
	Bolts         []boltMark
	Words         string
	Again         string // the last pass, in words
}

type boltMark struct {
	X, Y  int
	N     int
	Head  string // the six corners
	First bool
}

// The drawing is 480 units wide; a head takes 26 to each side.
const (
	boltsWide = 480
	boltEdge  = 34
	headOut   = 23
)

// boltsOf draws a pattern; nil where the places are not known, or where one
// bolt needs no order.
func boltsOf(p *closing.Pattern) *boltField {
	if p == nil || len(p.Bolts) < 2 || len(p.Order) != len(p.Bolts) {
		return nil
	}
	loX, hiX, loY, hiY := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, b := range p.Bolts {
		loX, hiX, loY, hiY = min(loX, b.X), max(hiX, b.X), min(loY, b.Y), max(hiY, b.Y)
	}
	scale := (boltsWide - 2*boltEdge) / max(hiX-loX, hiY-loY, 1e-9)
	f := &boltField{Width: int((hiX-loX)*scale) + 2*boltEdge, Height: int((hiY-loY)*scale) + 2*boltEdge}
	at := map[int]boltMark{}
	for _, b := range p.Bolts {
		n := slices.Index(p.Order, b.Number) + 1
		m := boltMark{X: boltEdge + int((b.X-loX)*scale), Y: boltEdge + int((hiY-b.Y)*scale), N: n, First: n == 1}
		m.Head = corners(m.X, m.Y)
		at[n] = m
	}
	var path []string
	for n := 1; n <= len(p.Order); n++ {
		m, ok := at[n]
		if !ok {
			return nil // a bolt of the order has no place
		}
		f.Bolts = append(f.Bolts, m)
		path = append(path, fmt.Sprintf("%d %d", m.X, m.Y))
	}
	f.Path = "M" + strings.Join(path, "L")
	f.Words = fmt.Sprintf("Order of tightening of %d bolts, from 1 to %d", len(p.Order), len(p.Order))
	if n := len(p.Stages); n > 0 && p.Stages[n-1].Share == 1 && n > 1 && !slices.Equal(p.Stages[n-1].Order, p.Order) {
		f.Again = "The last pass goes one after the other round, not in this order."
	}
	return f
}

// corners of a bolt head about a middle.
func corners(x, y int) string {
	var out []string
	for i := range 6 {
		a := float64(i) * math.Pi / 3
		out = append(out, fmt.Sprintf("%.1f %.1f", float64(x)+headOut*math.Cos(a), float64(y)+headOut*math.Sin(a)))
	}
	return "M" + strings.Join(out, "L") + "Z"
}
