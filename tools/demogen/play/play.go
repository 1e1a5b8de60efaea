package play

import (
	"bytes"
	"encoding/json"
	"errors"

	"matchmark/internal/demo"
	"matchmark/internal/machine"
)

// Played is all that the story leaves behind.
type Played struct {
	Entries  []machine.Entry
	Drawings map[string][]byte // by file name
	Truth    []demo.Planted
}

// Play tells the story. It gives the same bytes every time, for given kits.
// Errors: a story that does not fit the kits. Cost: a few seconds.
func Play() (*Played, error) {
	s := newStory()
	s.takeKits()
	s.survey()
	s.takeApart()
	s.cleanUp()
	s.measureAll()
	s.decide()
	if err := errors.Join(s.faults...); err != nil {
		return nil, err
	}
	return &Played{Entries: s.entries, Drawings: s.album.files, Truth: truth(s.whole())}, nil
}

// Log is the entries as lines.
func (p *Played) Log() ([]byte, error) {
	var out bytes.Buffer
	for _, e := range p.Entries {
		line, err := json.Marshal(e)
		if err != nil {
			return nil, err
		}
		out.Write(line)
		out.WriteByte('\n')
	}
	return out.Bytes(), nil
}

// TruthText is the planted truth as a file.
func (p *Played) TruthText() ([]byte, error) {
	text, err := json.MarshalIndent(p.Truth, "", " ")
	return append(text, '\n'), err
}
