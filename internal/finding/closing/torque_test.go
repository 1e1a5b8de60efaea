package closing

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/reftest"
	"matchmark/internal/trade/fastener"
)

// bolted is a cover on a block, held by n bolts, with what the kit says of it.
func bolted(change func(*machine.JointAdded), more ...machine.Body) []machine.Body {
	j := &machine.JointAdded{ID: "cover-fit", Name: "Cover to block", Sort: "bolted", Parts: []machine.PartID{"cover", "block", "cover-bolt"}}
	if change != nil {
		change(j)
	}
	return append([]machine.Body{
		&machine.PartAdded{ID: "block", Name: "Block", Qty: 1, Material: "grey cast iron"},
		&machine.PartAdded{ID: "cover", Name: "Cover", Qty: 1, Material: "aluminium"},
		&machine.PartAdded{ID: "cover-bolt", Name: "Cover bolt", Qty: 6, Material: "steel"},
		&machine.PartAdded{ID: "gasket", Name: "Cover gasket", Qty: 1, Material: "paper", OneUse: true}, j}, more...)
}

func sheetOf(t *testing.T, bodies []machine.Body) Sheet {
	t.Helper()
	m := machine.Fold(log(bodies...))
	for _, q := range m.Questions {
		t.Errorf("question: %s", q.Text)
	}
	return Of(m, m.Joint("cover-fit"))
}

func out(sets ...machine.Fastener) *machine.JointOpened {
	return &machine.JointOpened{Joint: "cover-fit", Off: []machine.PartID{"cover"}, Fasteners: sets}
}

// TestClasses: which classes a set may be of, and what its head must say.
func TestClasses(t *testing.T) {
	for _, c := range []struct {
		name, size, grade string
		want              []string // class: part of when
	}{
		{"nothing known", "M10x1.25x40", "", []string{"5.8: no mark", "8.8: the head reads 8.8"}},
		{"read on the head", "M10x1.25x40 10.9", "", []string{"10.9: the head reads 10.9"}},
		{"usual here", "M10x1.25x40", "8.8", []string{"8.8: usual here", "5.8: no mark"}},
		{"strong usual here", "M10x1.25x40", "10.9", []string{"10.9: the head reads 10.9, usual here", "5.8: get bolts that bear it"}},
		{"the head rules over the kit", "M10x1.25x40 8.8", "10.9", []string{"8.8: the head reads 8.8"}},
		{"brass", "M8x1.25 brass nut", "8.8", []string{"4.6: brass"}},
		{"inch", "7/16-20 UNF", "", []string{"grade 2: no mark", "grade 5: the head reads 5"}},
	} {
		s := sheetOf(t, bolted(func(j *machine.JointAdded) { j.Grade, j.Thread = c.grade, "M10x1.25" }, out(machine.Fastener{Size: c.size, Count: 6})))
		if len(s.Tightening) != 1 || len(s.Tightening[0].Torques) != len(c.want) {
			t.Errorf("%s: %+v; want %v", c.name, s.Tightening, c.want)
			continue
		}
		for i, q := range s.Tightening[0].Torques {
			class, part, _ := strings.Cut(c.want[i], ": ")
			if q.Class != class || !strings.Contains(q.If, part) {
				t.Errorf("%s: class %s, %q; want %s", c.name, q.Class, q.If, c.want[i])
			}
		}
	}
}

// TestNeverMoreOnAGuess: whatever the kit says, an unmarked bolt is not given
// more than 5.8 takes, and nothing rises above 8.8 without a mark.
func TestNeverMoreOnAGuess(t *testing.T) {
	for _, grade := range []string{"", "8.8", "10.9", "12.9"} {
		s := sheetOf(t, bolted(func(j *machine.JointAdded) { j.Grade, j.Thread = grade, "M12" }))
		for _, q := range s.Tightening[0].Torques {
			if marked := strings.Contains(q.If, "the head reads"); !marked && q.Class != "5.8" {
				t.Errorf("kit grade %q: class %s where %s", grade, q.Class, q.If)
			}
		}
	}
}

