package bench

import (
	"fmt"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"matchmark/internal/demo"
	"matchmark/internal/finding/balance"
	"matchmark/internal/finding/closing"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/reckoned"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/store"
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
// folded, judged and planned. The readings go round the measured surfaces and
// swing about their sizes, so that verdicts change. Run it with -benchtime 500x
// or more: the 99th part of few rounds says little.
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
	v, err := bench.View(b.Context())
	if err != nil {
		b.Fatal(err)
	}
	v.Plan()
	again := swings(v.Machine)
	var took []time.Duration
	for b.Loop() {
		start := time.Now()
		v := record(b, bench, again[len(took)%len(again)])
		v.Plan()
		took = append(took, time.Since(start))
	}
	slices.Sort(took)
	for name, part := range map[string]int{"p50-ms": 50, "p99-ms": 99} {
		b.ReportMetric(took[len(took)*part/100].Seconds()*1000, name)
	}
}

// swings reads every measured surface again where it was last read, by turns
// as it was and 0.2 mm off.
func swings(m *machine.Machine) []*machine.ReadingTaken {
	var out []*machine.ReadingTaken
	for _, ft := range m.Features {
		if len(ft.Current()) == 0 {
			continue
		}
		r := ft.Current()[0]
		a := r.Amount
		if len(out)%2 == 1 {
			a.Value += 0.2
		}
		a.Typed = fmt.Sprintf("%.3f", a.Value)
		out = append(out, &machine.ReadingTaken{Feature: ft.ID, Level: r.Level, Axis: r.Axis, Tool: r.Tool, Amount: a})
	}
	return out
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
