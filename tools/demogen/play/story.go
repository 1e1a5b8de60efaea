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
	who      person
	rng      *rand.Rand
	entries  []machine.Entry
	last     time.Time
	folded   *machine.Machine
	trays    trays
	marks    int
	album    album
	measured map[machine.FeatureID]bool
	faults   []error
}

func newStory() *story {
	return &story{who: ansa, rng: rand.New(rand.NewPCG(seed, 3)), measured: map[machine.FeatureID]bool{}}
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
		id = s.sayAt(s.at, s.who, "", body)
		s.at = s.at.Add(time.Duration(4+s.rng.IntN(9)) * time.Second)
	}
	return id
}

// sayAt records a fact by a person at a moment, in place of another entry
// where one is named. No two entries bear one time.
func (s *story) sayAt(at time.Time, who person, instead machine.EntryID, body machine.Body) machine.EntryID {
	if !at.After(s.last) {
		at = s.last.Add(time.Microsecond)
	}
	s.last = at
	id, err := entryID(at, who, body)
	if err != nil {
		s.fail("%w", err)
	}
	s.entries = append(s.entries, machine.Entry{ID: id, At: at, By: who.name, Device: who.device, Version: 1, Supersedes: instead, Body: body})
	s.follow(body)
	return id
}

// machine is what the log adds up to, as far as stripping needs it.
func (s *story) machine() *machine.Machine {
	if s.folded == nil {
		s.folded = machine.Fold(slices.Clone(s.entries))
	}
	return s.folded
}

// whole folds the log anew.
func (s *story) whole() *machine.Machine {
	s.folded = nil
	return s.machine()
}

// follow keeps the folded machine in step with what stripping asks of it,
// without folding anew at each of some hundred removals.
func (s *story) follow(body machine.Body) {
	if s.folded == nil {
		return
	}
	switch b := body.(type) {
	case *machine.JointOpened:
		s.folded.Joint(b.Joint).State = machine.Open
		for _, id := range b.Off {
			s.folded.Part(id).Tray = b.Tray
		}
	case *machine.AsFoundTaken:
		j := s.folded.Joint(b.Joint)
		j.Evidence = append(j.Evidence, machine.AsFoundRecord{AsFoundTaken: *b})
	}
}

// minutes lets so many minutes go by, give or take a third.
func (s *story) minutes(n float64) {
	s.pass(time.Duration(n * (0.67 + 0.66*s.rng.Float64()) * float64(time.Minute)).Round(time.Second))
}
