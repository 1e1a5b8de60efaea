package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"time"

	"matchmark/internal/machine"
)

// line is an entry as it is kept: its JSON without the Seq, which the place in
// the log says.
type line struct {
	id   machine.EntryID
	at   time.Time
	text []byte
}

// writeLines turns entries into lines; it names the first that cannot be kept.
func writeLines(id machine.MachineID, entries []machine.Entry) ([]line, error) {
	lines := make([]line, len(entries))
	for i, e := range entries {
		var err error
		switch {
		case e.ID == "":
			err = errors.New("it has no id")
		case e.Body == nil:
			err = errors.New("it says nothing")
		}
		e.Seq = 0
		var text []byte
		if err == nil {
			text, err = json.Marshal(e)
		}
		if err != nil {
			return nil, &Error{Op: "append to", Object: "machine " + string(id), Entry: e.ID,
				Kind: ErrInvalid, Cause: err, Advice: "nothing of this call was stored"}
		}
		lines[i] = line{e.ID, e.At, text}
	}
	return lines, nil
}

// readLine gives back the entry of a line. It never fails: a line that is
// damaged comes back unreadable under its id.
func readLine(id machine.EntryID, seq int64, text []byte) machine.Entry {
	e := machine.Decode(text)
	e.ID, e.Seq = id, seq
	return e
}

// sameFact tells whether two lines say the same. Where their bytes differ the
// kept one is written anew first: an earlier version of this program may have
// written the same fact with other bytes.
func sameFact(kept, sent []byte) bool {
	if bytes.Equal(kept, sent) {
		return true
	}
	e := machine.Decode(kept)
	e.Seq = 0
	anew, err := json.Marshal(e)
	return err == nil && bytes.Equal(anew, sent)
}

// conflict names the entry that is kept with other content.
func conflict(id machine.MachineID, entry machine.EntryID) error {
	return &Error{Op: "append to", Object: "machine " + string(id), Entry: entry, Kind: ErrConflict,
		Advice: "nothing of this call was stored; send the other entries again without this one, and give this one an id of its own"}
}