// TestAgainstTheTable holds the ranges against 2_threads.csv: preload and
// torque at 90 % of yield, rows read in a source (fine threads) and rows
// computed or from memory (coarse 8.8). The range for clean and oiled is
// reckoned at friction 0.08 to 0.16: its limit stands at 0.08, so it lies below
// the table's torque at 0.10, and the torque that the aim of 70 % of proof would
// need at 0.16 lies above the same share of the table's.
func TestAgainstTheTable(t *testing.T) {
	tab := reftest.Load(t, "2_threads.csv")
	for id, size := range map[string]string{
		"THR-078": "M8x1", "THR-081": "M10x1.25", "THR-084": "M12x1.25", "THR-087": "M16x1.5", "THR-090": "M20x1.5", // mu 0.10, read in a source
		"THR-096": "M8", "THR-097": "M10", "THR-098": "M12", "THR-099": "M16", "THR-100": "M18", "THR-101": "M20", // mu 0.12, 8.8: computed, or from memory
	} {
		row := tab.Row(t, id)
		s := sheetOf(t, bolted(func(j *machine.JointAdded) { j.Parts = []machine.PartID{"cover-bolt", "gasket"} }, out(machine.Fastener{Size: size + " 8.8", Count: 6})))
		_, torques, _ := strings.Cut(row["expected"], "M=")
		want, fine := 0.0, strings.Contains(torques, ";")
		if _, err := fmt.Sscanf(torques, "%g", &want); err != nil {
			t.Fatalf("%s: %q: %v", id, row["expected"], err)
		}
		q := s.Tightening[0].Torques[0]
		// the same joint at the row's friction and share, through package fastener
		mu := 0.12
		if fine {
			mu = 0.10
		}
		th, _ := fastener.Named(size)
		class, _ := fastener.ClassOf(th, "8.8")
		head, _ := fastener.HexHead(th)
		at := fastener.Joint{Thread: th, Class: class, Head: head, Friction: fastener.Friction{Thread: fastener.Band{Lo: mu, Hi: mu}, Head: fastener.Band{Lo: mu, Hi: mu}}}
		a, err := at.Advise(fastener.UsualShare)
		if err != nil {
			t.Fatal(err)
		}
		if off := a.LimitNM/want - 1; math.Abs(off) > 0.03 {
			tab.Fail(t, id, fmt.Sprintf("90 %% of yield at friction %g: %.1f N·m, the table has %g", mu, a.LimitNM, want))
		}
		if !(q.LimitNM < want) || !(q.LimitNM > 0.7*want) || !(q.LowNM < q.HighNM) || q.HighNM > q.LimitNM {
			tab.Fail(t, id, fmt.Sprintf("%s: %.1f to %.1f, never above %.1f; the table has %g at friction %g", size, q.LowNM, q.HighNM, q.LimitNM, want, mu))
		}
	}
}

// TestThreadGuards: the metal that the thread sits in sets the limit where it
// is the weaker one, and says how deep the bolt wants to bite.
func TestThreadGuards(t *testing.T) {
	limit := map[string]float64{}
	for _, c := range []struct{ name, into, material, by string }{
		{"iron", "block", "grey cast iron", "thread in cast iron (block)"},
		{"aluminium", "block", "aluminium", "thread in aluminium (block)"},
		{"either", "block", "cast iron/aluminium", "thread in aluminium (block)"},
		{"ductile", "block", "forged steel or ductile iron", "thread in steel (block)"},
		{"not said", "", "grey cast iron", "thread in aluminium (weakest metal of the joint"},
	} {
		bodies := bolted(func(j *machine.JointAdded) { j.Into = machine.PartID(c.into) }, out(machine.Fastener{Size: "M10x1.25 10.9", Count: 4}))
		bodies[0].(*machine.PartAdded).Material = c.material
		q := sheetOf(t, bodies).Tightening[0].Torques[0]
		limit[c.name] = q.LimitNM
		if !strings.Contains(q.By, c.by) {
			t.Errorf("%s: limit by %s; want %s", c.name, q.By, c.by)
		}
		if thread := strings.Contains(q.By, "thread"); thread != (q.Deep != nil) {
			t.Errorf("%s: limit by %s, deep %+v", c.name, q.By, q.Deep)
		}
		if q.Deep != nil && !(q.Deep.HighNM > q.HighNM && q.Deep.MM > 12) {
			t.Errorf("%s: deeper brings %+v, as it is %g", c.name, q.Deep, q.HighNM)
		}
	}
	if !(limit["aluminium"] < limit["iron"] && limit["iron"] < limit["ductile"]) || limit["either"] != limit["aluminium"] || limit["not said"] != limit["aluminium"] {
		t.Errorf("limits %v; aluminium below iron below steel was wanted", limit)
	}
}

