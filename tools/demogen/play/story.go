package play

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"time"

	"matchmark/internal/machine"
)

// story is the log as it grows, and the shop's clock.
type story struct {
	calendar
	who     person
	rng     *rand.Rand
	entries []machine.Entry
	last    time.Time
	folded  *machine.Machine
	faults  []error
}

func newStory() *story {
	return &story{who: ansa, rng: rand.New(rand.NewPCG(seed, 3))}
}

// fail keeps what went wrong; the story is told to its end and refused then.
func (s *story) fail(format string, args ...any) {
	s.faults = append(s.faults, fmt.Errorf(format, args...))
}

// say records facts, one after another, by whoever is at the machine. Each
// takes a few seconds to type.
func (s *story) say(bodies ...machine.Body) machine.EntryID {
	var id machine.EntryID
	for _, body := range bodies {
		id = s.sayAt(s.at, s.who, body)
		s.at = s.at.Add(time.Duration(4+s.rng.IntN(9)) * time.Second)
	}
	return id
}

// sayAt records a fact by a person at a moment. No two entries bear one time.
func (s *story) sayAt(at time.Time, who person, body machine.Body) machine.EntryID {
	if !at.After(s.last) {
		at = s.last.Add(time.Microsecond)
	}
	s.last = at
	id, err := entryID(at, who, body)
	if err != nil {
		s.fail("%w", err)
	}
	s.entries = append(s.entries, machine.Entry{ID: id, At: at, By: who.name, Device: who.device, Version: 1, Body: body})
	s.folded = nil
	return id
}

// machine is what the log adds up to now.
func (s *story) machine() *machine.Machine {
	if s.folded == nil {
		s.folded = machine.Fold(slices.Clone(s.entries))
	}
	return s.folded
}

// minutes lets so many minutes go by, give or take a third.
func (s *story) minutes(n float64) {
	s.pass(time.Duration(n * (0.67 + 0.66*s.rng.Float64()) * float64(time.Minute)))
}
