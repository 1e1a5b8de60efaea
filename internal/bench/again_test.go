package bench

import (
	"reflect"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"matchmark/internal/demo"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/sequence"
)

// TestViewsLeanOnEarlierOnes: the findings on every part of the demo's log, each
// worked out from those before, are those worked out from nothing; some views
// between are never looked at.
func TestViewsLeanOnEarlierOnes(t *testing.T) {
	entries, err := demo.Entries()
	if err != nil {
		t.Fatal(err)
	}
	most := 200
	if testing.Short() {
		most = 60
	}
	var v *View
	for n := len(entries) - most; n <= len(entries); n++ {
		v = v.next(demo.ID, entries[:n], time.Now)
		if n%3 == 1 {
			continue
		}
		judged := judge.All(v.Machine)
		if !reflect.DeepEqual(v.Judged(), judged) {
			t.Fatalf("%d entries, the last %s: other verdicts", n, entries[n-1].Kind())
		}
		if n%2 == 1 {
			continue
		}
		if plan := sequence.Make(v.Machine, judged); !reflect.DeepEqual(v.Plan(), plan) {
			t.Fatalf("%d entries, the last %s: another plan", n, entries[n-1].Kind())
		}
	}
}

// TestViewsLetGo: views that nobody looks at hold on to no earlier machine, but
// the one last judged.
func TestViewsLetGo(t *testing.T) {
	entries, err := demo.Entries()
	if err != nil {
		t.Fatal(err)
	}
	var v *View
	var gone atomic.Int32
	for n := len(entries) - 10; n <= len(entries); n++ {
		v = v.next(demo.ID, entries[:n], time.Now)
		if n == len(entries)-10 {
			v.Plan()
		}
		runtime.AddCleanup(v.Machine, func(n *atomic.Int32) { n.Add(1) }, &gone)
	}
	for range 100 {
		if runtime.GC(); gone.Load() == 9 {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	if gone.Load() != 9 {
		t.Errorf("%d of 11 machines were let go, want all but the judged one and the last", gone.Load())
	}
	runtime.KeepAlive(v)
}
