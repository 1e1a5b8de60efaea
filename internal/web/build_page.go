package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"

	"matchmark/internal/bench"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// buildView is the order: contradictions, holds, what is free, what follows.
type buildView struct {
	Base     string
	Clashes  []clashRow
	Held     []heldGroup
	HeldMore []link
	Passed   []string
	Breaches []breachRow
	Free     []stepRow
	FreeMore int
	Order    []stepRow
	All      int
	Every    bool
	Pages    []option
	Toggle   string
	Left     []string
}

// heldGroup is a joint with all that holds it.
type heldGroup struct {
	Name, At, Cost string
	Whys           []string
	More           int
	Life           bool
	Clear          []link
}

// clashRow is one contradiction; the weakest word comes last.
type clashRow struct {
	Ask     string
	Sources []clashSource
	Stuck   []string
}

// clashSource is one word of the record with what would take it back: an
// entry to withdraw, or the kit's word to deny.
type clashSource struct {
	Words, Sure, Entry string
	Photo              []link
	Deny               []denyForm
}

type denyForm struct{ At, Blocker, Why, Words string }

type breachRow struct{ Words, Cost, At string }

type stepRow struct {
	N             int // in the order
	Name, At, Why string
	Sure          string
	Care          string
	Act           string
	Hours         string
}

// stepsPerPage keeps the order to a page a phone can hold.
const stepsPerPage = 60

func buildPage(v *visit) error {
	n, _ := strconv.Atoi(v.asked("n")) // no number is the first page
	return v.show("build", http.StatusOK, frame{Title: "Build order", Here: "Build", Data: viewBuild(v.view, v.base(), v.asked("all") != "", n)})
}

func viewBuild(v *bench.View, base string, every bool, page int) buildView {
	p := v.Plan()
	bv := buildView{Base: base, Every: every, Clashes: clashesOf(v)}
	for i, g := range heldGroups(v, base) {
		if i < mostJobs {
			bv.Held = append(bv.Held, g)
		} else {
			bv.HeldMore = append(bv.HeldMore, link{g.Name, g.At})
		}
	}
	for _, h := range p.Passed {
		bv.Passed = append(bv.Passed, h.Joint.Name+": "+h.Why)
	}
	for _, b := range p.Breaches {
		bv.Breaches = append(bv.Breaches, breachRow{spelling.Head(b.Why), reopenWords(sequence.Hold{Reopen: b.Reopen, Hours: b.Hours}), jointAddress(base, b.Joint.ID)})
	}
	for _, k := range p.Left {
		bv.Left = append(bv.Left, k.Joint.Name+behind(": ", k.Why))
	}
	for _, s := range p.Free {
		if every || buildAct(s.Act) {
			bv.addFree(base, s)
		}
	}
	var order []*sequence.Step
	for _, s := range p.Order {
		if every || buildAct(s.Act) {
			order = append(order, s)
		}
	}
	bv.cut(base, order, page)
	return bv
}

// buildAct tells the acts that put the machine together.
func buildAct(a sequence.Act) bool {
	return a == sequence.Close || a == sequence.Trial || a == sequence.Undo
}

func (bv *buildView) addFree(base string, s *sequence.Step) {
	if len(bv.Free) >= mostJobs+2 {
		bv.FreeMore++
		return
	}
	bv.Free = append(bv.Free, stepOf(base, s))
}

func stepOf(base string, s *sequence.Step) stepRow {
	row := stepRow{Name: s.Name, At: stepAddress(base, s), Why: whyAddress(base, string(s.ID)), Care: careWords(s.Hazards), Act: string(s.Act)}
	if s.Hours > 0 {
		row.Hours = hoursWords(s.Hours)
	}
	return row
}

func (bv *buildView) cut(base string, order []*sequence.Step, page int) {
	here := base + "/build?"
	bv.Toggle = base + "/build?all=1#order"
	if bv.Every {
		here += "all=1&"
		bv.Toggle = base + "/build#order"
	}
	bv.All = len(order)
	pages := (len(order) + stepsPerPage - 1) / stepsPerPage
	page = min(max(page, 1), max(pages, 1))
	from := (page - 1) * stepsPerPage
	for i, s := range order[from:min(from+stepsPerPage, len(order))] {
		row := stepOf(base, s)
		row.N = from + i + 1
		bv.Order = append(bv.Order, row)
	}
	for i := range pages {
		if pages > 1 {
			bv.Pages = append(bv.Pages, option{fmt.Sprintf("%sn=%d#order", here, i+1), strconv.Itoa(i + 1), i+1 == page})
		}
	}
}

