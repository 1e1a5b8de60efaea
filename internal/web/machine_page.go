package web

import (
	"html/template"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/web/draw"
)

// machineView is one sheet of the machine's drawing with the list of what
// stands on it, and a part chosen on it.
type machineView struct {
	Base    string
	Ask     string
	Shapes  template.HTML // symbols used on the page
	Drawing template.HTML
	Sheet   sheetHead
	Sheets  []sheetRow // on the general arrangement
	Kinds   []kindRow  // on the sheet of an assembly
	Joints  []jointRow
	Found   *foundView
	Panel   *panelView
	Legend  []mark
	Tests   int
	Parts   int
}

// sheetHead says which sheet is shown.
type sheetHead struct {
	Number, Of      int
	Name            string
	Before, After   *link
	General         string // address of sheet 1; empty on it
	Large           bool
	Larger, Smaller string // addresses
}

// sheetRow is one assembly in the list of sheets, with its parts by state.
type sheetRow struct {
	Number   int
	Name, At string
	Parts    int
	States   []stateCount
}

type stateCount struct {
	Line  string
	Words string
}

// kindRow is one type of part on a sheet, with its pieces.
type kindRow struct {
	Number string
	Name   string
	One    *pieceRow // where there is only one
	Pieces []pieceRow
}

// pieceRow is one part.
type pieceRow struct {
	Symbol template.HTML
	Place  string
	Words  string // its state, and how many it is
	At     string
	Here   bool
}

// assemblyRow is one assembly in a list.
type assemblyRow struct {
	Name, At string
	Here     bool
	Parts    int
	Words    string
}

type partRow struct {
	Number   string // its ring in the drawing list
	Name, At string
	Qty      int
	Mark     mark
	Call     string // the restorer's word; empty while not judged
}

type jointRow struct {
	Name, At, State string
	Held            bool
}

// arrangements remembers the general arrangements drawn by this program; what
// it gives does not depend on what it remembers.
var arrangements draw.Kept

func machinePage(v *visit) error {
	ask := mapAsk{sheet: v.asked("sheet"), assembly: v.asked("a"), part: v.asked("part"), words: v.asked("q"), large: v.asked("large") != ""}
	if to := onlyFind(v.view, v.base(), ask.words); to != "" {
		return v.go303(to)
	}
	if ask.part != "" && v.view.Machine.Part(machine.PartID(ask.part)) == nil {
		return missing("the part", ask.part)
	}
	script, err := v.assets.address("map.js")
	if err != nil {
		return err
	}
	f := frame{Title: "Machine", Here: "Machine", Data: viewMachine(v.view, v.base(), ask)}
	if ask.large {
		f.Scripts = []string{script}
	}
	return v.show("machine", http.StatusOK, f)
}

// mapAsk is what an address asks of the map.
type mapAsk struct {
	sheet, assembly, part, words string
	large                        bool
}

// viewMachine draws the sheet asked for: that of an assembly, that of the part
// chosen, or the general arrangement.
func viewMachine(v *bench.View, base string, ask mapAsk) machineView {
	m := v.Machine
	at := mapAddress{base: base, large: ask.large}
	p := m.Part(machine.PartID(ask.part))
	if p != nil && ask.sheet == "" {
		ask.assembly = string(p.Assembly)
	}
	mv := machineView{Base: base, Ask: ask.words, Legend: legend(), Tests: len(m.Tests), Parts: len(m.Parts)}
	due := dueJoints(v)
	parts, shapes := draw.From(m, func(p *machine.Part) string { return stateOf(v, p, due).Line }), &draw.Shapes{}
	number := sheetNumber(m, ask.assembly)
	at.general = number == 1
	var sheet draw.Sheet
	if at.general {
		sheet = arrangements.General(parts)
		mv.Sheets = sheetRows(m, parts, at)
	} else {
		sheet = parts.Assembly(ask.assembly)
		mv.Kinds = kindRows(v, parts, shapes, ask, at)
		mv.Joints = jointRows(v, base, machine.AssemblyID(ask.assembly))
	}
	mv.Sheet = headOf(m, number, at, p)
	if p != nil {
		mv.Panel = panelOf(v, base, p, parts, at)
	}
	if ask.words != "" {
		mv.Found = find(v, base, ask.words)
	}
	mv.Drawing = template.HTML(sheet.SVG(draw.Page{Title: "Sheet " + strconv.Itoa(number) + ", " + mv.Sheet.Name, Here: ask.part, Shapes: shapes,
		Href: func(items []draw.Item) string { return at.part(items[0].ID) }, Say: sayItems}))
	mv.Shapes = template.HTML(shapes.Definitions())
	return mv
}

// mapAddress makes addresses of the map.
type mapAddress struct {
	base    string
	large   bool
	general bool // the general arrangement is shown, and stays
}

func (a mapAddress) with(values ...string) string {
	q := url.Values{}
	for i := 0; i+1 < len(values); i += 2 {
		q.Set(values[i], values[i+1])
	}
	if a.large {
		q.Set("large", "1")
	}
	if len(q) == 0 {
		return a.base + "/machine"
	}
	return a.base + "/machine?" + q.Encode()
}

func (a mapAddress) part(id string) string {
	if a.general {
		return a.with("sheet", "1", "part", id) + "#panel"
	}
	return a.with("part", id) + "#panel"
}

func (a mapAddress) sheet(id machine.AssemblyID) string { return a.with("a", string(id)) }

// sheetNumber is 1 for the general arrangement, and counts the assemblies from
// 2 in their order.
func sheetNumber(m *machine.Machine, assembly string) int {
	for i, a := range m.Assemblies {
		if string(a.ID) == assembly {
			return i + 2
		}
	}
	return 1
}

