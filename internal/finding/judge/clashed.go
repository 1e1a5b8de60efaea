package judge

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/machine"
)

// clashed says that readings a check was judged by did not know of each other
// and wait for a word on which of them count; empty where none do.
func (b *bench) clashed(c *machine.Check) string {
	var at []string
	for _, clash := range b.m.Clashes {
		if clash.Check == c || clash.Feature != nil && slices.Contains(c.Surfaces(), clash.Feature) {
			p := clash.Point()
			at = append(at, strings.Join(slices.DeleteFunc([]string{p.Level, p.Axis}, func(w string) bool { return w == "" }), " "))
		}
	}
	switch {
	case len(at) == 0:
		return ""
	case len(at) > 1:
		return fmt.Sprintf(" At %d points readings of two devices stand side by side; all count here until it is said which do.", len(at))
	case at[0] == "":
		return " Readings of two devices stand side by side; all count here until it is said which do."
	}
	return fmt.Sprintf(" At %s readings of two devices stand side by side; all count here until it is said which do.", at[0])
}
