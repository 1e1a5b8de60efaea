package bench

import (
	"path/filepath"
	"testing"

	"matchmark/internal/demo"
	"matchmark/internal/finding/balance"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/store"
	"time"
)

// BenchmarkAllFindings: fold, verdicts, remedies, order and balance of the demo
// machine from its log, nothing kept between rounds.
func BenchmarkAllFindings(b *testing.B) {
	entries, err := demo.Entries()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		m := machine.Fold(entries)
		judged := judge.All(m)
		sequence.Make(m, judged)
		for _, aim := range remedy.Aims() {
			remedy.Decide(m, judged, aim)
		}
		balance.Of(m)
	}
}

// BenchmarkReadingToPlan: a reading posted, kept in SQLite with full sync,
// folded, judged and planned.
func BenchmarkReadingToPlan(b *testing.B) {
	log, err := store.Open(filepath.Join(b.TempDir(), "book.db"))
	if err != nil {
		b.Fatal(err)
	}
	defer log.Close()
	if err := demo.Load(b.Context(), log); err != nil {
		b.Fatal(err)
	}
	bench, err := NewShop(log, time.Now).Bench(b.Context(), demo.ID)
	if err != nil {
		b.Fatal(err)
	}
	reading := &machine.ReadingTaken{Feature: "liner.2/bore", Level: "middle", Axis: "pin",
		Amount: machine.Amount{Value: 76.05, Unit: "mm", Typed: "76.05", Step: 0.01}}
	for b.Loop() {
		v := record(b, bench, reading)
		v.Plan()
	}
}
