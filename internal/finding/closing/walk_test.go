package closing

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/demo"
	"matchmark/internal/finding/judge"
	"matchmark/internal/kit"
	"matchmark/internal/machine"
	"matchmark/internal/trade/fastener"
	"matchmark/internal/trade/reckon"
)

// whole is the whole kit machine, as no bench has seen it yet.
func whole(t testing.TB) *machine.Machine {
	t.Helper()
	sheets, take, err := kit.Whole()
	if err != nil {
		t.Fatal(err)
	}
	bodies, _, err := kit.Expand(sheets, take)
	if err != nil {
		t.Fatal(err)
	}
	return machine.Fold(log(bodies...))
}

func demoMachine(t testing.TB) *machine.Machine {
	t.Helper()
	entries, err := demo.Entries()
	if err != nil {
		t.Fatal(err)
	}
	return machine.Fold(entries)
}

// TestEveryJoint: each joint of the whole kit and of the demo has a sheet. A
// bolted joint with a thread and a number has a range that is finite, opens
// upward and stays below its limit, or a reason why it has none; the reasons
// are counted so that none spreads unseen.
func TestEveryJoint(t *testing.T) {
	for name, m := range map[string]*machine.Machine{"whole kit": whole(t), "demo": demoMachine(t)} {
		bolted, ranged, figures, pictures := 0, 0, 0, 0
		why := map[string]int{}
		for _, s := range All(m, judge.Findings{}) {
			sound(t, name, s)
			if s.Pattern != nil {
				pictures++
			}
			if s.Joint.Sort != "bolted" || len(s.Tightening) == 0 {
				continue
			}
			bolted++
			has := false
			for _, set := range s.Tightening {
				figures += len(set.Torques)
				has = has || len(set.Torques) > 0
				if set.Stop != "" {
					why[strings.SplitN(set.Stop, " ", 4)[0]+" "+string(s.Joint.Type)]++
				}
			}
			if has {
				ranged++
			} else if s.Tightening[0].Stop == "" {
				t.Errorf("%s, %s: neither torque nor reason", name, s.Joint.ID)
			}
		}
		t.Logf("%s: %d bolted joints with a thread, %d with a range (%d figures), %d pictures; without: %v", name, bolted, ranged, figures, pictures, why)
		if ranged*10 < bolted*8 {
			t.Errorf("%s: only %d of %d bolted joints have a range", name, ranged, bolted)
		}
	}
}

// sound checks what holds for every sheet.
func sound(t *testing.T, name string, s Sheet) {
	t.Helper()
	id := s.Joint.ID
	if s.Joint.Life && s.Life == "" {
		t.Errorf("%s, %s: life joint without its words", name, id)
	}
	if len(hazardsOf(s.Joint)) > 0 && len(s.Cautions) == 0 {
		t.Errorf("%s, %s: hazards without a caution", name, id)
	}
	if s.Joint.Sort == "bolted" && s.Pattern == nil && len(s.Around) == 0 && len(s.Tightening) > 0 && s.Tightening[0].Sets[0].Count != 1 {
		t.Errorf("%s, %s: no order, not even in words", name, id)
	}
	for _, set := range s.Tightening {
		for _, q := range set.Torques {
			if !(q.LowNM > 0 && q.LowNM < q.HighNM && q.HighNM <= q.LimitNM) || math.IsInf(q.LimitNM, 0) {
				t.Errorf("%s, %s, %s class %s: %g to %g N·m, never above %g", name, id, set.Thread, q.Class, q.LowNM, q.HighNM, q.LimitNM)
			}
			if !strings.Contains(q.Say, NotMakers) || q.If == "" || q.Source == "" || q.By == "" {
				t.Errorf("%s, %s: a figure without its source: %+v", name, id, q)
			}
			if strings.Contains(q.If, "no mark") && q.Class != "5.8" && q.Class != "grade 2" {
				t.Errorf("%s, %s: an unmarked bolt is taken as %s", name, id, q.Class)
			}
		}
		if s.Refused != "" && len(set.Torques) > 0 {
			t.Errorf("%s, %s: refused, yet a torque", name, id)
		}
	}
	for _, topic := range s.Reckon {
		known, err := reckon.Find(topic)
		if err != nil {
			t.Errorf("%s, %s: %v", name, id, err)
			continue
		}
		var missing reckon.MissingError
		if _, _, err := known.Reckon(s.Given[topic]); err != nil && !errors.As(err, &missing) {
			t.Errorf("%s, %s: reckon %s %v: %v", name, id, topic, s.Given[topic], err)
		}
	}
}

