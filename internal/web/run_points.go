package web

import (
	"cmp"
	"fmt"
	"net/url"
	"regexp"
	"slices"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// point is one place of a measuring run.
type point struct {
	Feature *machine.Feature // either a surface
	Check   *machine.Check   // or a check read directly
	Level   string
	Axis    string
	Unworn  bool
	Nth     int // which repeat, from 1; 0 where one reading is enough
	Reads   []*machine.Reading
}

// run is the points of one surface, or of one check read directly, at all its
// places, in bench order.
type run struct {
	Sort, What string // "f", "liner/bore" or "c", "ring-gap"
	Name       string
	Points     []point
}

// findRun gathers a run; ok is false where nothing of the machine is meant.
// The types or one instance may be named.
func findRun(m *machine.Machine, sort, what string) (run, bool) {
	r := run{Sort: sort, What: what}
	switch sort {
	case "f":
		for _, ft := range m.Features {
			if runOfFeature(ft) == what || string(ft.ID) == what {
				r.addFeature(ft)
			}
		}
	case "c":
		for _, c := range m.Checks {
			if direct(c) && (string(c.Type) == what || string(c.ID) == what) {
				r.addCheck(c)
			}
		}
	}
	return r, len(r.Points) > 0
}

// direct tells the checks whose figure is read as such.
func direct(c *machine.Check) bool { return c.By == machine.ByReading }

// byWord tells the checks answered yes or no.
func byWord(c *machine.Check) bool { return c.By == machine.ByEye || c.By == machine.ByPassage }

// runOfFeature names the run a surface belongs to: its part's type and the
// surface, without a place at its end ("crankshaft/main-journal-2").
func runOfFeature(ft *machine.Feature) string {
	return string(machine.FeatureOf(ft.Part.Type, numberAtEnd.ReplaceAllString(ft.ID.Name(), "")))
}

var numberAtEnd = regexp.MustCompile(`[- ,]+[0-9]+$`)

// runAddress is where a surface or a check is read or looked at.
func runAddress(base, sort, what string) string {
	return base + "/run/" + sort + "/" + strings.ReplaceAll(url.PathEscape(what), "%2F", "/")
}

func (r *run) addFeature(ft *machine.Feature) {
	if r.Name == "" {
		r.Name = surfaceName(plainName(ft.Part.Name, ft.Part.Place), baseName(ft))
	}
	for _, p := range ft.Points() {
		r.Points = append(r.Points, point{Feature: ft, Level: p.Level, Axis: p.Axis, Reads: readsAt(ft, p.Level, p.Axis, false)})
	}
	if ft.Unworn != "" {
		r.Points = append(r.Points, point{Feature: ft, Unworn: true, Reads: readsAt(ft, "", "", true)})
	}
}

func (r *run) addCheck(c *machine.Check) {
	if r.Name == "" {
		r.Name = plainName(c.Name, c.Place)
	}
	reads := c.Current()
	for i := range max(c.Repeats, 1) {
		p := point{Check: c}
		if c.Repeats > 1 {
			p.Nth = i + 1
		}
		last := i == max(c.Repeats, 1)-1
		switch {
		case i < len(reads) && last:
			p.Reads = reads[i:]
		case i < len(reads):
			p.Reads = reads[i : i+1]
		}
		r.Points = append(r.Points, p)
	}
}

// plainName takes the place off a name: "Liner, cylinder 2" is "Liner".
func plainName(name string, at machine.Place) string {
	if i := strings.LastIndex(name, ", "); at != "" && i > 0 && strings.HasSuffix(name, string(at)) {
		return name[:i]
	}
	return name
}

// baseName is a surface's name without the place of one that its part carries
// several times: "crankpin, cylinder 2" is "crankpin".
func baseName(ft *machine.Feature) string {
	if i := strings.LastIndex(ft.Name, ", "); i > 0 && numberAtEnd.MatchString(ft.ID.Name()) {
		return ft.Name[:i]
	}
	return ft.Name
}

var aside = regexp.MustCompile(` \([^)]*\)`)

// surfaceName names a surface after its part, without saying a word twice.
func surfaceName(part, name string) string {
	part = aside.ReplaceAllString(part, "")
	if contains(part, name) {
		return part
	}
	return part + ", " + name
}

// placeWord is what a name says of its place: "cylinder 2", or the whole name
// where it has no place.
func placeWord(name string, at machine.Place) string {
	if plain := plainName(name, at); plain != name {
		return name[len(plain)+2:]
	}
	return name
}

func readsAt(ft *machine.Feature, level, axis string, unworn bool) []*machine.Reading {
	var out []*machine.Reading
	for _, r := range ft.Current() {
		if r.Unworn == unworn && (unworn || r.Level == level && r.Axis == axis) {
			out = append(out, r)
		}
	}
	return out
}

// Key names the point in an address.
func (p point) Key() string {
	switch {
	case p.Check != nil:
		return fmt.Sprintf("%s|%d", p.Check.ID, p.Nth)
	case p.Unworn:
		return string(p.Feature.ID) + "|unworn"
	}
	return string(p.Feature.ID) + "|" + p.Level + "|" + p.Axis
}

// last is the reading that shows at the point, nil while it is not read.
func (p point) last() *machine.Reading {
	if len(p.Reads) == 0 {
		return nil
	}
	return p.Reads[len(p.Reads)-1]
}

// Lines are the words of the point, one a line: "Cylinder 2", "middle",
// "across".
func (p point) Lines() []string {
	var words []string
	if p.Check != nil {
		words = []string{spelling.Head(p.owner())}
		if p.Nth > 0 {
			words = append(words, fmt.Sprintf("reading %d", p.Nth))
		}
		return words
	}
	words = []string{spelling.Head(p.owner())}
	if p.Unworn {
		return append(words, "unworn surface")
	}
	for _, w := range []string{p.Level, p.Axis} {
		if w != "" {
			words = append(words, w)
		}
	}
	return words
}

// owner is what tells this surface from the others of its run: the place of
// its part, or its own name on a part that stands alone.
func (p point) owner() string {
	switch {
	case p.Check != nil:
		return placeWord(p.Check.Name, p.Check.Place)
	case p.Feature.Part.Place == "":
		if base := baseName(p.Feature); len(base)+2 < len(p.Feature.Name) {
			return p.Feature.Name[len(base)+2:]
		}
		return p.Feature.Name
	}
	return placeWord(p.Feature.Part.Name, p.Feature.Part.Place)
}

// Words joins the lines.
func (p point) Words() string { return strings.Join(p.Lines(), ", ") }

// now chooses the point to read: the one asked for, else the first unread one
// after the point just done, round to the start; the last when all are read.
func (r run) now(at, after string) int {
	if i := r.find(at); i >= 0 {
		return i
	}
	start := r.find(after) + 1
	for i := range r.Points {
		if k := (start + i) % len(r.Points); r.Points[k].last() == nil {
			return k
		}
	}
	return max(r.find(after), 0)
}

func (r run) find(key string) int {
	return slices.IndexFunc(r.Points, func(p point) bool { return p.Key() == key })
}

// done counts the points read.
func (r run) done() int {
	n := 0
	for _, p := range r.Points {
		if p.last() != nil {
			n++
		}
	}
	return n
}

// taken is one reading of a run with its point.
type taken struct {
	*machine.Reading
	At *point
}

// latest lists the readings of the run, the one kept last first: the order in
// which they are undone.
func (r run) latest() []taken {
	var all []taken
	for i := range r.Points {
		for _, read := range r.Points[i].Reads {
			all = append(all, taken{read, &r.Points[i]})
		}
	}
	slices.SortFunc(all, func(a, b taken) int {
		return cmp.Or(b.Reading.At.Compare(a.Reading.At), strings.Compare(string(b.Entry), string(a.Entry)))
	})
	return all
}
