package store

import (
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"matchmark/internal/machine"
)

// BenchmarkAppend appends single readings with full flush, in turn with bare
// inserts of the same line into a plain table of the same file, and reports
// the ratio of the two within the run.
func BenchmarkAppend(b *testing.B) {
	log := mustOpen(b, filepath.Join(b.TempDir(), "m.db")).(*sqliteLog)
	defer log.Close()
	if err := log.Create(b.Context(), "m", "Machine"); err != nil {
		b.Fatal(err)
	}
	if _, err := log.db.Exec("CREATE TABLE bare (id TEXT PRIMARY KEY, line TEXT)"); err != nil {
		b.Fatal(err)
	}
	stamper := &Stamper{By: "ada", Device: "bench"}
	var ours, bare time.Duration
	for b.Loop() {
		e := stamper.Stamp(reading(0))
		lines, err := writeLines("m", e)
		if err != nil {
			b.Fatal(err)
		}
		began := time.Now()
		if _, err := log.Append(b.Context(), "m", e); err != nil {
			b.Fatal(err)
		}
		between := time.Now()
		if _, err := log.db.Exec("INSERT INTO bare VALUES (?, ?)", string(e[0].ID), string(lines[0].text)); err != nil {
			b.Fatal(err)
		}
		ours += between.Sub(began)
		bare += time.Since(between)
	}
	b.ReportMetric(float64(ours.Microseconds())/float64(b.N), "append-µs")
	b.ReportMetric(float64(bare.Microseconds())/float64(b.N), "bare-µs")
	b.ReportMetric(float64(ours)/float64(bare), "ratio")
}

func reading(n int) machine.Body {
	return &machine.ReadingTaken{Feature: machine.FeatureID(fmt.Sprintf("liner.%d/bore", n%4+1)), Level: "top", Axis: "along",
		Amount: machine.Amount{Value: 78.013, Unit: "mm", Typed: "78.013", Step: 0.001}, Tool: "bore-gauge"}
}

// BenchmarkAppendMany appends 2,000 entries in one call, as a new machine does.
func BenchmarkAppendMany(b *testing.B) {
	log := mustOpen(b, filepath.Join(b.TempDir(), "m.db"))
	defer log.Close()
	stamper := &Stamper{By: "ada", Device: "bench"}
	bodies := make([]machine.Body, 2000)
	for i := range bodies {
		bodies[i] = reading(i)
	}
	n := 0
	for b.Loop() {
		n++
		id := machine.MachineID(fmt.Sprint(n))
		if err := log.Create(b.Context(), id, "Machine"); err != nil {
			b.Fatal(err)
		}
		if _, err := log.Append(b.Context(), id, stamper.Stamp(bodies...)); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSince reads and decodes 5,000 entries, mostly readings.
func BenchmarkSince(b *testing.B) {
	stamper := &Stamper{By: "ada", Device: "bench"}
	for name, log := range map[string]Log{"sqlite": mustOpen(b, filepath.Join(b.TempDir(), "m.db")), "memory": OpenMemory()} {
		b.Run(name, func(b *testing.B) {
			defer log.Close()
			if err := log.Create(b.Context(), "m", "Machine"); err != nil {
				b.Fatal(err)
			}
			bodies := make([]machine.Body, 5000)
			for i := range bodies {
				bodies[i] = reading(i)
			}
			if _, err := log.Append(b.Context(), "m", stamper.Stamp(bodies...)); err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			for b.Loop() {
				if got, err := log.Since(b.Context(), "m", 0); err != nil || len(got) != 5000 {
					b.Fatal(len(got), err)
				}
			}
		})
	}
}
