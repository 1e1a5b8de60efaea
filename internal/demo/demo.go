package demo

import (
	"bytes"
	"embed"
	"encoding/json"
	"fmt"
	"io/fs"

	"matchmark/internal/machine"
)

// ID is the demo machine in a store, Name what it is created as.
const (
	ID   machine.MachineID = "codlin"
	Name string            = "Wendle Codlin 18"
)

//go:embed log.jsonl
var logLines []byte

//go:embed truth.json
var truthText []byte

//go:embed drawings
var drawings embed.FS

// Entries is the whole log, in the order of time. Errors: a line that cannot
// be read, which the tests rule out. Cost: linear; some 30 ms.
func Entries() ([]machine.Entry, error) {
	out := make([]machine.Entry, 0, count())
	for i, line := range bytes.Split(bytes.TrimSpace(logLines), []byte("\n")) {
		e := machine.Decode(line)
		if u, bad := e.Body.(*machine.Unreadable); bad {
			return nil, fmt.Errorf("demo log, line %d: %s", i+1, u.Why)
		}
		out = append(out, e)
	}
	return out, nil
}

// count is the number of entries, without reading them.
func count() int { return bytes.Count(logLines, []byte("\n")) }

// DrawingType is the media type of the drawings.
const DrawingType = "image/svg+xml"

// Drawings are the pictures that the log names, by file name.
func Drawings() (map[string][]byte, error) {
	out := map[string][]byte{}
	files, err := fs.Glob(drawings, "drawings/*.svg")
	if err != nil {
		return nil, err
	}
	for _, name := range files {
		data, err := drawings.ReadFile(name)
		if err != nil {
			return nil, err
		}
		out[name[len("drawings/"):]] = data
	}
	return out, nil
}

// Planted is one check with the verdict that the figures of the log were made
// to give it.
type Planted struct {
	Check   machine.CheckID `json:"check"`
	Verdict string          `json:"verdict"`
	Because string          `json:"because,omitempty"` // what was planted, for the bad ones
}

// Truth lists every check that was read, by its place in the machine.
func Truth() ([]Planted, error) {
	var out []Planted
	err := json.Unmarshal(truthText, &out)
	return out, err
}
