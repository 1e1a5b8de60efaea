package kit

import (
	"maps"
	"slices"
	"strconv"
	"testing"

	"matchmark/internal/machine"
)

func whole3(t testing.TB) ([]*Sheet, Taking) {
	t.Helper()
	sheets, take, err := Whole()
	if err != nil {
		t.Fatal(err)
	}
	if len(sheets) == 0 {
		t.Fatal("the library holds no kit")
	}
	return sheets, take
}

func TestLibraryIsClean(t *testing.T) {
	sheets, _ := whole3(t)
	for _, f := range Inspect(sheets...) {
		t.Error(f)
	}
}

func TestTitlesNameEveryKit(t *testing.T) {
	heads, err := Titles()
	if err != nil {
		t.Fatal(err)
	}
	sheets, _ := whole3(t)
	if len(heads) != len(sheets) {
		t.Errorf("%d titles for %d kits", len(heads), len(sheets))
	}
	for _, h := range heads {
		if h.ID == "" || h.Title == "" {
			t.Errorf("a kit without id or title: %+v", h)
		}
	}
}

// TestWholeTractor wants the size that the kits were laid out for, and no
// question from the fold.
func TestWholeTractor(t *testing.T) {
	sheets, take := whole3(t)
	m := fold(t, sheets, take)
	for _, c := range []struct {
		what      string
		got, want int
	}{{"parts", len(m.Parts), 400}, {"joints", len(m.Joints), 400}, {"checks", len(m.Checks), 170}} {
		if c.got < c.want {
			t.Errorf("%d %s, want %d at least", c.got, c.what, c.want)
		}
	}
	t.Logf("%d kits: %d parts, %d features, %d joints, %d checks, %d tests, %d symptoms", len(m.Kits), len(m.Parts),
		len(m.Features), len(m.Joints), len(m.Checks), len(m.Tests), len(m.Symptoms))
	for _, c := range m.Checks {
		if len(c.Limits) == 0 || len(c.Joints)+len(c.Parts) == 0 {
			t.Errorf("check %s: %d limits, on %d joints and %d parts", c.ID, len(c.Limits), len(c.Joints), len(c.Parts))
		}
		for _, l := range c.Limits {
			if !l.Known() && l.Find == "" {
				t.Errorf("check %s: a limit without bounds, words or a way to find it", c.ID)
			}
			if l.From.Rank() >= len(machine.Provenances()) {
				t.Errorf("check %s: a limit from %q", c.ID, l.From)
			}
		}
	}
	for _, p := range m.Parts {
		if len(p.Joints) == 0 {
			t.Errorf("part %s sits in no joint", p.ID)
		}
	}
}

// TestEveryJointOfTheLibraryCanBeReached opens the whole machine, instance by
// instance: a second route to what Inspect says of circles between types.
func TestEveryJointOfTheLibraryCanBeReached(t *testing.T) {
	sheets, take := whole3(t)
	m := fold(t, sheets, take)
	open := map[machine.JointID]bool{}
	for before := -1; before != len(open); {
		before = len(open)
		for _, j := range m.Joints {
			free := true
			for _, r := range j.Reach {
				free = free && slices.ContainsFunc(r.Any, func(way []machine.JointID) bool {
					return !slices.ContainsFunc(way, func(k machine.JointID) bool { return !open[k] })
				})
			}
			if free {
				open[j.ID] = true
			}
		}
	}
	for _, j := range m.Joints {
		if !open[j.ID] {
			t.Errorf("joint %s is never reached", j.ID)
		}
	}
}

// TestEveryAnswerFoldsClean takes the whole tractor once with each answer to
// each choice, and with each number of cylinders.
func TestEveryAnswerFoldsClean(t *testing.T) {
	sheets, take := whole3(t)
	seen := map[string]bool{}
	for _, s := range sheets {
		for _, c := range s.Choices {
			for _, a := range c.Answers {
				seen[a] = true
				t.Run(s.Kit.ID+"/"+c.ID+"="+a, func(t *testing.T) {
					with := Taking{take.Counts, maps.Clone(take.Choices)}
					for kit, choices := range with.Choices { // the same question may be asked by several kits
						with.Choices[kit] = maps.Clone(choices)
						if v := choiceOf(sheets, kit, c.ID); v != nil && slices.Contains(v.Answers, a) {
							with.Choices[kit][c.ID] = a
						}
					}
					fold(t, sheets, with)
				})
			}
		}
	}
	for _, a := range []string{"dry", "wet", "dynamo", "alternator"} {
		if !seen[a] {
			t.Errorf("no kit of the library has the answer %q", a)
		}
	}
}

func choiceOf(sheets []*Sheet, kit, id string) *Choice {
	for _, s := range sheets {
		for i := range s.Choices {
			if s.Kit.ID == kit && s.Choices[i].ID == id {
				return &s.Choices[i]
			}
		}
	}
	return nil
}

func TestEveryNumberOfCylindersFoldsClean(t *testing.T) {
	sheets, take := whole3(t)
	last := 0
	for _, n := range []int{2, 3} {
		t.Run(strconv.Itoa(n), func(t *testing.T) {
			found := false
			for _, counts := range take.Counts {
				if _, ok := counts["cylinders"]; ok {
					counts["cylinders"], found = n, true
				}
			}
			if !found {
				t.Fatal("no kit of the library asks for cylinders")
			}
			m := fold(t, sheets, take)
			if len(m.Parts) <= last {
				t.Errorf("%d parts with %d cylinders, %d with one less", len(m.Parts), n, last)
			}
			last = len(m.Parts)
		})
	}
}

// TestEveryKitCanBeTakenAlone folds each kit by itself: what it names in kits
// not taken must be dropped without a question.
func TestEveryKitCanBeTakenAlone(t *testing.T) {
	sheets, _ := whole3(t)
	for _, s := range sheets {
		t.Run(s.Kit.ID, func(t *testing.T) { fold(t, []*Sheet{s}, Taking{}) })
	}
}

func BenchmarkLibraryAndExpand(b *testing.B) {
	for b.Loop() {
		sheets, take, err := Whole()
		if err != nil {
			b.Fatal(err)
		}
		if _, _, err := Expand(sheets, take); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkInspectLibrary(b *testing.B) {
	sheets, _ := whole3(b)
	for b.Loop() {
		Inspect(sheets...)
	}
}
