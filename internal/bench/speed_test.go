package bench

import (
	"path/filepath"
	"testing"

	"matchmark/internal/demo"
	"matchmark/internal/finding/balance"
	"matchmark/internal/finding/closing"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/reckoned"
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

// BenchmarkBuildWing: all that the trade wing works out for the demo's Build
// page, from nothing: the closing sheet and the reckonings of every joint that
// is still to be closed.
func BenchmarkBuildWing(b *testing.B) {
	entries, err := demo.Entries()
	if err != nil {
		b.Fatal(err)
	}
	m := machine.Fold(entries)
	judged := judge.All(m)
	plan := sequence.Make(m, judged)
	closings := 0
	for b.Loop() {
		sheets, sums := closing.For(m, judged), reckoned.For(m, judged)
		closings = 0
		for _, s := range plan.Order {
			if s.Act == sequence.Close {
				sheets.Of(s.Joint)
				sums.Of(s.Joint.Reckon)
				closings++
			}
		}
	}
	b.ReportMetric(float64(closings), "closings")
}
