package store

import (
	"errors"
	"strings"

	"matchmark/internal/machine"
)

// The kinds of error, for errors.Is.
var (
	ErrInvalid      = errors.New("cannot be kept")
	ErrConflict     = errors.New("is kept already with other content")
	ErrNoMachine    = errors.New("no such machine")
	ErrNoBlob       = errors.New("no such attachment")
	ErrNewer        = errors.New("was written by a newer version of this program")
	ErrNotADatabase = errors.New("is no matchmark database")
	ErrFull         = errors.New("the disk is full")
	ErrReadOnly     = errors.New("the file can be read but not written")
	ErrBusy         = errors.New("another program holds the file")
	ErrDamaged      = errors.New("the file is damaged")
	ErrUnreachable  = errors.New("the file cannot be opened")
	ErrHeld         = errors.New("is served by another matchmark")
	ErrStorage      = errors.New("the storage refused")
)

// Error says what was tried, on what, why it was refused, and what to do.
type Error struct {
	Op     string          // "append to"
	Object string          // the machine, file or attachment it is about
	Entry  machine.EntryID // the culprit, where one entry is
	Kind   error           // one of the Err variables
	Advice string          // for the worker; may be empty
	Cause  error           // what lies below; may be nil
}

func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.Op + " " + e.Object)
	if e.Entry != "" {
		b.WriteString(": entry " + string(e.Entry))
	}
	b.WriteString(": " + e.Kind.Error())
	if e.Cause != nil {
		b.WriteString(" (" + e.Cause.Error() + ")")
	}
	if e.Advice != "" {
		b.WriteString("; " + e.Advice)
	}
	return b.String()
}

// Unwrap gives the kind and the cause.
func (e *Error) Unwrap() []error {
	if e.Cause == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Cause}
}

const (
	keptAdvice = "nothing of this call was stored, and everything acknowledged before it is kept"
	fullAdvice = keptAdvice + "; free some space on the disk and record it again"
	lockAdvice = keptAdvice + "; see who may write the file and its folder, then record it again"
	busyAdvice = keptAdvice + "; close the other program or wait for it, then record it again"
)

func noMachine(op string, id machine.MachineID) error {
	return &Error{Op: op, Object: "machine " + string(id), Kind: ErrNoMachine, Advice: "create it first"}
}

func noBlob(sum machine.Sum) error {
	return &Error{Op: "read", Object: "attachment " + string(sum), Kind: ErrNoBlob}
}