// TestLayouts: every layout of the kits reads, holds as many bolts as the kit
// gives the joint where both say, and is ordered.
func TestLayouts(t *testing.T) {
	m := whole(t)
	d := For(m, judge.Findings{})
	both, seen := 0, 0
	for _, j := range m.Joints {
		if j.Plan.Layout == "" {
			continue
		}
		seen++
		l, err := fastener.ParseLayout(j.Plan.Layout)
		if err != nil {
			t.Errorf("%s: %v", j.ID, err)
			continue
		}
		n := d.kitCount(j)
		if l.Count > 0 && n > 0 {
			both++
			if l.Count != n {
				t.Errorf("%s: layout %q holds %d, the kit gives %d", j.ID, j.Plan.Layout, l.Count, n)
			}
		}
		if l.Count > 0 || n > 0 {
			if d.Of(j).Pattern == nil {
				t.Errorf("%s: layout %q with %d is not drawn", j.ID, j.Plan.Layout, n)
			}
		}
	}
	if seen < 50 || both < 15 {
		t.Errorf("%d layouts, %d with a number on both sides; more were expected", seen, both)
	}
	t.Logf("%d joints with a layout, %d counted on both sides", seen, both)
}

// TestSameWhateverTheOrder: entries in another sequence give the same sheets.
func TestSameWhateverTheOrder(t *testing.T) {
	entries, err := demo.Entries()
	if err != nil {
		t.Fatal(err)
	}
	first := texts(All(machine.Fold(entries), judge.Findings{}))
	for i, n := 0, len(entries); i < n/2; i += 3 {
		entries[i], entries[n-1-i] = entries[n-1-i], entries[i]
	}
	again := texts(All(machine.Fold(entries), judge.Findings{}))
	for i := range first {
		if first[i] != again[i] {
			t.Fatalf("sheet %d differs:\n%s\n%s", i, first[i], again[i])
		}
	}
}

// TestGivenFindingsChangeNothing: verdicts handed in give the same sheets as
// verdicts made here.
func TestGivenFindingsChangeNothing(t *testing.T) {
	m := demoMachine(t)
	with, without := texts(All(m, judge.All(m))), texts(All(m, judge.Findings{}))
	if !reflect.DeepEqual(with, without) {
		t.Error("sheets differ with the verdicts given")
	}
}

// TestTopics: the sums that belong to well-known joints are offered there.
func TestTopics(t *testing.T) {
	m := whole(t)
	d := For(m, judge.Findings{})
	for id, want := range map[machine.JointID]string{
		"head-block": "torque", "head-gasket-joint": "bump", "rocker-lash.in-1": "valve-lash", "thrust-float": "shim-pack",
		"diff-in-case": "shim-influence", "ip-block": "spill-shim", "ring-groove-top.1": "ring-gap", "half-brg-fit.inner-left": "bearing-heat",
	} {
		j := m.Joint(id)
		if j == nil {
			t.Errorf("%s is not on the machine", id)
			continue
		}
		if s := d.Of(j); !slices.Contains(s.Reckon, want) {
			t.Errorf("%s: %v; want %s among them", id, s.Reckon, want)
		}
	}
}

func BenchmarkSheets(b *testing.B) {
	m := demoMachine(b)
	judged := judge.All(m)
	b.ReportMetric(float64(len(m.Joints)), "joints")
	for b.Loop() {
		All(m, judged)
	}
}
