package demo_test

import (
	"context"
	"testing"
	"time"

	"matchmark/internal/demo"
	"matchmark/internal/machine"
	"matchmark/internal/store"
)

func entries(t *testing.T) []machine.Entry {
	t.Helper()
	all, err := demo.Entries()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func load(t *testing.T, log store.Log) {
	t.Helper()
	if err := demo.Load(context.Background(), log); err != nil {
		t.Fatal(err)
	}
}

func kept(t *testing.T, log store.Log) []machine.Entry {
	t.Helper()
	list, err := log.Since(context.Background(), demo.ID, 0)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func TestLoadPutsEverythingOnce(t *testing.T) {
	log := store.OpenMemory()
	load(t, log)
	load(t, log)
	want := entries(t)
	have := kept(t, log)
	if len(have) != len(want) {
		t.Fatalf("%d entries kept, want %d", len(have), len(want))
	}
	for i := range want {
		if have[i].ID != want[i].ID {
			t.Fatalf("entry %d is %s, want %s", i+1, have[i].ID, want[i].ID)
		}
	}
	report, err := log.Check(context.Background())
	if err != nil || !report.Clean() || report.Unused != 0 {
		t.Errorf("the store is not clean, or holds pictures nothing names: %+v %v", report, err)
	}
}

func TestLoadCompletesAnInterruptedLoad(t *testing.T) {
	ctx, all := context.Background(), entries(t)
	for _, n := range []int{0, 1, 500, len(all) - 1} {
		log := store.OpenMemory()
		if err := log.Create(ctx, demo.ID, demo.Name); err != nil {
			t.Fatal(err)
		}
		if _, err := log.Append(ctx, demo.ID, all[:n]); err != nil {
			t.Fatal(err)
		}
		load(t, log)
		if have := len(kept(t, log)); have != len(all) {
			t.Errorf("interrupted after %d: %d entries, want %d", n, have, len(all))
		}
		for _, e := range all {
			for _, sum := range store.Sums(e.Body) {
				if _, _, err := log.Blob(ctx, sum); err != nil {
					t.Fatalf("interrupted after %d: %s: %v", n, e.ID, err)
				}
			}
		}
	}
}

// TestLoadLeavesAnotherEditionAlone: a book that holds fewer entries, and not
// those of this log, was made by another edition and tried out.
func TestLoadLeavesAnotherEditionAlone(t *testing.T) {
	ctx := context.Background()
	log := store.OpenMemory()
	if err := log.Create(ctx, demo.ID, demo.Name); err != nil {
		t.Fatal(err)
	}
	stamper := store.Stamper{By: "Ansa", Now: func() time.Time { return time.Date(2026, 1, 5, 9, 0, 0, 0, time.UTC) }}
	if _, err := log.Append(ctx, demo.ID, stamper.Stamp(&machine.MachineNamed{Name: "older"}, &machine.Noted{Text: "mine"})); err != nil {
		t.Fatal(err)
	}
	load(t, log)
	if have := len(kept(t, log)); have != 2 {
		t.Errorf("%d entries after loading over another edition, want the 2 that were there", have)
	}
}

func TestLoadAgainIsQuick(t *testing.T) {
	log := store.OpenMemory()
	load(t, log)
	begin := time.Now()
	load(t, log)
	if took := time.Since(begin); took > 30*time.Millisecond {
		t.Errorf("a second load took %v; it has only to see that nothing is to be done", took)
	}
}