func headOf(m *machine.Machine, number int, at mapAddress, p *machine.Part) sheetHead {
	h := sheetHead{Number: number, Of: len(m.Assemblies) + 1, Name: "General arrangement", Large: at.large}
	name := func(n int) *link {
		switch {
		case n == 1:
			return &link{"Sheet 1, general arrangement", at.with()}
		case n < 1 || n > h.Of:
			return nil
		}
		a := m.Assemblies[n-2]
		return &link{"Sheet " + strconv.Itoa(n) + ", " + a.Name, at.sheet(a.ID)}
	}
	h.Before, h.After = name(number-1), name(number+1)
	here := []string{}
	if number > 1 {
		h.Name, h.General = m.Assemblies[number-2].Name, at.with()
		here = []string{"a", string(m.Assemblies[number-2].ID)}
	}
	if p != nil {
		here = []string{"part", string(p.ID)}
		if number == 1 {
			here = append(here, "sheet", "1")
		}
	}
	other := at
	other.large = !at.large
	if at.large {
		h.Smaller = other.with(here...)
	} else {
		h.Larger = other.with(here...)
	}
	return h
}

// lineWord is the word of a line type: "measured and judged".
func lineWord(line string) string {
	for _, l := range legend() {
		if l.Line == line {
			return l.Word
		}
	}
	return line
}

// sayItems is the name of a link on the drawing: "12 Crankshaft, measured and
// judged", or for several "94 Piston, 94–96, held: 2, away: 1". It holds what
// the balloon shows, so that it can be asked for by what is seen.
func sayItems(items []draw.Item) string {
	first := items[0]
	if len(items) == 1 {
		return strconv.Itoa(first.Number) + " " + first.Name + ", " + lineWord(first.State)
	}
	states := map[string]int{}
	for _, it := range items {
		states[it.State]++
	}
	words := strconv.Itoa(first.Number) + " " + first.Kind + ", " + draw.Balloon{Items: items}.Text()
	for _, l := range legend() {
		switch n := states[l.Line]; n {
		case 0:
		case len(items):
			words += ", " + l.Word
		default:
			words += ", " + l.Word + ": " + strconv.Itoa(n)
		}
	}
	return words
}

// counts words an assembly's parts by state: "12 still to strip", "2 held".
func counts(states map[string]int) []stateCount {
	var out []stateCount
	for _, l := range legend() {
		if n := states[l.Line]; n > 0 {
			out = append(out, stateCount{l.Line, strconv.Itoa(n) + " " + shortWord(l)})
		}
	}
	return out
}

// shortWord is a line's word in a count.
func shortWord(l mark) string {
	switch l.Line {
	case "on":
		return "to strip"
	case "off":
		return "off"
	case "judged":
		return "judged"
	}
	return l.Word
}

func sheetRows(m *machine.Machine, parts draw.Machine, at mapAddress) []sheetRow {
	states, all := map[string]map[string]int{}, map[string]int{}
	for _, it := range parts.Items {
		if states[it.Sheet] == nil {
			states[it.Sheet] = map[string]int{}
		}
		states[it.Sheet][it.State]++
		all[it.Sheet]++
	}
	var out []sheetRow
	for i, a := range m.Assemblies {
		out = append(out, sheetRow{i + 2, a.Name, at.sheet(a.ID), all[string(a.ID)], counts(states[string(a.ID)])})
	}
	return out
}

// kindRows lists the parts of an assembly by type, each piece with its symbol.
func kindRows(v *bench.View, parts draw.Machine, shapes *draw.Shapes, ask mapAsk, at mapAddress) []kindRow {
	var out []kindRow
	row := map[string]int{}
	due := dueJoints(v)
	for _, it := range parts.Items {
		if it.Sheet != ask.assembly {
			continue
		}
		i, ok := row[it.Type]
		if !ok {
			i = len(out)
			row[it.Type] = i
			out = append(out, kindRow{Number: strconv.Itoa(it.Number), Name: it.Kind})
		}
		words := stateOf(v, v.Machine.Part(machine.PartID(it.ID)), due).Word
		if it.Qty > 1 {
			words = strconv.Itoa(it.Qty) + " off. " + words
		}
		out[i].Pieces = append(out[i].Pieces, pieceRow{template.HTML(shapes.Small(parts, it)), strings.TrimPrefix(it.Name, it.Kind+", "), words, at.part(it.ID), it.ID == ask.part})
		if n := len(out[i].Pieces); n > 1 {
			first, _, _ := strings.Cut(out[i].Number, "–")
			out[i].Number = first + "–" + strconv.Itoa(it.Number)
		}
	}
	for i := range out {
		if len(out[i].Pieces) == 1 {
			out[i].One = &out[i].Pieces[0]
		}
	}
	return out
}

func jointRows(v *bench.View, base string, assembly machine.AssemblyID) []jointRow {
	held := heldJoints(v)
	var out []jointRow
	for _, j := range v.Machine.Joints {
		if j.Assembly == assembly {
			out = append(out, jointRow{j.Name, jointAddress(base, j.ID), jointState(j), held[j.ID]})
		}
	}
	return out
}

func partAddress(base string, id machine.PartID) string {
	return base + "/part/" + url.PathEscape(string(id))
}

func jointAddress(base string, id machine.JointID) string {
	return base + "/joint/" + url.PathEscape(string(id))
}

// jointState is a joint's state in words.
func jointState(j *machine.Joint) string {
	switch j.State {
	case machine.Open:
		return "open"
	case machine.OnTrial:
		return "dry-built, on trial"
	case machine.Closed:
		return "closed"
	}
	if j.Left != "" {
		return "left as it is"
	}
	return "as it came"
}
