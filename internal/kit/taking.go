package kit

import (
	"fmt"
	"maps"
	"slices"
)

// Taking says with which counts and choices kits are taken, by kit id and
// then by the id of the count or choice. What is not named takes its default.
type Taking struct {
	Counts  map[string]map[string]int
	Choices map[string]map[string]string
}

// TakingError names what cannot be taken as asked.
type TakingError struct {
	Kit, Item string
	Why       string
}

func (e TakingError) Error() string {
	return fmt.Sprintf("kit %q, %s: %s", e.Kit, e.Item, e.Why)
}

// taken is a sheet with its counts and choices settled. Seen counts and
// choices are its own and those of the taken kits it uses.
type taken struct {
	sheet       *Sheet
	counts      map[string]int
	choices     map[string]string
	seenCounts  map[string]int
	seenChoices map[string]string
}

// settle fills in defaults and refuses what does not fit.
func settle(sheets []*Sheet, take Taking) ([]*taken, error) {
	var out []*taken
	kits := map[string]bool{}
	for _, s := range sheets {
		if kits[s.Kit.ID] {
			return nil, TakingError{s.Kit.ID, "the kit", "it is taken twice"}
		}
		kits[s.Kit.ID] = true
		t := &taken{sheet: s, counts: map[string]int{}, choices: map[string]string{}}
		if err := t.settleCounts(take.Counts[s.Kit.ID]); err != nil {
			return nil, err
		}
		if err := t.settleChoices(take.Choices[s.Kit.ID]); err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	for _, id := range slices.Sorted(maps.Keys(take.Counts)) {
		if !kits[id] {
			return nil, TakingError{id, "the kit", "counts are given for it, but it is not among the kits taken"}
		}
	}
	for _, id := range slices.Sorted(maps.Keys(take.Choices)) {
		if !kits[id] {
			return nil, TakingError{id, "the kit", "choices are given for it, but it is not among the kits taken"}
		}
	}
	for _, t := range out {
		t.look(out)
	}
	return out, nil
}

func (t *taken) settleCounts(given map[string]int) error {
	for _, c := range t.sheet.Counts {
		t.counts[c.ID] = c.Default
		n, ok := given[c.ID]
		if !ok {
			continue
		}
		if n < c.Least || n > c.Most {
			return TakingError{t.sheet.Kit.ID, "count " + quote(c.ID), fmt.Sprintf("%d was given; it goes from %d to %d", n, c.Least, c.Most)}
		}
		t.counts[c.ID] = n
	}
	for _, id := range slices.Sorted(maps.Keys(given)) {
		if _, ok := t.counts[id]; !ok {
			return TakingError{t.sheet.Kit.ID, "count " + quote(id), "the kit asks for no such count; " + meant(id, slices.Sorted(maps.Keys(t.counts)), "leave it out")}
		}
	}
	return nil
}

func (t *taken) settleChoices(given map[string]string) error {
	for _, c := range t.sheet.Choices {
		t.choices[c.ID] = c.Default
		a, ok := given[c.ID]
		if !ok {
			continue
		}
		if !slices.Contains(c.Answers, a) {
			return TakingError{t.sheet.Kit.ID, "choice " + quote(c.ID), fmt.Sprintf("%q was given; %s", a, meant(a, c.Answers, oneOf(c.Answers)))}
		}
		t.choices[c.ID] = a
	}
	for _, id := range slices.Sorted(maps.Keys(given)) {
		if _, ok := t.choices[id]; !ok {
			return TakingError{t.sheet.Kit.ID, "choice " + quote(id), "the kit asks for no such choice; " + meant(id, slices.Sorted(maps.Keys(t.choices)), "leave it out")}
		}
	}
	return nil
}

// look gathers the counts and choices that the sheet may name: its own go
// before those of the kits it uses.
func (t *taken) look(all []*taken) {
	t.seenCounts, t.seenChoices = map[string]int{}, map[string]string{}
	for _, o := range all {
		if visible(t.sheet, o.sheet) {
			maps.Copy(t.seenCounts, o.counts)
			maps.Copy(t.seenChoices, o.choices)
		}
	}
	maps.Copy(t.seenCounts, t.counts)
	maps.Copy(t.seenChoices, t.choices)
}
