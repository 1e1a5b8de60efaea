package web

import (
	"fmt"
	"net/http"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/watch"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// bookView is the account of the work, in the order the next owner reads it.
type bookView struct {
	Base      string
	Chapters  []link
	What      []fact
	Came      []fact // how each assembly looked before it came apart
	Kits      []string
	Found     []bookGroup
	Done      []bookGroup
	Measured  []measuredGroup
	Undone    []bookLine
	Balance   []string
	Refused   []string
	Unknown   []bookGroup
	Settings  []fact
	Orders    []orderRow
	Sources   []fact
	Tests     []testRow
	Watch     []string
	Photos    []photoRow
	Questions []questionRow
	Empty     bool
	Only      string            // the chapter shown by itself, empty for the book
	Apart     map[string]string // chapters too long for the book's page → what they hold
}

// Chapters that may grow long, by their address.
const (
	chapterFound    = "what-was-found"
	chapterMeasured = "what-was-measured"
	chapterPhotos   = "photos"
)

// longChapter is how many lines a chapter may have and still stand on the
// book's page.
const longChapter = 60

// partOut sends long chapters to pages of their own, or shows one of them: a
// book of hundreds of photos should come up at a bench as fast as a thin one.
func (b *bookView) partOut(only string) {
	lines := map[string]int{chapterPhotos: len(b.Photos)}
	for _, g := range b.Found {
		lines[chapterFound] += len(g.Lines)
	}
	for _, g := range b.Measured {
		lines[chapterMeasured] += len(g.Rows)
	}
	if _, ok := lines[only]; ok {
		b.Only = only
		return
	}
	b.Apart = map[string]string{}
	for chapter, what := range map[string][2]string{chapterFound: {"line", "lines"}, chapterMeasured: {"check", "checks"}, chapterPhotos: {"photo", "photos"}} {
		if n := lines[chapter]; n > longChapter {
			b.Apart[chapter] = plural(n, what[0], what[1])
		}
	}
}

type bookGroup struct {
	Name  string
	Lines []bookLine
}

type bookLine struct{ When, Text string }

type measuredGroup struct {
	Name string
	Rows []measuredRow
}

type measuredRow struct {
	Name, Value, At, Limit, From, Word string
	Reads                              []string
}

type testRow struct {
	Name, Pass, From, Caution string
	Runs                      []string
}

func bookPage(v *visit) error {
	bv := viewBook(v.view, v.base())
	back := ""
	if v.asked("whole") == "" {
		bv.partOut(v.asked("c"))
	}
	if bv.Only != "" || v.asked("whole") != "" {
		back = v.base() + "/book"
	}
	return v.show("book", http.StatusOK, frame{Title: "Book", Here: "Book", Back: back, Data: bv})
}

func viewBook(v *bench.View, base string) bookView {
	m := v.Machine
	bv := bookView{Base: base, Empty: len(m.Events) == 0, Photos: photosOf(m, base, m.Photos), Questions: viewQuestions(v, base).List, Orders: allOrders(v)}
	for _, f := range []fact{{"Machine", m.Name}, {"Number", m.Serial}, {"Owner", m.Owner}, {"Note", m.Note}} {
		if f.Text != "" {
			bv.What = append(bv.What, f)
		}
	}
	bv.What = append(bv.What, fact{"Parts", fmt.Sprintf("%s, %s, %s", plural(len(m.Parts), "part", "parts"), plural(len(m.Joints), "joint", "joints"), plural(len(m.Checks), "check", "checks"))})
	for _, k := range m.Kits {
		bv.Kits = append(bv.Kits, k.Title+kitCounts(k))
	}
	bv.Came = surveyFacts(m)
	bv.Found, bv.Done = accountOf(m)
	bv.Measured, bv.Undone = measuredOf(v), undoneLines(m)
	bv.Balance, bv.Refused = v.Balance().Words, refusals()
	bv.Unknown = unknownOf(v)
	bv.Settings = settingsOf(m)
	bv.Sources = sourcesOf(v)
	for _, t := range m.Tests {
		row := testRow{Name: t.Name, Pass: t.Pass, From: sourceWords(t.From, t.TestAdded.Source), Caution: t.Caution}
		for _, r := range t.Runs {
			row.Runs = append(row.Runs, passWord(r.Passed)+behind(", ", amountWords(r.Value))+", "+day(r.At)+", "+r.By+behind(": ", r.Note))
		}
		bv.Tests = append(bv.Tests, row)
	}
	bv.Watch = watchWords(watch.Of(m, v.Judged()))
	for _, c := range []string{"What it is", "What was found", "What was done", "What was measured", "What is not known", "Settings", "Parts and sources", "Proving", "Care from here", "Photos", "Questions"} {
		if c == "Photos" && len(bv.Photos) == 0 {
			continue
		}
		bv.Chapters = append(bv.Chapters, link{c, "#" + strings.ReplaceAll(strings.ToLower(c), " ", "-")})
	}
	return bv
}

func kitCounts(k machine.KitTaken) string {
	var words []string
	for _, id := range sortedKeys(k.Counts) {
		words = append(words, fmt.Sprintf("%s %d", strings.ReplaceAll(id, "_", " "), k.Counts[id]))
	}
	for _, id := range sortedKeys(k.Choices) {
		words = append(words, strings.ReplaceAll(id, "_", " ")+" "+k.Choices[id])
	}
	return behind(": ", strings.Join(words, ", "))
}

// accountOf parts what was recorded into what was found and what was done, by
// day.
func accountOf(m *machine.Machine) (found, done []bookGroup) {
	add := func(list []bookGroup, e machine.Event) []bookGroup {
		name := day(e.At)
		if n := len(list); n == 0 || list[n-1].Name != name {
			list = append(list, bookGroup{Name: name})
		}
		g := &list[len(list)-1]
		g.Lines = append(g.Lines, bookLine{e.At.Format("15:04") + ", " + e.By, say(m, e.Body) + detail(e.Body)})
		return list
	}
	for _, e := range m.Events {
		switch e.Body.(type) {
		case *machine.AsFoundTaken, *machine.LookTaken, *machine.PartCounted, *machine.InTheWay, *machine.ReachDenied, *machine.JointOpened, *machine.SoundAdded:
			found = add(found, e)
		case *machine.JointClosed, *machine.HoldPassed, *machine.PartCleaned, *machine.RemedyDone, *machine.RemedyChosen, *machine.CallMade, *machine.JointLeft, *machine.Noted:
			done = add(done, e)
		}
	}
	return found, done
}

// detail adds what the account wants beside the one line.
func detail(body machine.Body) string {
	var more []string
	switch b := body.(type) {
	case *machine.JointOpened:
		for _, f := range b.Fasteners {
			more = append(more, fastenerWords(f))
		}
		for _, s := range b.Shims {
			more = append(more, "shims "+shimWords(s))
		}
		more = append(more, nonEmpty(behind("marked ", b.MatchMark), behind("let go at ", amountWords(b.Breakaway)), b.Note)...)
	case *machine.JointClosed:
		for _, s := range b.Shims {
			more = append(more, "shims "+shimWords(s))
		}
		more = append(more, nonEmpty(behind("with ", b.Sealant), b.Note)...)
	}
	return behind(". ", strings.Join(more, "; "))
}

func nonEmpty(words ...string) []string {
	var out []string
	for _, w := range words {
		if w != "" {
			out = append(out, w)
		}
	}
	return out
}

// measuredOf lists every check that was made, by assembly, with the ruling
// limit and where it comes from.
func measuredOf(v *bench.View) []measuredGroup {
	var out []measuredGroup
	for _, a := range v.Machine.Assemblies {
		g := measuredGroup{Name: a.Name}
		for _, f := range v.Judged().List {
			if f.Check.Assembly != a.ID || f.Verdict == judge.NotRead {
				continue
			}
			g.Rows = append(g.Rows, measuredRowOf(f))
		}
		if len(g.Rows) > 0 {
			out = append(out, g)
		}
	}
	return out
}

func measuredRowOf(f *judge.Finding) measuredRow {
	c := f.Check
	row := measuredRow{Name: c.Name, At: f.At, Limit: strings.Join(limitWords(c, f.Limit), ", "), From: provenance(f.Limit), Word: spelling.Head(string(f.Verdict))}
	if byWord(c) {
		row.Limit = f.Limit.Words
		if l := c.Look(); l != nil {
			row.Value = lookWord(l.OK)
			row.Reads = append(row.Reads, day(l.At)+", "+l.By+behind(": ", l.Words))
		}
		return row
	}
	row.Value = withUnit(f.Value, c.Unit)
	if f.U > 0 {
		row.Value += " ± " + figure(2*f.U, c.Unit)
	}
	reads := c.Current()
	for _, ft := range c.Surfaces() {
		reads = append(reads, ft.Current()...)
	}
	row.Reads = readLines(reads, c.Unit)
	return row
}

// readLines gathers readings by instrument, day and hand, so that a page holds
// them: "92.08, 92.11 (bore-gauge-ring, 3 May 2026, R.)".
func readLines(reads []*machine.Reading, unit string) []string {
	var keys []string
	by := map[string][]string{}
	for _, r := range reads {
		key := toolName(r.Tool) + ", " + day(r.At) + ", " + r.By
		if by[key] == nil {
			keys = append(keys, key)
		}
		by[key] = append(by[key], figureOf(bench.In(r.Amount, unit)))
	}
	var out []string
	for _, k := range keys {
		out = append(out, strings.Join(by[k], "  ")+" ("+k+")")
	}
	return out
}
