package draw

import (
	"strconv"
	"strings"
)

// bank is a family of places drawn side by side, each on a centre line of its
// own that runs down through the kinds in their order.
type bank struct {
	family string
	places []string
	kinds  []kind
}

// column is the room of one place in a bank.
const column = target + apart

// widest is how wide a symbol may be in a bank, and highest how high.
const (
	widestInBank  = 66.0
	highestInBank = 132.0
)

// head is the room for the balloons at the left of a bank.
func (b bank) head() float64 {
	w := 0.0
	for _, k := range b.kinds {
		w = max(w, wide(Balloon{Items: k.items}.Text()))
	}
	return w + 24
}

func (b bank) width() float64 { return b.head() + column*float64(len(b.places)) - apart }

// size of a symbol in a bank, standing where it has an axis.
func sizeInBank(s Symbol) (w, h float64) {
	w, h = s.size(s.axial)
	k := shrink(w, h, widestInBank, highestInBank)
	return k * w, k * h
}

// height of a bank with its headings.
func (b bank) height() float64 {
	h := b.headings()
	for _, k := range b.kinds {
		h += pitch(k)
	}
	return h
}

// headings is the room for the names of the places, above the centre lines.
func (b bank) headings() float64 {
	for _, p := range b.places {
		if len(heading(p)) > 1 {
			return 82
		}
	}
	return 54
}

// heading is a place's name in as many lines of a column as it takes, at most
// two; a word too long for its column is cut.
func heading(place string) []string {
	lines := []string{place}
	if TextWidth(place, lettering) > column-4 {
		lines = strings.Fields(place)
	}
	for i, l := range lines {
		for TextWidth(l, lettering) > column-4 {
			l = l[:len(l)-1]
		}
		lines[i] = l
	}
	return lines[:min(len(lines), 2)]
}

// mostPlaces is how many places a bank shows side by side.
const mostPlaces = 9

// split makes banks of no more places than fit a sheet, of about like width.
func (b bank) split() []bank {
	pieces := (len(b.places) + mostPlaces - 1) / mostPlaces
	var out []bank
	for i := range pieces {
		from, to := i*len(b.places)/pieces, (i+1)*len(b.places)/pieces
		part := bank{family: b.family, places: b.places[from:to]}
		for _, k := range b.kinds {
			k.items = k.items[from:to]
			part.kinds = append(part.kinds, k)
		}
		out = append(out, part.fold()...)
	}
	return out
}

// fold parts a long narrow bank into several that stand side by side, of about
// like height.
func (b bank) fold() []bank {
	beside := int((inside + bankGap) / (b.width() + bankGap))
	pieces := min(beside, (len(b.kinds)+2)/3)
	if pieces < 2 {
		return []bank{b}
	}
	goal := (b.height() - b.headings()) / float64(pieces)
	var out []bank
	part, high := bank{family: b.family, places: b.places}, 0.0
	for _, k := range b.kinds {
		if high > 0 && high+pitch(k)/2 > goal && len(out) < pieces-1 {
			out = append(out, part)
			part, high = bank{family: b.family, places: b.places}, 0
		}
		part.kinds = append(part.kinds, k)
		high += pitch(k)
	}
	return append(out, part)
}

// bankGap parts two banks side by side.
const bankGap = 40.0

func pitch(k kind) float64 {
	_, h := sizeInBank(k.symbol)
	return max(h, target) + apart
}

// layBanks sets banks side by side as they fit, from y downwards.
func (s *Sheet) layBanks(banks []bank, y float64) float64 {
	x, deep := margin+inset, 0.0
	var all []bank
	for _, b := range banks {
		all = append(all, b.split()...)
	}
	for _, b := range all {
		if x > margin+inset && x+b.width() > Width-margin-inset {
			x, y, deep = margin+inset, y+deep+rowGap, 0
		}
		s.layBank(b, x, y)
		x += b.width() + bankGap
		deep = max(deep, b.height())
	}
	if deep == 0 {
		return y
	}
	return y + deep + rowGap
}

// layBank sets one bank with its upper left corner at a point.
func (s *Sheet) layBank(b bank, x, y float64) {
	first := x + b.head() + target/2
	s.Notes = append(s.Notes, Note{At: point{x, y + lettering/2}, Text: b.family, Left: true})
	for i, p := range b.places {
		at := first + column*float64(i)
		for line, word := range heading(p) {
			s.Notes = append(s.Notes, Note{At: point{at, y + lettering/2 + 27*float64(line)}, Text: word})
		}
		s.Axes = append(s.Axes, Axis{point{at, y + b.headings() - 16}, point{at, y + b.height() - 4}})
	}
	y += b.headings()
	for _, k := range b.kinds {
		s.layKind(b, k, x, y+pitch(k)/2-apart/2)
		y += pitch(k)
	}
}

// layKind sets one kind across a bank at a height, its balloon at the left.
func (s *Sheet) layKind(b bank, k kind, x, middle float64) {
	w, h := sizeInBank(k.symbol)
	first := x + b.head() + target/2
	balloon := Balloon{Items: k.items}
	balloon.Width = wide(balloon.Text())
	balloon.At = point{x + balloon.Width/2, middle}
	for i, it := range k.items {
		m := mark(it, k.symbol, point{first + column*float64(i), middle}, k.symbol.axial, w, h)
		m.Target = m.At.spanning(about(m.At.middle(), target, target))
		if i == 0 {
			balloon.To = m.enter(balloon.At, m.At.middle())
		}
		s.Marks = append(s.Marks, m)
	}
	s.Balloons = append(s.Balloons, balloon)
}

// off says how many of a part there are, as on a drawing: "12 off".
func off(n int) string { return strconv.Itoa(n) + " off" }
