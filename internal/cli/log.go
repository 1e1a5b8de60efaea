package cli

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"

	"matchmark/internal/machine"
)

type logCmd struct {
	Add  logAddCmd  `cmd:"" help:"Add facts: one JSON line each, {\"kind\": …, \"body\": {…}}."`
	Show logShowCmd `cmd:"" help:"Show the log, oldest first."`
	Hear hearCmd    `cmd:"" help:"Show what is understood of one line said over a removal; nothing is kept."`
}

type logAddCmd struct {
	File string `arg:"" optional:"" help:"File of JSON lines; standard input when left out or -."`
}

// maxLine bounds one line of a log: no entry comes near it.
const maxLine = 4 << 20

// Run records every line that is good and names every line that is not. Lines
// with an id are kept as already stamped by a device; lines without one are
// stamped here, and a closing among them is refused where it is held.
func (c *logAddCmd) Run(r *run) error {
	in := r.In
	name := "standard input"
	if c.File != "" && c.File != "-" {
		f, err := os.Open(c.File)
		if err != nil {
			return fmt.Errorf("the log lines could not be read: %w", err)
		}
		defer f.Close()
		in, name = f, c.File
	}
	lines, faults, err := readLines(in)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	b, done, err := r.bench()
	if err != nil {
		return err
	}
	defer done()
	kept := 0
	for _, l := range lines {
		if l.entry.ID != "" {
			_, err = b.Keep(r.ctx, []machine.Entry{l.entry})
		} else {
			_, err = b.Record(r.ctx, r.who(), l.entry.Body)
		}
		if err != nil {
			faults = append(faults, lineFault{l.number, err.Error()})
			continue
		}
		kept++
	}
	if r.json {
		if err := r.print(addedJSON{Kept: kept, Faults: faults}); err != nil {
			return err
		}
	} else {
		fmt.Fprintf(r.Out, "%s in the book.\n", plural(kept, "fact", "facts"))
		for _, f := range faults {
			fmt.Fprintf(r.Err, "%s, line %d: %s\n", name, f.Line, f.Say)
		}
	}
	if len(faults) > 0 {
		return &toldError{"some lines were not kept"}
	}
	return nil
}

type line struct {
	number int
	entry  machine.Entry
}

type lineFault struct {
	Line int    `json:"line"`
	Say  string `json:"say"`
}

// readLines parts good lines from bad ones; an empty line is passed over.
func readLines(in io.Reader) (good []line, bad []lineFault, err error) {
	scan := bufio.NewScanner(in)
	scan.Buffer(nil, maxLine)
	for n := 1; scan.Scan(); n++ {
		text := strings.TrimSpace(scan.Text())
		if text == "" {
			continue
		}
		var e machine.Entry
		if err := json.Unmarshal([]byte(text), &e); err != nil {
			bad = append(bad, lineFault{n, fmt.Sprintf("this is no JSON object of the log's form (%v). Write {\"kind\": …, \"body\": {…}}; nothing of this line was kept", err)})
			continue
		}
		if u, ok := e.Body.(*machine.Unreadable); ok {
			bad = append(bad, lineFault{n, u.Why + ". Correct it and add it again; nothing of this line was kept"})
			continue
		}
		good = append(good, line{n, e})
	}
	if err := scan.Err(); err != nil {
		return nil, nil, fmt.Errorf("line %d could not be read: %w; nothing was kept", len(good)+len(bad)+1, err)
	}
	return good, bad, nil
}

type logShowCmd struct {
	Kind  string `help:"Only this kind of entry, such as reading-taken."`
	About string `help:"Only entries whose text holds this, such as main-cap.2."`
	Last  int    `help:"Only the last N." placeholder:"N"`
}

func (c *logShowCmd) Run(r *run) error {
	b, done, err := r.bench()
	if err != nil {
		return err
	}
	defer done()
	entries, err := b.Entries(r.ctx)
	if err != nil {
		return err
	}
	var lines []string
	for _, e := range entries {
		raw, err := json.Marshal(e)
		if err != nil {
			return err
		}
		if (c.Kind != "" && string(e.Kind()) != c.Kind) || !strings.Contains(string(raw), c.About) {
			continue
		}
		if r.json {
			lines = append(lines, string(raw))
			continue
		}
		body, _ := json.Marshal(e.Body)
		lines = append(lines, fmt.Sprintf("%6d %s %-10s %-16s %s", e.Seq, e.At.Format("2006-01-02 15:04"), e.By, e.Kind(), body))
	}
	if c.Last > 0 && len(lines) > c.Last {
		lines = lines[len(lines)-c.Last:]
	}
	for _, l := range lines {
		fmt.Fprintln(r.Out, l)
	}
	return nil
}
