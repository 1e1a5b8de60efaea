package web

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// What a form of a reading says of the readings its page knew: seenField lists
// entries, mineField the words of forms that the same device kept before it at
// the same point. Both are parted by spaces.
const (
	seenField = "seen"
	mineField = "mine"
)

// seen lists the readings of all points of a run: whichever point is read
// next, its form says which of them the page knew.
func (r run) seen() string {
	var ids []string
	for _, p := range r.Points {
		for _, read := range p.Reads {
			ids = append(ids, string(read.Entry))
		}
	}
	return strings.Join(ids, " ")
}

// seenAt lists the readings of a point that were known where the form was
// filled in; nil where it does not say.
func (v *visit) seenAt(p point) []machine.EntryID {
	if _, says := v.r.PostForm[seenField]; !says {
		return nil
	}
	said := strings.Fields(v.typed(seenField))
	for _, once := range strings.Fields(v.typed(mineField)) {
		if id, err := v.bench.Said(v.r.Context(), once); err == nil && id != "" {
			said = append(said, string(id))
		}
	}
	all := []*machine.Reading(nil)
	if p.Check != nil {
		all = p.Check.Readings
	} else {
		all = p.Feature.Readings
	}
	known := []machine.EntryID{}
	for _, r := range all {
		here := p.Check != nil || r.Unworn == p.Unworn && (p.Unworn || r.Level == p.Level && r.Axis == p.Axis)
		if here && slices.Contains(said, string(r.Entry)) {
			known = append(known, r.Entry)
		}
	}
	return known
}

// pointClash asks which of the readings of one point count.
type pointClash struct {
	Where, Says string
	Answers     []clashAnswer
	All         string // the answer that all of them do
	Back        string
}

type clashAnswer struct{ Entry, Words string }

// pointClashes lists the clashes that hold says yes to.
func pointClashes(m *machine.Machine, back string, now time.Time, hold func(machine.Clash) bool) []pointClash {
	var out []pointClash
	for _, c := range m.Clashes {
		if !hold(c) {
			continue
		}
		at := c.Point()
		row := pointClash{Where: spelling.Head(pointWords(m, &at)), Back: back, All: "All count"}
		var times []string
		for _, r := range c.Readings {
			when := lately(r.At, now)
			times = append(times, when)
			row.Answers = append(row.Answers, clashAnswer{string(r.Entry), fmt.Sprintf("%s, %s, %s", amountWords(&r.Amount), when, r.By)})
		}
		n := len(times)
		count, kept := spelling.Head(countWord(n)), "All kept"
		if n == 2 {
			row.All, kept = "Both count", "Both kept"
		}
		row.Says = fmt.Sprintf("%s readings for the same point, %s and %s. %s. Which counts?", count, strings.Join(times[:n-1], ", "), times[n-1], kept)
		out = append(out, row)
	}
	return out
}

// countWord says a small count in letters.
func countWord(n int) string {
	words := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

// holds tells whether a clash is at a point of the run.
func (r run) holds(c machine.Clash) bool {
	return slices.ContainsFunc(r.Points, func(p point) bool { return p.Feature == c.Feature && p.Check == c.Check })
}

// clashPost keeps the answer: one reading counts and the others are withdrawn,
// or all count side by side.
func clashPost(v *visit) error {
	counts := v.typed("counts")
	var ids []machine.EntryID
	for _, id := range v.r.PostForm["entry"] {
		ids = append(ids, machine.EntryID(id))
	}
	var bodies []machine.Body
	if counts == "all" {
		bodies = append(bodies, &machine.ReadingsAgreed{Readings: ids})
	} else {
		for _, id := range ids {
			if string(id) != counts {
				bodies = append(bodies, &machine.EntryWithdrawn{Target: id, Why: "another reading of this point counts"})
			}
		}
	}
	asked := slices.ContainsFunc(v.view.Machine.Clashes, func(c machine.Clash) bool {
		return len(c.Readings) == len(ids) && !slices.ContainsFunc(c.Readings, func(r *machine.Reading) bool { return !slices.Contains(ids, r.Entry) })
	})
	whole := counts == "all" || slices.Contains(ids, machine.EntryID(counts))
	if !(asked && whole) && !v.kept(bodies...) {
		return plight{http.StatusConflict, "That is not the question any more",
			"Nothing was changed: it was answered on another device, or another reading has come. Look at the point again and answer what it asks now."}
	}
	if _, err := v.record(bodies...); err != nil {
		return err
	}
	return v.go303(v.back(v.base() + "/questions"))
}
