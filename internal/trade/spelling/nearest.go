// Package spelling is names as they are written: which was meant by one that
// was mistyped, and its capital inside a sentence or at the head of one.
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
		d := Distance(typed, n)
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
