package machine

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// noon is when the tests' first fact was recorded.
var noon = time.Date(2024, 5, 12, 12, 0, 0, 0, time.UTC)

// book writes entries a minute apart, in the order in which they are said.
type book struct {
	entries []Entry
	device  string
}

// say adds facts and returns the id of the last.
func (b *book) say(bodies ...Body) EntryID {
	for _, body := range bodies {
		n := len(b.entries)
		b.entries = append(b.entries, Entry{ID: EntryID(fmt.Sprintf("e%05d", n)), At: noon.Add(time.Duration(n) * time.Minute),
			By: "ada", Device: b.device, Version: 1, Body: body})
	}
	return b.entries[len(b.entries)-1].ID
}

// correct adds a fact that supersedes an entry.
func (b *book) correct(old EntryID, body Body) EntryID {
	id := b.say(body)
	b.entries[len(b.entries)-1].Supersedes = old
	return id
}

// late adds a fact that was recorded offline at minute n and came only now.
func (b *book) late(n float64, id EntryID, body Body) {
	b.entries = append(b.entries, Entry{ID: id, At: noon.Add(time.Duration(n * float64(time.Minute))), By: "ben", Device: "phone", Version: 1, Body: body})
}

// engine is a small machine: two cylinders, each with a liner, a rod and two
// valves, under one head and one cover.
func engine() *book {
	b := &book{device: "bench"}
	b.say(
		&MachineNamed{Name: "Engine"},
		&PlacesSet{Places{Family: "cylinder", Name: "cylinder", Labels: []Place{"1", "2"}}},
		&PlacesSet{Places{Family: "valve", Name: "valve", Labels: []Place{"in-1", "ex-1", "in-2", "ex-2"}, Under: "cylinder", Above: []Place{"1", "1", "2", "2"}}},
		&AssemblyAdded{ID: "engine", Name: "Engine"},
		&PartAdded{ID: "block", Name: "Block", Assembly: "engine", Qty: 1},
		&PartAdded{ID: "cover", Name: "Cover", Assembly: "engine", Qty: 1},
		&PartAdded{ID: "liner", Name: "Liner", Assembly: "engine", Places: "cylinder", Qty: 1},
		&PartAdded{ID: "rod", Name: "Rod", Assembly: "engine", Places: "cylinder", Qty: 1},
		&PartAdded{ID: "valve", Name: "Valve", Assembly: "engine", Places: "valve", Qty: 1},
		&FeatureAdded{Part: "liner", Feature: "bore", Name: "bore", Sort: Bore, Levels: []string{"top", "low"}, Axes: []string{"along", "across"}},
		&FeatureAdded{Part: "valve", Feature: "stem", Name: "stem", Sort: Shaft},
		&JointAdded{ID: "cover-bolts", Name: "Cover", Assembly: "engine", Sort: "bolted", Parts: []PartID{"block", "cover"}},
		&JointAdded{ID: "big-end", Name: "Big end", Assembly: "engine", Sort: "plain bearing", Places: "cylinder", Parts: []PartID{"rod", "block"}, Reach: [][]JointID{{"cover-bolts"}}},
		&JointAdded{ID: "seat", Name: "Seat", Assembly: "engine", Sort: "press", Places: "valve", Parts: []PartID{"valve", "liner"}, Reach: [][]JointID{{"big-end", "cover-bolts"}, {"cover-bolts"}}},
		&CheckAdded{ID: "bore-wear", Name: "Bore wear", Assembly: "engine", Places: "cylinder", Parts: []PartID{"liner"}, When: Apart, By: BySize, Outer: "liner/bore", Unit: "mm",
			Limits:   []Limit{{High: "80.1", From: CommonPractice, Source: "no source"}},
			HiddenBy: []JointID{"cover-bolts"},
			Remedies: []Remedy{{Key: "rebore", Name: "Rebore", Steps: []float64{0.25, 0.5}, Reworks: []FeatureID{"liner/bore"}, Opens: []CheckID{"side-play"}}}},
		&CheckAdded{ID: "side-play", Name: "Side play", Assembly: "engine", Places: "cylinder", Joints: []JointID{"big-end"}, When: Made, By: ByReading, Unit: "mm"},
		&CheckAdded{ID: "leak", Name: "Leak", Assembly: "engine", Places: "valve", Joints: []JointID{"seat"}, When: Made, By: ByEye},
		&CheckAdded{ID: "stop-zero", Name: "Stop reaches zero", Assembly: "engine", Joints: []JointID{"cover-bolts"}, When: Apart, By: ByEye, Life: true},
		&TestAdded{ID: "turn-over", Name: "Turn over by hand", System: "engine", From: CommonPractice},
	)
	return b
}

// mm is a reading as typed.
func mm(v float64) Amount {
	return Amount{Value: v, Unit: "mm", Typed: fmt.Sprintf("%.3f", v), Step: 0.001}
}

// bore reads the bore of a liner at one point.
func bore(at Place, v float64) *ReadingTaken {
	return &ReadingTaken{Feature: FeatureOf(Instance(PartID("liner"), at), "bore"), Level: "top", Axis: "along", Amount: mm(v)}
}

// questions fails the test unless the questions contain the words wanted, one
// each, and no more.
func questions(t *testing.T, m *Machine, want ...string) {
	t.Helper()
	left := map[int]bool{}
	for i := range m.Questions {
		left[i] = true
	}
	for _, words := range want {
		found := false
		for i, q := range m.Questions {
			if left[i] && strings.Contains(q.Text, words) {
				delete(left, i)
				found = true
				break
			}
		}
		if !found {
			t.Errorf("no question says %q", words)
		}
	}
	for i := range m.Questions {
		if left[i] {
			t.Errorf("a question nobody expected: %s", m.Questions[i].Text)
		}
	}
}
