package balance

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"matchmark/internal/machine"
)

func fold(bodies ...machine.Body) *machine.Machine {
	return machine.Fold(log(bodies...))
}

func log(bodies ...machine.Body) []machine.Entry {
	var out []machine.Entry
	for i, b := range bodies {
		out = append(out, machine.Entry{ID: machine.EntryID(fmt.Sprintf("e%04d", i)), By: "ann", Version: 1, Body: b,
			At: time.Date(2025, 5, 1, 8, 0, 0, 0, time.UTC).Add(time.Duration(i) * time.Minute)})
	}
	return out
}

func ground() []machine.Body {
	return []machine.Body{
		&machine.PartAdded{ID: "cover", Name: "Cover", Qty: 1},
		&machine.PartAdded{ID: "spring", Name: "Spring", Qty: 4},
		&machine.JointAdded{ID: "cover-fit", Name: "Cover joint", Parts: []machine.PartID{"cover", "spring"}},
	}
}

func bolts(n int) []machine.Fastener { return []machine.Fastener{{Size: "M8x20", Count: n}} }

func TestSheet(t *testing.T) {
	open := func(f []machine.Fastener, s ...machine.Shim) *machine.JointOpened {
		return &machine.JointOpened{Joint: "cover-fit", Tray: "3", Off: []machine.PartID{"cover", "spring"}, Fasteners: f, Shims: s}
	}
	shut := func(as string, f []machine.Fastener, s ...machine.Shim) *machine.JointClosed {
		return &machine.JointClosed{Joint: "cover-fit", As: as, Fasteners: f, Shims: s}
	}
	for name, c := range map[string]struct {
		bodies []machine.Body
		words  string
		even   bool
	}{
		"untouched":     {nil, "Nothing left over, nothing missing.", true},
		"out":           {[]machine.Body{open(bolts(6))}, "Still out: 2 parts, 1 joint to close.", false},
		"even":          {[]machine.Body{open(bolts(6)), shut(machine.Final, bolts(6))}, "Nothing left over, nothing missing.", true},
		"short":         {[]machine.Body{open(bolts(6)), shut(machine.Final, bolts(5))}, "Cover joint: 5 of 6 M8x20 back, 1 missing.", false},
		"more":          {[]machine.Body{open(bolts(6)), shut(machine.Final, bolts(7))}, "Cover joint: 7 M8x20 in where 6 came out.", false},
		"not written":   {[]machine.Body{open(bolts(6)), shut(machine.Final, nil)}, "Cover joint: fasteners came out, but none are written as put back.", false},
		"other size":    {[]machine.Body{open(bolts(6)), shut(machine.Final, []machine.Fastener{{Size: "M8x25", Count: 6}})}, "Cover joint: 0 of 6 M8x20 back, 6 missing; 6 M8x25 in where 0 came out.", false},
		"dry build":     {[]machine.Body{open(bolts(6)), shut(machine.Trial, bolts(2)), open(nil), shut(machine.Final, bolts(6))}, "Nothing left over, nothing missing.", true},
		"second round":  {[]machine.Body{open(bolts(6)), shut(machine.Final, bolts(6)), open(bolts(4)), shut(machine.Final, bolts(4))}, "Nothing left over, nothing missing.", true},
		"no shims back": {[]machine.Body{open(nil, machine.Shim{ThicknessMM: 0.1, Count: 3}), shut(machine.Final, nil)}, "Cover joint: shims of 0.30 mm came out, none are written as put back.", false},
		"other shims":   {[]machine.Body{open(nil, machine.Shim{ThicknessMM: 0.1, Count: 3}), shut(machine.Final, nil, machine.Shim{ThicknessMM: 0.2, Count: 1})}, "Nothing left over, nothing missing.", true},
		"piece missing": {[]machine.Body{open(bolts(6)), &machine.PartCounted{Part: "spring", Found: 3}, shut(machine.Final, bolts(6))}, "Spring: 3 of 4 found, 1 missing.", false},
		"piece extra":   {[]machine.Body{&machine.PartCounted{Part: "spring", Found: 5}}, "Spring: 5 found where 4 belong, 1 too many.", false},
		"left over": {[]machine.Body{open(bolts(6)), shut(machine.Final, bolts(6)), &machine.PartMoved{Part: "spring", Tray: "9"}},
			"Spring is left over: it lies in tray 9 and every joint of it is closed. Still out: 1 part, 0 joints to close.", false},
		"at the shop": {[]machine.Body{open(bolts(6)), &machine.Ordered{Order: "o1", What: "plating", Parts: []machine.PartID{"spring"}, Out: true}},
			"Still out: 2 parts, 1 joint to close.", false},
	} {
		s := Of(fold(append(ground(), c.bodies...)...))
		if got := strings.Join(s.Words, " "); got != c.words || s.Even != c.even {
			t.Errorf("%s: %q, even %v; want %q, %v", name, got, s.Even, c.words, c.even)
		}
	}
}

// What has to be got new: fasteners that were missing or broken belong to the
// joint all the same.
func TestFastenersToGet(t *testing.T) {
	s := Of(fold(append(ground(), &machine.JointOpened{Joint: "cover-fit", Fasteners: []machine.Fastener{
		{Size: "M8x20", Count: 4}, {Size: "M8x20", Count: 1, State: "broken"}, {Size: "M8x20", Count: 1, State: "missing"}}})...))
	if len(s.Joints) != 1 || !slices.Equal(s.Joints[0].Fasteners, []FastenerLine{{Size: "M8x20", Out: 6, Get: 2}}) {
		t.Errorf("joints %+v", s.Joints)
	}
}

// Putting back exactly what was written as come out is always even, in
// whatever order the entries are handed over.
func TestWhatGoesBackIsEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var bodies []machine.Body
		n := rapid.IntRange(1, 6).Draw(t, "joints")
		var events []machine.Body
		for i := range n {
			id := fmt.Sprintf("j%d", i)
			part := machine.PartID("p" + id)
			bodies = append(bodies, &machine.PartAdded{ID: part, Name: id, Qty: rapid.IntRange(1, 9).Draw(t, "qty")},
				&machine.JointAdded{ID: machine.JointID(id), Name: id, Parts: []machine.PartID{part}})
			var f []machine.Fastener
			for k := range rapid.IntRange(0, 3).Draw(t, "sizes") {
				f = append(f, machine.Fastener{Size: fmt.Sprintf("M%d", 6+k), Count: rapid.IntRange(1, 20).Draw(t, "count")})
			}
			for range rapid.IntRange(1, 2).Draw(t, "rounds") {
				events = append(events, &machine.JointOpened{Joint: machine.JointID(id), Tray: "1", Off: []machine.PartID{part}, Fasteners: f},
					&machine.JointClosed{Joint: machine.JointID(id), As: machine.Final, Fasteners: f})
			}
		}
		entries := log(append(bodies, events...)...)
		rand.New(rand.NewSource(rapid.Int64().Draw(t, "seed"))).Shuffle(len(entries), func(i, k int) { entries[i], entries[k] = entries[k], entries[i] })
		if s := Of(machine.Fold(entries)); !s.Even {
			t.Fatalf("not even: %v", s.Words)
		}
	})
}
