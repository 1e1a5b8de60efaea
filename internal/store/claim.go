package store

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"
)

// Claim says that this process serves the store at path. what is told to
// whoever comes second: "http://192.168.1.5:8080". The claim lies in a file
// beside the store, path + "-owner", held by a lock of the system's kernel, so
// that it falls with the process, however that ends. It binds only those who
// ask; reading and appending need no claim.
// release gives it back; the file stays, empty.
// Errors: ErrHeld, whose advice says who serves it; ErrUnreachable.
func Claim(path, what string) (release func(), err error) {
	name := path + "-owner"
	f, err := lockFile(name)
	if errors.Is(err, errLocked) {
		return nil, &Error{Op: "claim", Object: path, Kind: ErrHeld, Advice: heldAdvice(name)}
	}
	if err == nil {
		err = writeOwner(f, what)
	}
	if err != nil {
		if f != nil {
			f.Close()
		}
		return nil, &Error{Op: "claim", Object: path, Kind: ErrUnreachable, Cause: err}
	}
	return func() {
		f.Truncate(0)
		f.Close() // drops the lock
	}, nil
}

// errLocked is what lockFile returns where another holds the file.
var errLocked = errors.New("locked")

func writeOwner(f *os.File, what string) error {
	if err := f.Truncate(0); err != nil {
		return err
	}
	_, err := f.WriteAt(fmt.Appendf(nil, "%s\nprocess %d\n", strings.ReplaceAll(what, "\n", " "), os.Getpid()), 0)
	return err
}

// heldAdvice reads who holds the file; the holder may just be writing it.
func heldAdvice(name string) string {
	for range 20 {
		if text, err := readOwner(name); err == nil && strings.Count(text, "\n") == 2 {
			what, process, _ := strings.Cut(strings.TrimSpace(text), "\n")
			return "another matchmark serves this file at " + what + " (" + process + "); use that one, or stop it first"
		}
		time.Sleep(5 * time.Millisecond)
	}
	return "another matchmark serves this file; use that one, or stop it first"
}

func readOwner(name string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, 4096))
	return string(text), err
}