// TestStops: where there is no torque, and why.
func TestStops(t *testing.T) {
	for _, c := range []struct {
		name string
		kit  func(*machine.JointAdded)
		size string
		want string
	}{
		{"stud", nil, "M10x1.25x80 stud", "finger tight"},
		{"banjo", nil, "M12x1.5 banjo bolt", "hollow"},
		{"castle nut", nil, "M14x1.5 castle nut", "next slot"},
		{"screw", nil, "M6x16 screw", "by hand"},
		{"no bolted joint", func(j *machine.JointAdded) { j.Sort, j.Tighten = "threaded", "low torque: snaps" }, "M10x1", "low torque: snaps"},
		{"life, thread not named", func(j *machine.JointAdded) { j.Life, j.Assembly = true, "brakes" }, "M10", "brake service"},
		{"protective frame", func(j *machine.JointAdded) { j.Life, j.Hazards = true, []string{"protective frame"} }, "M16 10.9", "certifier of protective frames"},
		{"cork", func(j *machine.JointAdded) { j.Parts = append(j.Parts, "gasket") }, "M6x20 8.8", "decides, not the bolt"},
	} {
		bodies := bolted(c.kit, out(machine.Fastener{Size: c.size, Count: 2}))
		if c.name == "cork" {
			bodies[3].(*machine.PartAdded).Material = "cork/rubber"
		}
		if strings.HasPrefix(c.name, "life") {
			bodies = slices.Insert(bodies, 0, machine.Body(&machine.AssemblyAdded{ID: "brakes", Name: "Brakes"}))
		}
		s := sheetOf(t, bodies)
		if len(s.Tightening) != 1 || len(s.Tightening[0].Torques) > 0 || !strings.Contains(s.Tightening[0].Stop, c.want) {
			t.Errorf("%s: %+v; want %q", c.name, s.Tightening, c.want)
		}
	}
	// a life joint whose kit names the thread has a range, with its words
	s := sheetOf(t, bolted(func(j *machine.JointAdded) { j.Life, j.Thread = true, "M10" }))
	if s.Life == "" || len(s.Tightening) != 1 || len(s.Tightening[0].Torques) == 0 {
		t.Errorf("life joint with a thread: %+v", s.Tightening)
	}
}

// TestOneUse: what must not go back is said.
func TestOneUse(t *testing.T) {
	old := bolted(nil, out(machine.Fastener{Size: "M9x1x46 10.9", Count: 2}))
	old[2].(*machine.PartAdded).OneUse = true
	s := sheetOf(t, old)
	if !strings.Contains(s.Tightening[0].New, "do not go back") || len(s.New) != 1 || len(s.Tightening[0].Torques) == 0 {
		t.Errorf("one-use bolts: %+v, new %v", s.Tightening, s.New)
	}
	for state, want := range map[string]string{"broken": "get 3 new", "missing": "get 3 new", "stretched": "past its yield", "bent": "it is bent", "": ""} {
		s := sheetOf(t, bolted(nil, out(machine.Fastener{Size: "M8x35", Count: 3, State: state})))
		if got := s.Tightening[0].New; (want == "") != (got == "") || !strings.Contains(got, want) {
			t.Errorf("state %q: %q; want %q", state, got, want)
		}
	}
}

