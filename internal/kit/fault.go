package kit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Fault is one thing wrong in a kit file, said so that a person who is no
// programmer can mend it.
type Fault struct {
	File    string
	Line    int    // from 1
	Item    string // `check "bore-wear", limit 1`
	Problem string
	Cure    string
}

// String is one line: "engine.toml:12: joint "sump": problem. Cure."
func (f Fault) String() string {
	text := fmt.Sprintf("%s:%d: %s: %s.", f.File, f.Line, f.Item, f.Problem)
	if f.Cure == "" {
		return text
	}
	text += " " + strings.ToUpper(f.Cure[:1]) + f.Cure[1:]
	if strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

// Faults are faults in the order of files and lines.
type Faults []Fault

// Err is nil where there is no fault.
func (fs Faults) Err() error {
	if len(fs) == 0 {
		return nil
	}
	return fs
}

// Error names the first faults, one a line, and counts the rest.
func (fs Faults) Error() string {
	const show = 20
	var b strings.Builder
	for i, f := range fs {
		if i == show {
			fmt.Fprintf(&b, "\nand %d more", len(fs)-show)
			break
		}
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(f.String())
	}
	return b.String()
}

// sorted orders faults by file, line and words; the same fault counts once.
func (fs Faults) sorted() Faults {
	slices.SortStableFunc(fs, func(a, b Fault) int {
		return cmp.Or(strings.Compare(a.File, b.File), a.Line-b.Line, strings.Compare(a.Item, b.Item),
			strings.Compare(a.Problem, b.Problem), strings.Compare(a.Cure, b.Cure))
	})
	return slices.Compact(fs)
}
