package store

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"testing"

	"matchmark/internal/machine"
)

// The tests that need a second process run this test binary again as one of
// the children below, chosen by an environment variable.
const childEnv = "MATCHMARK_STORE_CHILD"

func TestMain(m *testing.M) {
	children := map[string]func([]string) error{"append": childAppend, "claim": childClaim}
	if child := children[os.Getenv(childEnv)]; child != nil {
		if err := child(os.Args[1:]); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// childCommand prepares a child; its answers come line by line.
func childCommand(t testing.TB, name string, args ...string) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self, args...)
	cmd.Env = append(os.Environ(), childEnv+"="+name)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	return cmd, bufio.NewScanner(out)
}

// childAppend opens a store and appends entries one by one, saying the id of
// each once it is acknowledged. Every eighth carries a photo. Arguments: the
// path, a prefix for the ids, and how many entries.
func childAppend(args []string) error {
	path, prefix := args[0], args[1]
	count, err := strconv.Atoi(args[2])
	if err != nil {
		return err
	}
	log, err := Open(path)
	if err != nil {
		return err
	}
	ctx := context.Background()
	if err := log.Create(ctx, "m", "Machine"); err != nil {
		return err
	}
	for n := range count {
		e := machine.Entry{ID: machine.EntryID(fmt.Sprintf("%s-%d", prefix, n)), At: noon, By: "child", Body: &machine.Noted{Text: "x"}}
		if n%8 == 0 {
			sum, err := log.PutBlob(ctx, fmt.Appendf(make([]byte, 9000), "photo %s %d", prefix, n), "image/jpeg")
			if err != nil {
				return err
			}
			e.Body = &machine.PhotoAdded{Of: "part:p", Sum: sum}
		}
		if _, err := log.Append(ctx, "m", []machine.Entry{e}); err != nil {
			return err
		}
		fmt.Fprintln(os.Stdout, e.ID) // unbuffered: one write
	}
	return log.Close()
}

// childClaim claims a store, says so, and waits until its input ends.
func childClaim(args []string) error {
	if _, err := Claim(args[0], args[1]); err != nil {
		return err
	}
	fmt.Fprintln(os.Stdout, "claimed")
	_, err := os.Stdin.Read(make([]byte, 1))
	if err != nil && err.Error() == "EOF" {
		return nil
	}
	return err
}
