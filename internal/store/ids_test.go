package store

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/google/uuid"

	"matchmark/internal/machine"
)

func TestStamper(t *testing.T) {
	clock := []time.Time{
		noon.Add(1499 * time.Nanosecond), // rounds to 1 µs
		noon.Add(1500 * time.Nanosecond), // rounds to 2 µs
		noon.Add(1500 * time.Nanosecond), // stands still
		noon.Add(-time.Hour),             // set back
		noon.Add(time.Second).In(time.FixedZone("", 7200)),
	}
	want := []time.Duration{time.Microsecond, 2 * time.Microsecond, 3 * time.Microsecond, 4 * time.Microsecond, time.Second}
	tick := 0
	s := &Stamper{By: "ada", Device: "bench", Now: func() time.Time { tick++; return clock[tick-1] }}
	var bodies []machine.Body
	for range clock {
		bodies = append(bodies, &machine.Noted{Text: "x"})
	}
	for i, e := range s.Stamp(bodies...) {
		if got := e.At.Sub(noon); got != want[i] || e.At.Location() != time.UTC {
			t.Errorf("entry %d at noon + %v %v, want + %v UTC", i, got, e.At.Location(), want[i])
		}
		if e.By != "ada" || e.Device != "bench" || e.Version != 1 || e.Body != bodies[i] {
			t.Errorf("entry %d: %+v", i, e)
		}
	}
}

// TestStamperReal runs on the real clock and ids: strictly rising, UUIDs of
// version 7 (RFC 9562, 5.7), and unchanged by a way through JSON.
func TestStamperReal(t *testing.T) {
	s := &Stamper{By: "ada"}
	bodies := make([]machine.Body, 2000)
	for i := range bodies {
		bodies[i] = &machine.Noted{}
	}
	var last machine.Entry
	for i, e := range s.Stamp(bodies...) {
		id, err := uuid.Parse(string(e.ID))
		if err != nil || id.Version() != 7 {
			t.Fatalf("id %q: version %d, %v", e.ID, id.Version(), err)
		}
		if i > 0 && (!e.At.After(last.At) || e.ID <= last.ID) {
			t.Fatalf("entry %d (%v %s) does not come after %v %s", i, e.At, e.ID, last.At, last.ID)
		}
		text, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		if back := machine.Decode(text); back.At != e.At {
			t.Fatalf("time %v came back as %v", e.At, back.At)
		}
		last = e
	}
}