// heldGroups gathers the holds by joint, in the plan's order: the dearest to
// reopen first.
func heldGroups(v *bench.View, base string) []heldGroup {
	at := map[machine.JointID]int{}
	var out []heldGroup
	for _, h := range v.Plan().Held {
		i, ok := at[h.Joint.ID]
		row := holdOf(base, h)
		if !ok {
			i = len(out)
			at[h.Joint.ID] = i
			out = append(out, heldGroup{Name: row.Name, At: closeAddress(base, h.Joint.ID), Cost: row.Cost})
		}
		out[i].Life = out[i].Life || h.Life
		out[i].add(row)
	}
	return out
}

// add takes one more hold of the joint: three are said in full, the rest are
// counted, and each run is offered once.
func (g *heldGroup) add(row holdRow) {
	if len(g.Whys) >= 3 {
		g.More++
		return
	}
	g.Whys = append(g.Whys, row.Why)
	for _, l := range row.Clear {
		if !slices.ContainsFunc(g.Clear, func(have link) bool { return have.At == l.At }) {
			g.Clear = append(g.Clear, l)
		}
	}
}

func closeAddress(base string, id machine.JointID) string {
	return base + "/close/" + url.PathEscape(string(id))
}

// whyView gives the reasons of one step.
type whyView struct{ Groups []whyGroup }

type whyGroup struct {
	Name  string
	Lines []whyLine
}

type whyLine struct {
	Words, Sure string
	At          string // where it is done; makes the words a link
	Links       []link
}

func whyPage(v *visit) error {
	id := sequence.StepID(v.r.PathValue("step"))
	s, ok := v.view.Plan().Step(id)
	if !ok {
		return missing("the step", string(id))
	}
	return v.show("why", http.StatusOK, frame{Title: s.Name, Here: "Build", Back: v.base() + "/build", Data: viewWhy(v.view, v.base(), s)})
}

func viewWhy(v *bench.View, base string, s *sequence.Step) whyView {
	p := v.Plan()
	var wv whyView
	add := func(name string, lines []whyLine) {
		if len(lines) > 0 {
			wv.Groups = append(wv.Groups, whyGroup{name, lines})
		}
	}
	var reasons, holds, before, after []whyLine
	for _, r := range p.Because(s.ID) {
		reasons = append(reasons, whyLine{Words: r.Words + ".", Sure: string(r.Certainty) + ", " + string(r.Evidence), Links: photoLink(base, r.Photo)})
	}
	if s.Act == sequence.Close && s.Joint != nil {
		for _, h := range v.MayClose(s.Joint, true) {
			row := holdOf(base, h)
			holds = append(holds, whyLine{Words: row.Why, Sure: row.Cost, Links: row.Clear})
		}
	}
	for _, id := range p.Waits(s.ID) {
		before = append(before, stepLine(p, base, id))
	}
	for _, other := range p.Order {
		for _, id := range p.Waits(other.ID) {
			if id == s.ID && len(after) < 40 {
				after = append(after, stepLine(p, base, other.ID))
			}
		}
	}
	if block := p.Blocked(s.ID); block.Words != "" {
		add("What stands before it", needsOf(base, block))
	}
	add("Because", reasons)
	add("Held", holds)
	add("Directly before it", before)
	add("Waits on it", after)
	add("Do it", []whyLine{{Words: s.Name, Sure: doneWord(s), At: stepAddress(base, s)}})
	return wv
}

// needsOf lists the least that must be done first, in doing order; of a long
// list the beginning.
func needsOf(base string, block sequence.Block) []whyLine {
	if len(block.Needs) == 0 {
		return []whyLine{{Words: block.Words}}
	}
	head := whyLine{Words: "It waits for " + plural(len(block.Needs), "step", "steps")}
	if !block.Exact {
		head.Words = fmt.Sprintf("It waits for %s; fewer may do, at least %d", plural(len(block.Needs), "step", "steps"), block.Least)
	}
	if block.Hours > 0 {
		head.Words += ", about " + hoursWords(block.Hours) + " together"
	}
	head.Words += "."
	out := []whyLine{head}
	for i, n := range block.Needs {
		if i == mostNeeds {
			return append(out, whyLine{Words: plural(len(block.Needs)-i, "more step", "more steps") + " after these."})
		}
		out = append(out, whyLine{Words: n.Name, Sure: n.Why.Words, At: stepAddress(base, n.Step)})
	}
	return out
}

// mostNeeds is how much of a long list of steps is shown.
const mostNeeds = 20

func doneWord(s *sequence.Step) string {
	if s.Done {
		return "done"
	}
	return "still to be done"
}

func stepLine(p *sequence.Plan, base string, id sequence.StepID) whyLine {
	s, ok := p.Step(id)
	if !ok {
		return whyLine{Words: string(id)}
	}
	return whyLine{Words: s.Name, At: whyAddress(base, string(id))}
}

func photoLink(base string, sum machine.Sum) []link {
	if sum == "" {
		return nil
	}
	return []link{{"Photo", base + "/p/" + string(sum)}}
}
