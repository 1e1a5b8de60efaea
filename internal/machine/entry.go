package machine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"time"
)

// Kind names what an entry says, in the past tense: "joint-opened".
type Kind string

// Body is the typed fact of an entry. The bodies of this package are the only
// ones; each names its kind.
type Body interface{ Kind() Kind }

// Entry is one fact of a machine's log. It is never edited: a mistake is
// answered by an entry that supersedes it or withdraws it.
type Entry struct {
	ID         EntryID   // made on the device, sorts by time (UUIDv7)
	Seq        int64     // given by the store when kept; 0 before that
	At         time.Time // when it happened, by the device's clock
	By         string    // author
	Device     string
	Supersedes EntryID // the entry this one replaces, or empty
	Version    int     // of the kind; 1 unless the kind changed shape
	Body       Body
}

// Kind is the kind of the entry's body.
func (e Entry) Kind() Kind {
	if e.Body == nil {
		return ""
	}
	return e.Body.Kind()
}

// wire is the JSON form of an entry; see schema/entry.schema.json.
type wire struct {
	ID         EntryID         `json:"id"`
	Seq        int64           `json:"seq,omitempty"`
	At         time.Time       `json:"at"`
	By         string          `json:"by"`
	Device     string          `json:"device"`
	Kind       Kind            `json:"kind"`
	Version    int             `json:"v"`
	Supersedes EntryID         `json:"supersedes,omitempty"`
	Body       json.RawMessage `json:"body,omitempty"`
}

// MarshalJSON writes the documented form. An Unreadable body is written back
// as it came.
func (e Entry) MarshalJSON() ([]byte, error) {
	w := wire{ID: e.ID, Seq: e.Seq, At: e.At, By: e.By, Device: e.Device,
		Kind: e.Kind(), Version: max(e.Version, 1), Supersedes: e.Supersedes}
	if u, ok := e.Body.(*Unreadable); ok {
		w.Kind = u.Was
		w.Body = u.Raw
		if len(u.Raw) > 0 && !json.Valid(u.Raw) {
			w.Kind = "unreadable"
			w.Body, _ = json.Marshal(string(u.Raw))
		}
		return json.Marshal(w)
	}
	raw, err := json.Marshal(e.Body)
	if err != nil {
		return nil, fmt.Errorf("entry %s: %w", e.ID, err)
	}
	w.Body = raw
	return json.Marshal(w)
}

// UnmarshalJSON reads the documented form. It fails only where the envelope is
// no JSON object; a body that is unknown or broken becomes Unreadable.
func (e *Entry) UnmarshalJSON(line []byte) error {
	var w wire
	if err := json.Unmarshal(line, &w); err != nil {
		return err
	}
	*e = Entry{ID: w.ID, Seq: w.Seq, At: w.At, By: w.By, Device: w.Device,
		Supersedes: w.Supersedes, Version: max(w.Version, 1)}
	e.Body = DecodeBody(w.Kind, e.Version, w.Body)
	return nil
}

// Decode reads one line of a log and never fails: what is no entry at all
// becomes an entry with an Unreadable body, so that Fold can ask about it.
func Decode(line []byte) Entry {
	var e Entry
	if err := e.UnmarshalJSON(line); err != nil { // straight: json.Unmarshal would scan the line twice more
		return Entry{Version: 1, Body: &Unreadable{Raw: bytes.Clone(line), Why: err.Error()}}
	}
	return e
}

// DecodeBody reads a body of the given kind and version. Versions ever
// released are upcast here; there is only version 1 so far.
func DecodeBody(kind Kind, version int, raw json.RawMessage) Body {
	body := newBody(kind)
	if body == nil {
		return &Unreadable{Was: kind, Raw: bytes.Clone(raw), Why: fmt.Sprintf("kind %q is not known to this version", kind)}
	}
	if version != 1 {
		return &Unreadable{Was: kind, Raw: bytes.Clone(raw), Why: fmt.Sprintf("version %d of %q is newer than this program", version, kind)}
	}
	if err := json.Unmarshal(raw, body); err != nil {
		return &Unreadable{Was: kind, Raw: bytes.Clone(raw), Why: err.Error()}
	}
	return body
}

// Unreadable keeps what could not be read, byte for byte.
type Unreadable struct {
	Was Kind            `json:"was,omitempty"`
	Raw json.RawMessage `json:"raw,omitempty"`
	Why string          `json:"why"`
}

func (*Unreadable) Kind() Kind { return "unreadable" }
