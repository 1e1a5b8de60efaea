package store

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"matchmark/internal/machine"
)

// killsPerFile is how often a file is killed over before a fresh one is begun.
const killsPerFile = 20

// TestKill kills a writing process at random instants, opens the file again,
// and finds every entry that was acknowledged. MATCHMARK_KILLS sets how often.
// It shows what survives the end of a process, not the end of the power.
func TestKill(t *testing.T) {
	kills := 200
	if testing.Short() {
		kills = 40
	}
	if text := os.Getenv("MATCHMARK_KILLS"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil {
			t.Fatal(err)
		}
		kills = n
	}
	random := rand.New(rand.NewPCG(5, 12))
	began := time.Now()
	var acked, unsaid, early int
	for file := 0; file*killsPerFile < kills; file++ {
		path := filepath.Join(t.TempDir(), "m.db")
		known := map[machine.EntryID]bool{}
		for k := range min(killsPerFile, kills-file*killsPerFile) {
			got := killOne(t, path, fmt.Sprintf("f%dk%d", file, k), k%4 == 0, random)
			if len(got) == 0 {
				early++
			}
			for _, id := range got {
				known[id] = true
			}
			unsaid += afterKill(t, path, known)
		}
		acked += len(known)
	}
	t.Logf("%d kills in %.1f s: %d entries acknowledged, none lost; %d kills before the first acknowledgement; %d entries kept whose acknowledgement the kill cut off",
		kills, time.Since(began).Seconds(), acked, early, unsaid)
	if kills >= 40 && (early == 0 || early == kills) {
		t.Errorf("the kills all fell on one side of the first acknowledgement: %d of %d before it", early, kills)
	}
}

// killOne starts a writer, kills it, and lists what it acknowledged. Soon lets
// the delay run from the start of the process, so that the kill falls into the
// opening of the file, and of a fresh one into its laying out; else it runs
// from the first answer.
func killOne(t *testing.T, path, prefix string, soon bool, random *rand.Rand) []machine.EntryID {
	t.Helper()
	cmd, out := childCommand(t, "append", path, prefix, "1000000")
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	kill := func(within time.Duration) {
		time.AfterFunc(time.Duration(random.Int64N(int64(within))), func() { cmd.Process.Kill() })
	}
	var acked []machine.EntryID
	if soon {
		kill(15 * time.Millisecond)
	} else if out.Scan() {
		acked = append(acked, machine.EntryID(out.Text()))
		kill(30 * time.Millisecond)
	}
	acked = append(acked, readAcks(out)...)
	if err := cmd.Wait(); err == nil || err.Error() != "signal: killed" {
		t.Fatalf("the writer ended by itself: %v", err)
	}
	return acked
}

// readAcks reads ids until the process is gone. A line cut short by the kill
// cannot be told from a whole one by its end, but each is one small write to a
// pipe, which is whole or not there (POSIX.1-2017, write: PIPE_BUF).
func readAcks(out *bufio.Scanner) (ids []machine.EntryID) {
	for out.Scan() {
		ids = append(ids, machine.EntryID(out.Text()))
	}
	return ids
}

// afterKill opens the file and counts the entries kept that nobody
// acknowledged; it adds them to known.
func afterKill(t *testing.T, path string, known map[machine.EntryID]bool) (unsaid int) {
	t.Helper()
	log, err := Open(path)
	if err != nil {
		t.Fatalf("opening after a kill: %v", err)
	}
	defer log.Close()
	checkedLog{log, t}.clean()
	kept, err := log.Since(t.Context(), "m", 0)
	if err != nil && len(known) > 0 {
		t.Fatalf("reading after a kill: %v", err)
	}
	found := map[machine.EntryID]bool{}
	for _, e := range kept {
		found[e.ID] = true
		if !known[e.ID] {
			unsaid++
		}
	}
	for id := range known {
		if !found[id] {
			t.Errorf("entry %s was acknowledged and is gone", id)
		}
	}
	if unsaid > 1 {
		t.Errorf("%d entries were kept without an answer; one at a time was sent", unsaid)
	}
	for id := range found {
		known[id] = true
	}
	return unsaid
}
