package web

import (
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// settleOf says what is still to be read for a check, surface by surface, and
// what else would settle it. A verdict names every point; told surface by
// surface it is shorter and as full.
func settleOf(f *judge.Finding) (toRead []string, settle string) {
	if f.Verdict != judge.NotRead || direct(f.Check) || byWord(f.Check) || !strings.HasPrefix(f.Settle, "Read ") {
		return nil, f.Settle
	}
	for _, ft := range f.Check.Surfaces() {
		if left := pointsLeft(ft); len(left) > 0 {
			toRead = append(toRead, surfaceName(ft.Part.Name, ft.Name)+": "+pointsTogether(ft, left))
		}
	}
	if len(toRead) == 0 {
		return nil, f.Settle
	}
	_, settle, _ = strings.Cut(f.Settle, ". ")
	return toRead, settle
}

// pointsLeft are the points of a surface that are not read yet.
func pointsLeft(ft *machine.Feature) []machine.Point {
	return slices.DeleteFunc(ft.Points(), func(p machine.Point) bool { return len(readsAt(ft, p.Level, p.Axis, false)) > 0 })
}

// pointsTogether counts points and says where they are: "6 points, top, middle
// and low, thrust and pin". Of a surface read in part a few are named one by
// one.
func pointsTogether(ft *machine.Feature, left []machine.Point) string {
	count := plural(len(left), "point", "points")
	all := len(ft.Points())
	switch {
	case all == 1:
		return "not read"
	case len(left) == all:
		var where []string
		for _, names := range [][]string{ft.Levels, ft.Axes} {
			if len(names) > 0 {
				where = append(where, andWords(names))
			}
		}
		return count + behind(", ", strings.Join(where, ", each "))
	case len(left) <= 3:
		words := make([]string, len(left))
		for i, p := range left {
			words[i] = strings.TrimSpace(p.Level + " " + p.Axis)
		}
		return count + " left, " + andWords(words)
	}
	return count + " left of " + strconv.Itoa(all)
}

// andWords joins words: "top, middle and low"; words that have commas of their
// own are parted by more.
func andWords(words []string) string {
	n, comma := len(words), ", "
	if n < 2 {
		return strings.Join(words, "")
	}
	if slices.ContainsFunc(words, func(w string) bool { return strings.Contains(w, ",") }) {
		comma = "; "
	}
	return strings.Join(words[:n-1], comma) + strings.TrimSuffix(comma[:1], ",") + " and " + words[n-1]
}