// TestFoundAndDone: what it came undone at, what a paper says, what was done.
func TestFoundAndDone(t *testing.T) {
	nm := func(v float64) *machine.Amount { return &machine.Amount{Value: v, Unit: "N·m", Typed: fmt.Sprint(v)} }
	paper := 50.0
	for _, c := range []struct {
		name        string
		breakaway   float64
		paper       bool
		done        float64
		weigh, says string
		over        bool
	}{
		{"agrees", 20, false, 20, "agrees with class 5.8", "within the range of class 5.8", false},
		{"stronger than shown", 62, false, 60, "more than class 10.9 is sure to stand", "about what it had when it came undone", false},
		{"stronger class", 30, false, 30, "agrees with class 8.8", "that counts only where the head reads 8.8", false},
		{"slack", 5, false, 20, "less than any range", "within the range of class 5.8", false},
		{"over", 20, false, 90, "agrees", "more than anything", true},
		{"outside", 20, false, 10, "agrees", "outside the ranges", false},
		{"paper", 20, true, 52, "agrees", "the paper says 50 N·m", false},
		{"nothing found", 0, false, 20, "", "within the range", false},
	} {
		open := out(machine.Fastener{Size: "M10x1.25x40", Count: 4})
		if c.breakaway > 0 {
			open.Breakaway = nm(c.breakaway)
		}
		bodies := bolted(func(j *machine.JointAdded) { j.Into = "block" }, open, &machine.JointClosed{Joint: "cover-fit", As: machine.Final, Torque: nm(c.done), Sealant: "thin sealant"})
		if c.paper {
			bodies = append(bodies, &machine.DatumSet{Datum: machine.Datum{ID: PaperDatum("cover-fit"), Name: "Cover torque", Unit: "N·m", Value: &paper, Typed: "50", From: machine.Paperwork, Source: "sheet 3"}})
		}
		s := sheetOf(t, bodies)
		if (c.weigh == "") != (s.Weigh == "") || !strings.Contains(s.Weigh, c.weigh) {
			t.Errorf("%s: weighed %q; want %q", c.name, s.Weigh, c.weigh)
		}
		if s.Done == nil || !strings.Contains(strings.Join(s.Done.Says, " "), c.says) || s.Done.Over != c.over {
			t.Errorf("%s: done %+v; want %q, over %v", c.name, s.Done, c.says, c.over)
		}
		if c.paper != (s.Paper != nil) || c.paper && (!s.Paper.Rules || s.Paper.Say != "50 N·m, paperwork, sheet 3." || len(s.Paper.Warn) == 0) {
			t.Errorf("%s: paper %+v", c.name, s.Paper)
		}
		if len(s.Found) > 0 && (s.Found[0].Low != c.breakaway/1.1 || s.Found[0].High != c.breakaway/0.8) {
			t.Errorf("%s: found %+v", c.name, s.Found[0])
		}
	}
}

// TestPatterns: the number that came out rules; studs do not count with their
// nuts; what does not fit draws nothing.
func TestPatterns(t *testing.T) {
	for _, c := range []struct {
		layout string
		sets   []machine.Fastener
		want   string // order, or part of the words
	}{
		{"circle 6", nil, "1-4-2-5-3-6"}, // six bolts by the kit
		{"circle 6", []machine.Fastener{{Size: "M8x30", Count: 4}, {Size: "M8x60", Count: 1}, {Size: "dowel 12", Count: 2}}, "1-3-5-2-4"},
		{"rows 2x3", []machine.Fastener{{Size: "M8 nut", Count: 5}, {Size: "M8x38 stud", Count: 1}}, "5 came out, which does not fill"},
		{"rows 2x3", []machine.Fastener{{Size: "M8 nut", Count: 6}, {Size: "M8x38 stud", Count: 6}}, "3-4-1-6-2-5"},
		{"", []machine.Fastener{{Size: "M8x30", Count: 7}}, Crosswise},
		{"", []machine.Fastener{{Size: "M8x30", Count: 2}}, "Turn about"},
	} {
		var more []machine.Body
		if c.sets != nil {
			more = append(more, out(c.sets...))
		}
		s := sheetOf(t, bolted(func(j *machine.JointAdded) { j.Layout, j.Thread = c.layout, "M8" }, more...))
		got := strings.Join(s.Around, " ")
		if s.Pattern != nil {
			got = s.Pattern.Say
		}
		if !strings.Contains(got, c.want) {
			t.Errorf("%s with %v: %q; want %q", c.layout, c.sets, got, c.want)
		}
		if p := s.Pattern; p != nil {
			back := slices.Clone(p.Order)
			slices.Reverse(back)
			if !slices.Equal(p.Loosening[0].Order, back) {
				t.Errorf("%s: loosening %v is not %v", c.layout, p.Loosening[0].Order, back)
			}
		}
	}
}

// TestAmong: caps are tightened from the middle outward.
func TestAmong(t *testing.T) {
	m := whole(t)
	s := For(m, judge.Findings{}).Of(m.Joint("main-cap-block.1"))
	want := []machine.JointID{"main-cap-block.2", "main-cap-block.3", "main-cap-block.1", "main-cap-block.4"}
	if !slices.Equal(s.Among, want) {
		t.Errorf("caps in the order %v; want %v", s.Among, want)
	}
}
