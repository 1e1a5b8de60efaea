package kit

import (
	"strings"
	"testing"

	"matchmark/internal/machine"
)

// TestLayoutExpanded: formulas in braces are written out with the counts taken,
// and what the joint says of its bolts and shims reaches the machine.
func TestLayoutExpanded(t *testing.T) {
	text := strings.Replace(engineKit, `parts = ["head", "block", "stud"]`, `parts = ["head", "block", "stud"]
thread = "M10x1.25 or M12"
grade = "8.8"
layout = "rows 2x{2*cylinders+1}"
into = "block"
shims = "under the head"
thicker = "opens"`, 1)
	s, faults := Read("k.toml", []byte(text))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	if err := Inspect(s).Err(); err != nil {
		t.Fatal(err)
	}
	bodies, _, err := Expand([]*Sheet{s}, Taking{Counts: map[string]map[string]int{"engine": {"cylinders": 4}}})
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range bodies {
		if j, ok := b.(*machine.JointAdded); ok && j.ID == "head-on-block" {
			if j.Thread != "M10x1.25 or M12" || j.Grade != "8.8" || j.Layout != "rows 2x9" || j.Into != "block" || j.Thicker != machine.Opens {
				t.Errorf("expanded to %+v", j)
			}
			return
		}
	}
	t.Error("the joint is not there")
}

// TestIntoLeftOut: a part that is not on the machine carries no thread.
func TestIntoLeftOut(t *testing.T) {
	text := strings.Replace(engineKit, `parts = ["liner", "o-ring", "block"]`, `parts = ["liner", "o-ring", "block"]
into = "o-ring"`, 1)
	s, faults := Read("k.toml", []byte(text))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	bodies, _, err := Expand([]*Sheet{s}, Taking{})
	if err != nil {
		t.Fatal(err)
	}
	seen := false
	for _, b := range bodies {
		if j, ok := b.(*machine.JointAdded); ok && j.ID == "liner-in-block" {
			seen = true
			if j.Into != "" {
				t.Errorf("into %q, but the o-ring belongs to wet liners only", j.Into)
			}
		}
	}
	if !seen {
		t.Error("the joint is not there")
	}
}
