package draw

import (
	"fmt"
	"testing"
	"time"

	"matchmark/internal/kit"
	"matchmark/internal/machine"
)

// library is the whole machine of the kits with a number of cylinders, all of
// it still on the machine.
func library(t testing.TB, cylinders int) (*machine.Machine, Machine) {
	t.Helper()
	sheets, taking, err := kit.Whole()
	if err != nil {
		t.Fatal(err)
	}
	for id, counts := range taking.Counts {
		if _, ok := counts["cylinders"]; ok {
			taking.Counts[id]["cylinders"] = cylinders
		}
	}
	bodies, _, err := kit.Expand(sheets, taking)
	if err != nil {
		t.Fatal(err)
	}
	return folded(bodies)
}

// one is a machine of one kit of the library alone.
func one(t testing.TB, id string) (*machine.Machine, Machine) {
	t.Helper()
	sheets, taking, err := kit.Whole()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range sheets {
		if s.Kit.ID != id {
			continue
		}
		bodies, _, err := kit.Expand([]*kit.Sheet{s}, kit.Taking{Counts: map[string]map[string]int{id: taking.Counts[id]}, Choices: map[string]map[string]string{id: taking.Choices[id]}})
		if err != nil {
			t.Fatal(err)
		}
		return folded(bodies)
	}
	t.Fatalf("no kit %q", id)
	return nil, Machine{}
}

// folded is a machine of some facts.
func folded(bodies []machine.Body) (*machine.Machine, Machine) {
	var entries []machine.Entry
	for i, b := range bodies {
		entries = append(entries, machine.Entry{ID: machine.EntryID(fmt.Sprintf("%06d", i)), At: time.Unix(int64(i), 0), By: "R.", Body: b})
	}
	m := machine.Fold(entries)
	return m, From(m, func(*machine.Part) string { return "on" })
}
