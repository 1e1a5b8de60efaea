// Package acceptance_test holds the program to its 29 acceptance checks: the
// built program, served from a folder of its own, seen through Chromium. Each
// check has a test named TestCheck and its number, here or beside what it is
// about. Those here begin with holds, so that the tally at the end counts them.
package acceptance_test

import (
	"fmt"
	"os"
	"sync"
	"testing"

	"matchmark/internal/trial"
)

// checks are the acceptance checks in short, by their number.
var checks = [...]string{
	1:  "axe finds nothing on any page",
	2:  "targets and gaps",
	3:  "no sideways scroll, text 200 %",
	4:  "no text under 16 px",
	5:  "contrast of the tokens",
	6:  "a run by keys only",
	7:  "what tools type",
	8:  "a burst into the notes",
	9:  "a click, then a burst",
	10: "undo five times",
	11: "server killed in a run",
	12: "one record sent three times",
	13: "plain http beyond this computer",
	14: "https, reload off line",
	15: "without scripts",
	16: "the content policy",
	17: "weight on the wire",
	18: "time to show",
	19: "grey and forced colours",
	20: "marks have their words",
	21: "no motion, focus seen",
	22: "hold points refuse",
	23: "photo of 12 MP",
	24: "sound as WAV",
	25: "the book and labels on paper",
	26: "the book as a file",
	27: "pictures stay the same",
	28: "words that are avoided",
	29: "a missing asset fails a test",
}

var (
	tallyLock sync.Mutex
	tally     = map[int]string{}
)

// holds begins a check, or a part of one: how it ends goes into the tally.
func holds(t *testing.T, n int) {
	t.Helper()
	t.Cleanup(func() {
		tallyLock.Lock()
		defer tallyLock.Unlock()
		switch {
		case t.Failed():
			tally[n] = "FAILED"
		case t.Skipped() && tally[n] != "FAILED":
			tally[n] = "skipped"
		case tally[n] == "":
			tally[n] = "passed"
		}
	})
}

func TestMain(m *testing.M) {
	code := trial.Main(m)
	printTally()
	os.Exit(code)
}

// printTally says how the checks ended that were run here, and where the
// others are.
func printTally() {
	if len(tally) == 0 {
		return
	}
	where, err := checkTests()
	if err != nil {
		fmt.Println("tally:", err)
	}
	passed, all := 0, 0
	for n, what := range checks {
		if what == "" {
			continue
		}
		all++
		end := tally[n]
		switch {
		case end == "passed":
			passed++
		case end == "" && len(where[n]) > 0:
			end = "not run; in " + where[n][0]
		case end == "":
			end = "no test"
		}
		fmt.Printf("check %2d  %-32s %s\n", n, what, end)
	}
	fmt.Printf("passed %d / %d\n", passed, all)
}
