// Package spelling finds the names that somebody may have meant.
package spelling

import (
	"cmp"
	"slices"
	"strings"
)

// Nearest gives up to three names that are spelled most like the one typed,
// those that hold it as a part first; none where nothing is near. Case and
// outer blanks of what was typed do not matter; names are in lower case.
// Cost: names · length².
func Nearest(typed string, names []string) []string {
	typed = strings.ToLower(strings.TrimSpace(typed))
	type far struct {
		name string
		d    int
	}
	var list []far
	for _, n := range names {
		d := distance(typed, n)
		if len(typed) > 2 && strings.Contains(n, typed) {
			d = 0
		}
		if d <= max(2, len(typed)/2) {
			list = append(list, far{n, d})
		}
	}
	slices.SortStableFunc(list, func(a, b far) int {
		return cmp.Or(cmp.Compare(a.d, b.d), cmp.Compare(a.name, b.name))
	})
	var out []string
	for _, f := range list[:min(3, len(list))] {
		out = append(out, f.name)
	}
	return out
}

// distance is how many letters to put in, leave out or change. Method:
// Levenshtein 1966.
func distance(a, b string) int {
	before := make([]int, len(b)+1)
	for j := range before {
		before[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now := make([]int, len(b)+1)
		now[0] = i
		for j := 1; j <= len(b); j++ {
			change := before[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			now[j] = min(change, before[j]+1, now[j-1]+1)
		}
		before = now
	}
	return before[len(b)]
}
