package web

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"unicode"

	"matchmark/internal/book/labels"
	"matchmark/internal/machine"
	"matchmark/internal/trade/traymark"
)

func trayAddress(base, mark string) string { return base + "/tray/" + url.PathEscape(mark) }

// isPlace tells a stand, a shelf or the floor from a tray: a mark in words.
func isPlace(mark string) bool {
	return !traymark.Made(mark) && strings.IndexFunc(mark, unicode.IsDigit) < 0
}

// trayMeant finds the tray that a typed mark means: as typed, else whatever the
// capitals, with or without the word tray before it. Nil where none or several
// answer.
func trayMeant(m *machine.Machine, typed string) *machine.Tray {
	typed = strings.TrimSpace(typed)
	for i := range m.Trays {
		if m.Trays[i].Mark == typed {
			return &m.Trays[i]
		}
	}
	bare := func(mark string) string {
		return strings.TrimPrefix(strings.ToLower(traymark.Read(mark)), "tray ")
	}
	want, at := bare(strings.TrimPrefix(strings.ToLower(typed), "tray ")), -1
	for i := range m.Trays {
		if m.Trays[i].Mark != machine.NoTray && bare(m.Trays[i].Mark) == want {
			if at >= 0 {
				return nil
			}
			at = i
		}
	}
	if at < 0 {
		return nil
	}
	return &m.Trays[at]
}

// markMeant is the mark to keep for a tray as typed: that of a tray which is
// there, a made mark as on its label, else the words themselves.
func markMeant(m *machine.Machine, typed string) string {
	if t := trayMeant(m, typed); t != nil {
		return t.Mark
	}
	return traymark.Read(typed)
}

// trayName is what a tray is called: as it was named, else by what it holds.
func trayName(m *machine.Machine, t *machine.Tray) string {
	if name := labels.NameOf(m, t); name != "" {
		return name
	}
	return "Empty"
}

// trayPhotos are the photos of a tray, in time order.
func trayPhotos(m *machine.Machine, mark string) []machine.Photo {
	var out []machine.Photo
	for _, p := range m.Photos {
		if p.Of == machine.RefTray(mark) {
			out = append(out, p)
		}
	}
	return out
}

// countsOf says how much lies in a tray: "8 parts, 12 fasteners, 3 shims".
func countsOf(t *machine.Tray) string {
	parts, fasteners, shims := 0, 0, 0
	for _, p := range t.Parts {
		parts += max(p.Qty, 1)
	}
	for _, f := range t.Fasteners {
		for _, s := range f.Sets {
			fasteners += s.Count
		}
		for _, s := range f.Shims {
			shims += max(s.Count, 1)
		}
	}
	var words []string
	for _, c := range []struct {
		n         int
		one, many string
	}{{parts, "piece", "pieces"}, {fasteners, "fastener", "fasteners"}, {shims, "shim", "shims"}} {
		if c.n > 0 {
			words = append(words, plural(c.n, c.one, c.many))
		}
	}
	return strings.Join(words, ", ")
}

// wasIn lists the parts that lay in a tray at any time, in the order they came.
func wasIn(m *machine.Machine, mark string) []machine.PartID {
	var out []machine.PartID
	for _, e := range m.Events {
		switch b := e.Body.(type) {
		case *machine.JointOpened:
			if b.Tray == mark {
				out = append(out, b.Off...)
			}
		case *machine.PartMoved:
			if b.Tray == mark {
				out = append(out, b.Part)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// trayLine is what came out of one joint and lies in a tray.
type trayLine struct {
	From, At string
	Sets     []string
	Shims    []string
}

func trayLines(base string, t *machine.Tray) []trayLine {
	var out []trayLine
	for _, f := range t.Fasteners {
		line := trayLine{From: f.Joint.Name, At: jointAddress(base, f.Joint.ID)}
		for _, s := range f.Sets {
			line.Sets = append(line.Sets, fastenerWords(s))
		}
		for _, s := range f.Shims {
			line.Shims = append(line.Shims, shimWords(s))
		}
		out = append(out, line)
	}
	return out
}

// leftRow is what a closing takes out of a tray, and what is to be left in it.
type leftRow struct {
	Tray, At   string
	Takes      []string
	Left       string   // "3 pieces, 6 fasteners", or that it is empty then
	LeftInside []string // by name
}

// countOut says, for each tray a joint's things lie in, what its closing takes
// and what is to be left: counted at the bench, the two agree or a piece is
// lost.
func countOut(m *machine.Machine, base string, j *machine.Joint) []leftRow {
	var out []leftRow
	for i := range m.Trays {
		t := &m.Trays[i]
		row := leftRow{Tray: trayWords(t.Mark), At: trayAddress(base, t.Mark)}
		rest := machine.Tray{Mark: t.Mark}
		for _, p := range t.Parts {
			if slices.Contains(j.Parts, p) {
				row.Takes = append(row.Takes, pieces(p))
				continue
			}
			rest.Parts = append(rest.Parts, p)
		}
		for _, f := range t.Fasteners {
			if f.Joint == j {
				row.Takes = append(row.Takes, setWords(f)...)
				continue
			}
			rest.Fasteners = append(rest.Fasteners, f)
		}
		if len(row.Takes) == 0 || t.Mark == machine.NoTray {
			continue
		}
		row.Left = countsOf(&rest)
		for _, p := range rest.Parts {
			row.LeftInside = append(row.LeftInside, pieces(p))
		}
		for _, l := range trayLines(base, &rest) {
			for _, s := range append(l.Sets, l.Shims...) {
				row.LeftInside = append(row.LeftInside, s+", from "+l.From)
			}
		}
		out = append(out, row)
	}
	return out
}

func pieces(p *machine.Part) string {
	if p.Qty > 1 {
		return fmt.Sprintf("%d × %s", p.Qty, p.Name)
	}
	return p.Name
}

// setWords are the fasteners and shims of one joint in a tray, a line each.
func setWords(f machine.TrayFasteners) []string {
	var out []string
	for _, s := range f.Sets {
		out = append(out, fastenerWords(s))
	}
	for _, s := range f.Shims {
		out = append(out, "shims "+shimWords(s))
	}
	return out
}
