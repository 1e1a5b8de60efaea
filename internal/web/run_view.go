package web

import (
	"net/url"
	"slices"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// runView is one measuring run as shown.
type runView struct {
	Base, At    string // of the machine, of this run
	Key         string // the point now
	Seen        string // readings of the run that the page shows
	Clashes     []pointClash
	Lines       []string
	Words       string
	How         string
	Care        []careRow
	Sketch      sketch
	Unit        string
	Length      bool // read in mm: a tool that types may be used
	Nth, All    int
	Done        int
	Complete    bool
	Tables      []*cellTable
	List        []cell // for a check read directly
	Others      []otherPlace
	Windows     []pointWindow
	Undos       []undoRow // readings of the run, the latest first
	Undone      []string  // figures that were withdrawn or corrected, with their points
	Verdicts    []verdictRow
	Main        *verdictRow // the one shown under the reading
	Worked      *workedView
	Skip        string
	Tools       []option    // instruments
	Settings    []option    // setting pieces
	Taught      []option    // tools that type
	InHand      *toolInHand // the one of this device, nil where figures are keyed in
	Keyed       bool        // figures are keyed in although there is a tool
	Silent      bool        // no clicks
	Typed, Temp string      // shown again after a refusal
	Note        string
	Fault       string
	Doubt       bool
	Fits        string // unit under which a doubted figure would be in its place
}

// ByTool tells whether the tool types now.
func (rv runView) ByTool() bool { return rv.InHand != nil && !rv.Keyed }

// undoRow is one reading that can be undone.
type undoRow struct {
	Entry, Key string
	Text       string // the figure alone
	Words      string // "92.09 mm at Cylinder 2, middle, across"
}

// option is one answer of a list.
type option struct {
	Value, Name string
	Chosen      bool
}

// verdictRow is what the readings say so far.
type verdictRow struct {
	Name, Word, Value, Sentence, Settle, From string
	Window                                    *window
	grave                                     int
}

// sketch is the little drawing of the point: where along, where across.
type sketch struct {
	Round  bool // a bore or a journal; else a plain length
	Bore   bool
	Row    int // which level, from 0; -1 for none
	Rows   int
	Across bool // the second axis
	Axis   bool // an axis is named
	Y      int  // of the level in the drawing
}

// viewRun builds the page of a run at one point.
func viewRun(v *bench.View, base string, r run, at, after string) runView {
	i := r.now(at, after)
	p := r.Points[i]
	self := runAddress(base, r.Sort, r.What)
	rv := runView{Base: base, At: self, Key: p.Key(), Lines: p.Lines(), Words: p.Words(), Nth: i + 1, All: len(r.Points),
		Done: r.done(), Sketch: sketchOf(p), Unit: unitOf(p), How: howOf(p), Care: careFor(hazardsOf(p), sequence.Check),
		Skip: self + "?after=" + url.QueryEscape(p.Key())}
	rv.Complete = rv.Done == rv.All
	rv.Seen, rv.Clashes = r.seen(), pointClashes(v.Machine, self, v.AsOf, r.holds)
	rv.Tools = toolsFor(v.Machine, p, rv.Unit)
	rv.Length = isLength(rv.Unit)
	rv.Settings = settingsFor(v, r)
	rv.Undos, rv.Undone = undosOf(r), undoneOf(v.Machine, r)
	shown := p
	if k := r.find(after); k >= 0 && r.Points[k].last() != nil {
		shown = r.Points[k]
	}
	rv.Verdicts = verdictsOf(v, shown)
	rv.Main = mainVerdict(rv.Verdicts)
	rv.Worked = workedOf(v.Reckoner(), base, asksOf(v, shown)...)
	rv.Windows = windowsOf(v, r, i)
	if p.Feature != nil {
		rv.Tables, rv.Others = tablesOf(v, r, i, self, after)
	} else {
		rv.List = listOf(r, i, self, after)
	}
	return rv
}

// mostUndos is how many readings a page offers to undo one after the other.
const mostUndos = 60

func undosOf(r run) []undoRow {
	var out []undoRow
	for _, t := range r.latest() {
		if len(out) == mostUndos {
			break
		}
		shown := bench.In(t.Amount, unitOf(*t.At))
		out = append(out, undoRow{string(t.Entry), t.At.Key(), figure(shown.Value, shown.Unit), withUnit(shown.Value, shown.Unit) + " at " + t.At.Words()})
	}
	return out
}

// undoneLines lists all readings of a machine that were withdrawn or corrected,
// for the book: what was written stays legible.
func undoneLines(m *machine.Machine) []bookLine {
	var out []bookLine
	for _, e := range m.Undone {
		out = append(out, bookLine{minute(e.At) + ", " + e.By, say(m, e.Body)})
	}
	return out
}

// undoneOf lists the readings of a run that were undone, the latest last.
func undoneOf(m *machine.Machine, r run) []string {
	var out []string
	for _, e := range m.Undone {
		b, ok := e.Body.(*machine.ReadingTaken)
		if !ok {
			continue
		}
		i := slices.IndexFunc(r.Points, func(p point) bool {
			if p.Check != nil {
				return p.Check.ID == b.Check
			}
			return p.Feature.ID == b.Feature && p.Unworn == b.Unworn && (p.Unworn || p.Level == b.Level && p.Axis == b.Axis)
		})
		if i >= 0 {
			shown := bench.In(b.Amount, unitOf(r.Points[i]))
			out = append(out, withUnit(shown.Value, shown.Unit)+" at "+r.Points[i].Words())
		}
	}
	return out
}

func unitOf(p point) string {
	if p.Check != nil {
		return p.Check.Unit
	}
	return "mm"
}

func howOf(p point) string {
	switch {
	case p.Check != nil:
		return spelling.Head(p.Check.How)
	case p.Unworn:
		return "On the unworn surface: " + p.Feature.Unworn + "."
	}
	return ""
}

func hazardsOf(p point) []string {
	if p.Check != nil {
		return p.Check.Hazards
	}
	return p.Feature.Part.Hazards
}

// toolsFor lists the instruments that read the unit, the usual one chosen.
func toolsFor(m *machine.Machine, p point, unit string) []option {
	usual := ""
	if p.Check != nil {
		usual = p.Check.Tool
	} else {
		usual = p.Feature.Tool
	}
	if last := p.last(); last != nil && last.Tool != "" {
		usual = last.Tool
	}
	dim, _ := bench.DimensionOf(unit)
	var out []option
	for _, in := range judge.Instruments(m) {
		if d, _ := bench.DimensionOf(in.Unit); d == dim {
			out = append(out, option{in.ID, in.Name, in.ID == usual})
		}
	}
	return out
}

// fedBy lists the checks that a point feeds.
func fedBy(v *bench.View, p point) []*machine.Check {
	var out []*machine.Check
	for _, c := range v.Machine.Checks {
		if c == p.Check || p.Feature != nil && slices.Contains(c.Surfaces(), p.Feature) {
			out = append(out, c)
		}
	}
	return out
}

// verdictsOf lists what the checks that a point feeds say now.
func verdictsOf(v *bench.View, p point) []verdictRow {
	var out []verdictRow
	for _, c := range fedBy(v, p) {
		out = append(out, verdictOf(v.Judged().Of(c.ID)))
	}
	return out
}

// asksOf lists what these checks ask of the trade's arithmetic.
func asksOf(v *bench.View, p point) [][]machine.Reckoning {
	var out [][]machine.Reckoning
	for _, c := range fedBy(v, p) {
		out = append(out, c.Reckon)
	}
	return out
}

func verdictOf(f *judge.Finding) verdictRow {
	_, settle := settleOf(f) // the points left stand in the table
	row := verdictRow{Name: f.Check.Name, Word: spelling.Head(string(f.Verdict)), Sentence: f.Sentence, Settle: settle,
		Window: drawWindow(f), From: provenance(f.Limit), grave: gravity[f.Verdict]}
	if f.Verdict != judge.NotRead && !byWord(f.Check) && f.Read > 0 {
		row.Value = withUnit(f.Value, f.Check.Unit)
	}
	return row
}

// mainVerdict chooses what stands under the reading: of the checks with a
// window the one with the gravest verdict, the first of equals.
func mainVerdict(rows []verdictRow) *verdictRow {
	var best *verdictRow
	for i := range rows {
		if rows[i].Window != nil && (best == nil || rows[i].grave > best.grave) {
			best = &rows[i]
		}
	}
	return best
}

// gravity ranks verdicts for the eye.
var gravity = map[judge.Verdict]int{judge.Worn: 4, judge.Doubtful: 3, judge.NoLimit: 2, judge.Sound: 1}

// sourceWords say where a figure comes from; a source that begins with the
// provenance says it alone.
func sourceWords(from machine.Provenance, source string) string {
	if strings.HasPrefix(source, string(from)) {
		return source
	}
	return string(from) + behind(", ", source)
}

// provenance is always shown beside a limit.
func provenance(l judge.Bounds) string {
	if l.From == "" {
		return "no limit known"
	}
	return sourceWords(l.From, l.Source)
}

// sketchOf places the point in the little drawing.
func sketchOf(p point) sketch {
	if p.Feature == nil {
		return sketch{Row: -1}
	}
	s := sketch{Round: p.Feature.Sort == machine.Bore || p.Feature.Sort == machine.Shaft, Bore: p.Feature.Sort == machine.Bore,
		Row: -1, Rows: len(p.Feature.Levels), Axis: p.Axis != ""}
	for i, l := range p.Feature.Levels {
		if l == p.Level && !p.Unworn {
			s.Row = i
		}
	}
	if s.Row >= 0 && s.Rows > 0 {
		s.Y = 12 + 96*(2*s.Row+1)/(2*s.Rows)
	}
	for i, a := range p.Feature.Axes {
		if a == p.Axis && i > 0 {
			s.Across = true
		}
	}
	return s
}
