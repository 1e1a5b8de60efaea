package kit

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/fastener"
)

// braced is a count formula within a layout: "rows 2x{2*cylinders}".
var braced = regexp.MustCompile(`\{([^{}]*)\}`)

// layoutFormulas lists the formulas of a layout.
func layoutFormulas(text string) []string {
	var out []string
	for _, m := range braced.FindAllStringSubmatch(text, -1) {
		out = append(out, m[1])
	}
	return out
}

// layout writes a joint's layout out with its numbers. Where one depends on a
// kit that is not taken the joint has none, and a note says so.
func (x *expander) layout(t *taken, path, name, text string) (string, error) {
	for _, f := range layoutFormulas(text) {
		n, ok, err := x.count(t, path+".layout", name+", layout", f)
		if err != nil || !ok {
			return "", err
		}
		text = strings.Replace(text, "{"+f+"}", strconv.Itoa(n), 1)
	}
	return text, nil
}

// threads parts the threads that a joint may have: "M8 or M10x1.25".
func threads(text string) []string {
	if text == "" {
		return nil
	}
	return strings.Split(text, " or ")
}

// fastening looks at what a joint says of its bolts and shims for closing it.
func (c *checker) fastening(it item, j Joint) {
	c.layout(it, j.Layout)
	if j.Thread != "" || j.Grade != "" {
		c.threads(it, j)
	}
	if j.Into != "" && !slices.Contains(j.Parts, j.Into) {
		c.fault(it, "into", "part "+quote(j.Into)+" is not one of the joint", "name one of its parts, or take it out")
	}
	if j.Thicker == "" {
		return
	}
	c.word(it, "thicker", j.Thicker, []string{machine.Opens, machine.Closes})
	if j.Shims == "" {
		c.fault(it, "thicker", "it says what a thicker pack does, but no shims stand there", "write shims as well, or take it out")
	}
}

// layout wants a layout that reads at every count allowed.
func (c *checker) layout(it item, text string) {
	if text == "" {
		return
	}
	for _, f := range layoutFormulas(text) {
		c.formula(it, "layout", f, mostPieces)
		n, err := whole(f, c.samples[it.sheet])
		if err != nil {
			return // formula has said so
		}
		text = strings.Replace(text, "{"+f+"}", strconv.Itoa(n), 1)
	}
	if _, err := fastener.ParseLayout(text); err != nil {
		c.fault(it, "layout", err.Error(), `write it as "circle 6", "rows 2x5", "edge 300x180 10" or "field 0,0; 40,12"`)
	}
}

// threads wants threads of the table, and a class that they are made in.
func (c *checker) threads(it item, j Joint) {
	if c.threadList == nil {
		list, err := fastener.Threads()
		if err != nil {
			c.fault(it, "thread", err.Error(), "mend the table of threads")
			return
		}
		c.threadList = list
	}
	if j.Thread == "" {
		c.fault(it, "grade", "a class stands here without a thread", "write the thread as well, or take it out")
	}
	for _, text := range threads(j.Thread) {
		s, err := c.threadList.Size(text)
		if err != nil {
			c.fault(it, "thread", quote(text)+" is no thread of the table", `write it as "M10x1.25"; where two are usual, "M8 or M10"`)
			continue
		}
		if j.Grade == "" {
			continue
		}
		if _, err := fastener.ClassOf(s.Thread, j.Grade); err != nil {
			c.fault(it, "grade", err.Error(), `write a class such as "8.8", or leave it out`)
		}
	}
}
