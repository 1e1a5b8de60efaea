package kit

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Choose picks kits of a library by id, all of them when none is named, and
// sorts counts and choices given by their own names to the kits that ask for
// them. Errors: TakingError for a kit, count or choice that is not there.
func Choose(library []*Sheet, ids []string, counts map[string]int, choices map[string]string) ([]*Sheet, Taking, error) {
	take := Taking{Counts: map[string]map[string]int{}, Choices: map[string]map[string]string{}}
	sheets, err := pick(library, ids)
	if err != nil {
		return nil, take, err
	}
	for _, name := range slices.Sorted(maps.Keys(counts)) {
		if !put(sheets, take.Counts, name, counts[name], asksCount) {
			return nil, take, TakingError{Kit: "any", Item: "count " + name, Why: unasked(name, sheets, countIDs)}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(choices)) {
		if !put(sheets, take.Choices, name, choices[name], asksChoice) {
			return nil, take, TakingError{Kit: "any", Item: "choice " + name, Why: unasked(name, sheets, choiceIDs)}
		}
	}
	return sheets, take, nil
}

func pick(library []*Sheet, ids []string) ([]*Sheet, error) {
	if len(ids) == 0 {
		return library, nil
	}
	var out []*Sheet
	var have []string
	for _, s := range library {
		have = append(have, s.Kit.ID)
		if slices.Contains(ids, s.Kit.ID) {
			out = append(out, s)
		}
	}
	for _, id := range ids {
		if !slices.Contains(have, id) {
			return nil, TakingError{Kit: id, Item: "kit", Why: "there is no such kit; there are " + strings.Join(have, ", ")}
		}
	}
	return out, nil
}

// put gives a value to every kit that asks for the name; false when none does.
func put[V any](sheets []*Sheet, into map[string]map[string]V, name string, value V, asks func(*Sheet, string) bool) bool {
	asked := false
	for _, s := range sheets {
		if !asks(s, name) {
			continue
		}
		if into[s.Kit.ID] == nil {
			into[s.Kit.ID] = map[string]V{}
		}
		into[s.Kit.ID][name] = value
		asked = true
	}
	return asked
}

func asksCount(s *Sheet, name string) bool {
	return slices.ContainsFunc(s.Counts, func(c Count) bool { return c.ID == name })
}

func asksChoice(s *Sheet, name string) bool {
	return slices.ContainsFunc(s.Choices, func(c Choice) bool { return c.ID == name })
}

func countIDs(s *Sheet) (out []string) {
	for _, c := range s.Counts {
		out = append(out, c.ID)
	}
	return out
}

func choiceIDs(s *Sheet) (out []string) {
	for _, c := range s.Choices {
		out = append(out, c.ID)
	}
	return out
}

func unasked(name string, sheets []*Sheet, names func(*Sheet) []string) string {
	var all []string
	for _, s := range sheets {
		all = append(all, names(s)...)
	}
	slices.Sort(all)
	return fmt.Sprintf("no kit asks for %q; they ask for %s", name, strings.Join(slices.Compact(all), ", "))
}
