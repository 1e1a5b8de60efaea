package cli

import (
	"encoding/json"

	"matchmark/internal/kit"
	"matchmark/internal/machine"
	"matchmark/internal/store"
)

// print writes one JSON document, indented, as every --json answer is.
func (r *run) print(v any) error {
	enc := json.NewEncoder(r.Out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

type listedJSON struct {
	ID      machine.MachineID `json:"id"`
	Name    string            `json:"name"`
	Entries int64             `json:"entries"`
}

type addedJSON struct {
	Kept   int         `json:"kept"`
	Faults []lineFault `json:"faults"`
}

type faultJSON struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Item    string `json:"item"`
	Problem string `json:"problem"`
	Cure    string `json:"cure"`
}

type kitJSON struct {
	ID      string            `json:"id"`
	Title   string            `json:"title"`
	Parts   int               `json:"parts"`
	Joints  int               `json:"joints"`
	Checks  int               `json:"checks"`
	Counts  map[string]int    `json:"counts"`
	Choices map[string]string `json:"choices"`
}

func kitJSONOf(s *kit.Sheet) kitJSON {
	f := s.File
	out := kitJSON{ID: f.Kit.ID, Title: f.Kit.Title, Parts: len(f.Parts), Joints: len(f.Joints), Checks: len(f.Checks),
		Counts: map[string]int{}, Choices: map[string]string{}}
	for _, c := range f.Counts {
		out.Counts[c.ID] = c.Default
	}
	for _, c := range f.Choices {
		out.Choices[c.ID] = c.Default
	}
	return out
}

type reportJSON struct {
	Machines int        `json:"machines"`
	Entries  int64      `json:"entries"`
	Blobs    int        `json:"attachments"`
	Unused   int        `json:"attachmentsUnused"`
	Faults   []holeJSON `json:"faults"`
	Whole    bool       `json:"whole"`
}

type holeJSON struct {
	Machine machine.MachineID `json:"machine,omitempty"`
	Seq     int64             `json:"seq,omitempty"`
	Entry   machine.EntryID   `json:"entry,omitempty"`
	Blob    machine.Sum       `json:"attachment,omitempty"`
	Text    string            `json:"text"`
}

func reportJSONOf(r store.Report) reportJSON {
	out := reportJSON{Machines: r.Machines, Entries: r.Entries, Blobs: r.Blobs, Unused: r.Unused, Faults: []holeJSON{}, Whole: r.Clean()}
	for _, f := range r.Faults {
		out.Faults = append(out.Faults, holeJSON{f.Machine, f.Seq, f.Entry, f.Blob, f.Text})
	}
	return out
}
