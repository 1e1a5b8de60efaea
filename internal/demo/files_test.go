package demo_test

import (
	"bytes"
	"os"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"matchmark/internal/demo"
	"matchmark/internal/machine"
	"matchmark/tools/demogen/play"
)

// TestFilesAreCurrent plays the story again: the files are what it gives.
func TestFilesAreCurrent(t *testing.T) {
	p, err := play.Play()
	if err != nil {
		t.Fatal(err)
	}
	log, err := p.Log()
	if err != nil {
		t.Fatal(err)
	}
	truth, err := p.TruthText()
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string][]byte{"log.jsonl": log, "truth.json": truth} {
		have, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(have, want) {
			t.Errorf("%s is not what the story gives for these kits; run `go run ./tools/demogen`", name)
		}
	}
	pictures, err := demo.Drawings()
	if err != nil {
		t.Fatal(err)
	}
	if len(pictures) != len(p.Drawings) {
		t.Errorf("%d drawings, the story gives %d; run `go run ./tools/demogen`", len(pictures), len(p.Drawings))
	}
	for name, want := range p.Drawings {
		if !bytes.Equal(pictures[name], want) {
			t.Errorf("drawing %s is not what the story gives; run `go run ./tools/demogen`", name)
		}
	}
}

var lettering = regexp.MustCompile(`font-size="(\d+)"`)

func TestDrawingsAreSmallAndLegible(t *testing.T) {
	pictures, err := demo.Drawings()
	if err != nil {
		t.Fatal(err)
	}
	if n := len(pictures); n < 60 || n > 120 {
		t.Errorf("%d drawings, want 60 to 120", n)
	}
	for name, data := range pictures {
		if len(data) > 3<<10 {
			t.Errorf("%s has %d bytes, want 3 KB at most", name, len(data))
		}
		for _, m := range lettering.FindAllSubmatch(data, -1) {
			if px, _ := strconv.Atoi(string(m[1])); px < 16 {
				t.Errorf("%s has lettering of %d px, want 16 at least", name, px)
			}
		}
	}
}

// TestLogIsInOrder: ids sort by time, and no two entries bear one time.
func TestLogIsInOrder(t *testing.T) {
	all := entries(t)
	for i := 1; i < len(all); i++ {
		if !all[i].At.After(all[i-1].At) || all[i].ID <= all[i-1].ID {
			t.Errorf("entry %d (%s at %s) does not come after %s at %s", i+1, all[i].ID, all[i].At, all[i-1].ID, all[i-1].At)
		}
	}
}

// TestWorkIsDoneInWorkingHours looks for entries at night or at a weekend.
func TestWorkIsDoneInWorkingHours(t *testing.T) {
	for _, e := range entries(t) {
		if h := e.At.Hour(); h < 8 || h >= 18 || e.At.Weekday()%6 == 0 {
			t.Errorf("%s by %s was recorded on %s", e.Kind(), e.By, e.At.Format("Mon 2 Jan 15:04"))
		}
	}
}

// TestJointsCameApartInOrder: every joint had a way in when it was opened, by
// the kits' word, counted here without the planner.
func TestJointsCameApartInOrder(t *testing.T) {
	all := entries(t)
	m := machine.Fold(all)
	open := map[machine.JointID]bool{}
	for _, e := range all {
		b, ok := e.Body.(*machine.JointOpened)
		if !ok {
			continue
		}
		for _, r := range m.Joint(b.Joint).Reach {
			wayIn := slices.ContainsFunc(r.Any, func(set []machine.JointID) bool {
				return !slices.ContainsFunc(set, func(id machine.JointID) bool { return !open[id] })
			})
			if r.Evidence == machine.Geometry && !wayIn {
				t.Errorf("%s was opened on %s before there was a way in: %v", b.Joint, e.At.Format("2 Jan"), r.Any)
			}
		}
		open[b.Joint] = true
	}
	if len(open) < 300 {
		t.Errorf("only %d joints came apart", len(open))
	}
}
