package store

import (
	"fmt"
	"time"

	"matchmark/internal/machine"
)

// checker gathers a Report. It is fed the machines in turn, each with its rows
// in the order of Seq, and then the attachments.
type checker struct {
	report Report
	named  map[machine.Sum]Fault // first entry that names an attachment
	order  []machine.Sum         // of first naming

	now  head // the machine as its row says
	seen head // and as its entries say
}

// head is where the log of a machine stands.
type head struct {
	id      machine.MachineID
	name    string
	entries int64
	last    time.Time
	link    link
}

func newChecker() *checker { return &checker{named: map[machine.Sum]Fault{}} }

func (c *checker) fault(f Fault, format string, args ...any) {
	f.Text = fmt.Sprintf(format, args...)
	c.report.Faults = append(c.report.Faults, f)
}

// begin starts a machine.
func (c *checker) begin(h head) {
	c.report.Machines++
	c.now, c.seen = h, head{id: h.id, link: firstLink(h.id)}
}

// entry takes the next row of the machine.
func (c *checker) entry(seq int64, id machine.EntryID, text []byte, kept link) {
	c.report.Entries++
	at := Fault{Machine: c.now.id, Seq: seq, Entry: id}
	if want := c.seen.entries + 1; seq != want {
		c.fault(at, "entry %s has number %d where %d was due: entries are missing or doubled", id, seq, want)
	}
	c.seen.entries = seq
	if c.seen.link = c.seen.link.next(text); c.seen.link != kept {
		c.fault(at, "entry %s does not agree with its sum: it or the entry before it was altered", id)
		c.seen.link = kept // so that one fault is told once
	}
	e := machine.Decode(text)
	if e.ID != id {
		c.fault(at, "entry %s is kept under the id of another, %q", id, e.ID)
	}
	if e.At.After(c.seen.last) {
		c.seen.last = e.At
	}
	for _, sum := range Sums(e.Body) {
		if _, known := c.named[sum]; !known {
			c.named[sum] = at
			c.order = append(c.order, sum)
		}
	}
}

// end compares what the machine's row says with what its entries say.
func (c *checker) end() {
	at := Fault{Machine: c.now.id}
	switch {
	case c.seen.entries != c.now.entries:
		c.fault(at, "machine %s should have %d entries and has %d", c.now.id, c.now.entries, c.seen.entries)
	case c.seen.link != c.now.link:
		c.fault(at, "the last entries of machine %s do not agree with its sum", c.now.id)
	case !c.seen.last.Equal(c.now.last):
		c.fault(at, "machine %s should end on %s and ends on %s", c.now.id, stampText(c.now.last), stampText(c.seen.last))
	}
}

// blob takes an attachment.
func (c *checker) blob(sum machine.Sum, data []byte) {
	c.report.Blobs++
	if got := sumOf(data); got != sum {
		c.fault(Fault{Blob: sum}, "attachment %s does not agree with its sum: it was altered", sum)
	}
	if _, used := c.named[sum]; used {
		delete(c.named, sum)
	} else {
		c.report.Unused++
	}
}

// done names the attachments that are missing and gives the report.
func (c *checker) done() Report {
	for _, sum := range c.order {
		if at, missing := c.named[sum]; missing {
			at.Blob = sum
			c.fault(at, "entry %s names attachment %s, which is not here", at.Entry, sum)
		}
	}
	return c.report
}

func stampText(t time.Time) string {
	if t.IsZero() {
		return "no time"
	}
	return t.UTC().Format(time.RFC3339Nano)
}
