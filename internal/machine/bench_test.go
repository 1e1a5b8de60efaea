package machine

import (
	"encoding/json"
	"fmt"
	"testing"
)

// bigLog is a log of n entries on a machine of about 500 parts and 650 joints:
// a tenth corrected, a fiftieth withdrawn.
func bigLog(n int) []Entry {
	b := &book{device: "bench"}
	b.say(&MachineNamed{Name: "Big"},
		&PlacesSet{Places{Family: "cylinder", Name: "cylinder", Labels: []Place{"1", "2", "3", "4"}}})
	const kinds = 125
	for i := range kinds {
		part, joint, check := PartID(fmt.Sprintf("part-%d", i)), JointID(fmt.Sprintf("joint-%d", i)), CheckID(fmt.Sprintf("check-%d", i))
		b.say(&PartAdded{ID: part, Name: "Part", Assembly: "a", Places: "cylinder", Qty: 1},
			&FeatureAdded{Part: part, Feature: "bore", Name: "bore", Sort: Bore, Levels: []string{"top", "low"}},
			&JointAdded{ID: joint, Name: "Joint", Assembly: "a", Sort: "bolted", Places: "cylinder", Parts: []PartID{part, PartID(fmt.Sprintf("part-%d", max(i-1, 0)))},
				Reach: [][]JointID{{JointID(fmt.Sprintf("joint-%d", i-1))}}},
			&CheckAdded{ID: check, Name: "Check", Assembly: "a", Places: "cylinder", Joints: []JointID{joint}, When: Apart, By: BySize, Outer: FeatureOf(part, "bore"), Unit: "mm",
				Limits: []Limit{{High: "80.1", From: CommonPractice}}, HiddenBy: []JointID{joint},
				Remedies: []Remedy{{Key: "rework", Reworks: []FeatureID{FeatureOf(part, "bore")}, Opens: []CheckID{check}}}})
	}
	for i := 0; len(b.entries) < n; i++ {
		at := Place(fmt.Sprint(i%4 + 1))
		part := Instance(PartID(fmt.Sprintf("part-%d", i%kinds)), at)
		joint := Instance(JointID(fmt.Sprintf("joint-%d", i%kinds)), at)
		check := Instance(CheckID(fmt.Sprintf("check-%d", i%kinds)), at)
		switch i % 25 {
		case 0:
			b.say(&JointOpened{Joint: joint, Tray: fmt.Sprint(i % 40), Off: []PartID{part}})
		case 1:
			b.say(&JointClosed{Joint: joint, As: Final})
		case 2:
			b.say(&RemedyDone{Check: check, Key: "rework", Reworked: []FeatureID{FeatureOf(part, "bore")}})
		case 3, 4:
			b.correct(b.entries[len(b.entries)-1].ID, &Noted{Of: RefPart(part), Text: "corrected"})
		case 5:
			b.say(&EntryWithdrawn{Target: b.entries[len(b.entries)-1].ID})
		case 6:
			b.say(&LookTaken{Check: check, OK: true})
		case 7:
			b.say(&PhotoAdded{Of: RefJoint(joint), Sum: "00", Type: "image/jpeg"})
		default:
			b.say(&ReadingTaken{Feature: FeatureOf(part, "bore"), Level: "top", Amount: mm(80.01)})
		}
	}
	return b.entries
}

// BenchmarkFold folds logs in the order of their times and the other way
// round. DESIGN, section 9: 10,000 entries in 15 ms.
func BenchmarkFold(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		log := bigLog(n)
		back := make([]Entry, n)
		for i, e := range log {
			back[n-1-i] = e
		}
		for name, entries := range map[string][]Entry{"in order": log, "backwards": back} {
			b.Run(fmt.Sprintf("%d %s", n, name), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if m := Fold(entries); m.Entries != n {
						b.Fatal(m.Entries)
					}
				}
			})
		}
	}
}

// BenchmarkDecode reads 10,000 lines.
func BenchmarkDecode(b *testing.B) {
	log := bigLog(10000)
	lines := make([][]byte, len(log))
	for i, e := range log {
		line, err := json.Marshal(e)
		if err != nil {
			b.Fatal(err)
		}
		lines[i] = line
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, l := range lines {
			Decode(l)
		}
	}
}
