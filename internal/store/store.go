// Package store keeps the logs of machines and their attachments.
//
// A log only grows: an entry is appended once and never changed. One call of
// Append is one transaction; once it has returned, its entries outlive a kill
// of the process at any instant, and, as far as the disk keeps its word about
// flushing, a loss of power.
//
// Two stores answer to one interface, Log, and pass the same tests: one in
// memory, for tests and trials, and one in a SQLite file.
//
// What this package cannot detect: whether an entry makes sense (Fold asks
// about that), and a file altered on purpose by somebody who also makes the
// sums anew. The sums find damage, not forgery.
package store

import (
	"context"
	"time"

	"matchmark/internal/machine"
)

// Log keeps any number of machines, each with its entries, and attachments
// that all of them share. Every method may be called from several goroutines
// at once. Errors are of type *Error; their kinds are the Err variables.
type Log interface {
	// Create begins the log of a machine. Again with the same name is no
	// error. Errors: ErrInvalid, ErrConflict where the id is taken under
	// another name.
	Create(ctx context.Context, id machine.MachineID, name string) error

	// Append keeps entries, all of them or none, and returns them with Seq
	// filled in. Seq counts each machine's entries from 1 without a gap; a Seq
	// that came in is ignored. An entry whose id is kept already with the same
	// content keeps its Seq and is not stored again, so a batch may be sent
	// again after a doubt. An id kept with other content refuses the whole
	// batch and names the culprit, so that it can be set aside and the rest
	// sent again.
	// Errors: ErrNoMachine, ErrInvalid, ErrConflict, ErrFull, ErrReadOnly, ErrBusy.
	Append(ctx context.Context, id machine.MachineID, entries []machine.Entry) ([]machine.Entry, error)

	// Since lists the entries with a Seq above seq, in the order of Seq.
	// Errors: ErrNoMachine.
	Since(ctx context.Context, id machine.MachineID, seq int64) ([]machine.Entry, error)

	// Machines lists what is kept, by id.
	Machines(ctx context.Context) ([]Listing, error)

	// PutBlob keeps an attachment and returns its SHA-256. The same data again
	// is kept once; the media type first given stays.
	// Errors: ErrInvalid where data is empty or larger than MaxBlob, ErrFull,
	// ErrReadOnly, ErrBusy.
	PutBlob(ctx context.Context, data []byte, mediaType string) (machine.Sum, error)

	// Blob returns an attachment and its media type. Errors: ErrNoBlob.
	Blob(ctx context.Context, sum machine.Sum) (data []byte, mediaType string, err error)

	// Check reads everything and compares it with its sums. What is wrong is
	// in the report; the error is for a check that could not be made.
	// Cost: reads every byte that is kept.
	Check(ctx context.Context) (Report, error)

	Shelf

	Close() error
}

// Shelf keeps the shop's own papers: small documents by name that belong to no
// machine and may change, such as the devices let in, what a calliper types and
// the offsets of the label printer. Nothing that is worked out of a log stands
// here, and no paper leaves the shop with a machine.
type Shelf interface {
	// Paper returns a paper, nil where there is none.
	Paper(ctx context.Context, name string) ([]byte, error)

	// PutPaper keeps a paper in place of the one of that name; empty data
	// takes it off the shelf.
	// Errors: ErrInvalid for an empty name or more than MaxPaper bytes,
	// ErrFull, ErrReadOnly, ErrBusy.
	PutPaper(ctx context.Context, name string, data []byte) error

	// Papers lists the names that begin with front, sorted.
	Papers(ctx context.Context, front string) ([]string, error)
}

// MaxPaper is the largest paper, in bytes.
const MaxPaper = 256 << 10

// MaxBlob is the largest attachment, in bytes: ten minutes of 48 kHz mono
// sound at 16 bits is 58 MB.
const MaxBlob = 64 << 20

// Listing is one machine of a store. Name is the one it was created with; the
// name the machine bears by its log is in the folded Machine.
type Listing struct {
	ID      machine.MachineID
	Name    string
	Entries int64
	Last    time.Time // the latest time any entry bears; zero when there is none
}

// Report is what Check found.
type Report struct {
	Machines int
	Entries  int64
	Blobs    int
	Unused   int // attachments that no entry names: harmless, left by an upload whose entry never came
	Faults   []Fault
}

// Clean tells whether nothing was found wrong.
func (r Report) Clean() bool { return len(r.Faults) == 0 }

// Fault is one thing that is wrong. What does not apply is empty.
type Fault struct {
	Machine machine.MachineID
	Seq     int64
	Entry   machine.EntryID
	Blob    machine.Sum
	Text    string
}
