package web

import (
	"fmt"
	"math"
	"net/url"
	"strconv"
	"strings"
	"testing"

	"matchmark/internal/demo"
	"matchmark/internal/finding/closing"
	"matchmark/internal/machine"
	"matchmark/internal/trade/fastener"
)

// TestSheetOfEveryJoint: each closing page of the demo says all its sheet has:
// torque with its limit and source, order, shims, what goes on, what must be
// new, marks, what was recorded.
func TestSheetOfEveryJoint(t *testing.T) {
	h := newDemoHouse(t)
	v := h.view()
	desk := closing.For(v.Machine, v.Judged())
	drawn, torques, shims, done, refused := 0, 0, 0, 0, 0
	for i, j := range v.Machine.Joints {
		s := desk.Of(j)
		telling := s.Pattern != nil || s.Shims != nil || s.Done != nil || s.Refused != "" || s.Paper != nil
		if !telling && i%12 != 0 { // of the plain ones some
			continue
		}
		p := h.ask("GET", closeAddress("/m/"+string(demo.ID), j.ID), nil).is(200)
		p.says(one(s.Refused), one(s.Weigh))
		for _, c := range s.Cautions {
			p.says(one(c.Text))
		}
		for _, q := range s.Tightening {
			p.says(q.Thread, one(q.Stop), one(q.New))
			for _, x := range q.Torques {
				torques++
				span, never := rangeWords(x)
				p.says(strings.TrimSuffix(span, " N·m"), never, x.Class, one(x.Source), one(x.Bite), closing.NotMakers)
				if !strings.HasPrefix(x.Say, span) || never == "" {
					t.Errorf("%s: %q is cut to %q and %q", j.Name, x.Say, span, never)
				}
			}
		}
		for _, n := range s.New {
			p.says(n.Name)
		}
		for _, w := range append(append([]string{}, s.Around...), s.Marks...) {
			p.says(one(w))
		}
		if s.Shims != nil {
			shims++
			p.says(one(s.Shims.Why), one(s.Shims.Plan))
			if s.Shims.Want != nil {
				p.says(one(s.Shims.Want.Say))
			}
		}
		if s.Done != nil {
			done++
			for _, w := range s.Done.Says {
				p.says(one(w))
			}
		}
		if s.Refused != "" {
			refused++
		}
		if f := boltsOf(s.Pattern); f != nil {
			drawn++
			p.says(numbersTo(len(f.Bolts)))
		}
	}
	if drawn < 20 || torques < 50 || shims < 10 || done == 0 || refused == 0 {
		t.Errorf("%d fields drawn, %d torques, %d shims, %d done, %d refused; the demo has more", drawn, torques, shims, done, refused)
	}
}

// one makes spaces single, as in the text of a page.
func one(text string) string { return strings.Join(strings.Fields(text), " ") }

func numbersTo(n int) string {
	words := make([]string, n)
	for i := range words {
		words[i] = strconv.Itoa(i + 1)
	}
	return strings.Join(words, " ")
}

// TestBoltsAreDrawnWhereTheyStand: each bolt once, in its place, apart from the
// others, its number its place in the order.
func TestBoltsAreDrawnWhereTheyStand(t *testing.T) {
	for name, bolts := range map[string][]fastener.Bolt{"rows 2x6": fastener.Rows(2, 6, 100), "circle 10": fastener.Circle(10, 120), "row of 4": fastener.Rows(1, 4, 30), "two": fastener.Rows(1, 2, 80), "column": fastener.Rows(5, 1, 40)} {
		order := make([]int, len(bolts))
		for i := range bolts {
			order[i] = bolts[len(bolts)-1-i].Number
		}
		f := boltsOf(&closing.Pattern{Bolts: bolts, Order: order})
		if f == nil || len(f.Bolts) != len(bolts) {
			t.Fatalf("%s: %+v", name, f)
		}
		for i, a := range f.Bolts {
			if a.N != i+1 || a.First != (i == 0) {
				t.Errorf("%s: the mark at %d has number %d", name, i, a.N)
			}
			if a.X < boltEdge || a.X > f.Width-boltEdge || a.Y < boltEdge || a.Y > f.Height-boltEdge {
				t.Errorf("%s: bolt %d stands at %d, %d, outside of %d by %d", name, a.N, a.X, a.Y, f.Width, f.Height)
			}
			for _, b := range f.Bolts[:i] {
				if d := math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)); d < 2*30 {
					t.Errorf("%s: bolts %d and %d are %.0f apart and run into one another", name, a.N, b.N, d)
				}
			}
		}
		first, last := bolts[len(bolts)-1], bolts[0]
		up := f.Bolts[0].Y < f.Bolts[len(bolts)-1].Y
		if first.Y > last.Y != up && first.Y != last.Y {
			t.Errorf("%s: up and down are turned", name)
		}
	}
	if boltsOf(nil) != nil || boltsOf(&closing.Pattern{Bolts: fastener.Rows(1, 2, 10), Order: []int{1, 9}}) != nil {
		t.Error("a field without places is drawn")
	}
}

// TestRecordedBesideAdvised: a dry build with its torque shows what was done
// against what is advised, and too much is said to be too much.
func TestRecordedBesideAdvised(t *testing.T) {
	h := newDemoHouse(t)
	at := closeAddress("/m/"+string(demo.ID), "rod-cap-bolt.2")
	v := h.view()
	s := v.Closing(v.Machine.Joint("rod-cap-bolt.2"))
	most := s.Tightening[0].Torques[0].LimitNM
	h.record(&machine.JointClosed{Joint: "rod-cap-bolt.2", As: machine.Trial, Torque: &machine.Amount{Value: 4 * most, Unit: "N·m", Typed: fmt.Sprintf("%.0f N·m", 4*most)}})
	h.ask("GET", at, nil).is(200).says("Recorded, and too much", "Advised, by head")
	h.ask("POST", at, url.Values{"as": {"trial"}, "torque": {"3 kg"}}).is(422).says("3 kg", "Nothing was closed")
}
