package web

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
)

// machineView is the parts list by assembly, one assembly open at a time.
type machineView struct {
	Base   string
	Ask    string
	Groups []assemblyRow
	Open   string // name of the assembly shown, or of the search
	Parts  []partRow
	Joints []jointRow
	More   int // found beyond those shown
	Legend []mark
	Tests  int
}

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

// most is how many finds one page lists.
const most = 60

func machinePage(v *visit) error {
	return v.show("machine", http.StatusOK, frame{Title: "Machine", Here: "Machine", Data: viewMachine(v.view, v.base(), v.asked("a"), v.asked("q"))})
}

// viewMachine lists the assemblies and the parts of one, or what a search
// found.
func viewMachine(v *bench.View, base, assembly, ask string) machineView {
	m := v.Machine
	held, due := heldJoints(v), dueJoints(v)
	mv := machineView{Base: base, Ask: ask, Legend: legend(), Tests: len(m.Tests)}
	states := map[machine.AssemblyID]map[string]int{}
	for i, p := range m.Parts {
		s := stateOf(v, p, due)
		if states[p.Assembly] == nil {
			states[p.Assembly] = map[string]int{}
		}
		states[p.Assembly][s.Line]++
		if ask != "" && finds(p, ask, i+1) || ask == "" && assembly != "" && p.Assembly == machine.AssemblyID(assembly) {
			mv.addPart(base, i+1, p, s)
		}
	}
	for _, a := range m.Assemblies {
		row := assemblyRow{Name: a.Name, At: base + "/machine?a=" + url.QueryEscape(string(a.ID)), Here: ask == "" && string(a.ID) == assembly}
		row.Parts, row.Words = tally(states[a.ID])
		mv.Groups = append(mv.Groups, row)
		if row.Here {
			mv.Open = a.Name
		}
	}
	for _, j := range m.Joints {
		if ask != "" && contains(j.Name, ask) || ask == "" && assembly != "" && j.Assembly == machine.AssemblyID(assembly) {
			mv.addJoint(base, j, held[j.ID])
		}
	}
	if ask != "" {
		mv.Open = "Found for “" + clip(ask, 40) + "”"
	}
	return mv
}

func (mv *machineView) addPart(base string, number int, p *machine.Part, s mark) {
	if mv.Ask != "" && len(mv.Parts) >= most {
		mv.More++
		return
	}
	row := partRow{Number: strconv.Itoa(number), Name: p.Name, At: partAddress(base, p.ID), Qty: p.Qty, Mark: s}
	if p.Call != machine.NotJudged {
		row.Call = string(p.Call)
	}
	mv.Parts = append(mv.Parts, row)
}

func (mv *machineView) addJoint(base string, j *machine.Joint, held bool) {
	if mv.Ask != "" && len(mv.Joints) >= most {
		mv.More++
		return
	}
	mv.Joints = append(mv.Joints, jointRow{j.Name, jointAddress(base, j.ID), jointState(j), held})
}

// finds tells whether a part answers to a search: its name, tray or number.
func finds(p *machine.Part, ask string, number int) bool {
	ask = strings.ToLower(ask)
	if contains(p.Name, ask) || strings.EqualFold(p.Tray, ask) || strconv.Itoa(number) == ask {
		return true
	}
	mark, isTray := strings.CutPrefix(ask, "tray ")
	return isTray && strings.EqualFold(p.Tray, mark)
}

// tally counts an assembly: "12 still to strip, 4 off, 2 held".
func tally(states map[string]int) (int, string) {
	words := map[string]string{"on": "to strip", "off": "off", "judged": "judged", "held": "held", "away": "away", "built": "built in"}
	all := 0
	var out []string
	for _, l := range legend() {
		if n := states[l.Line]; n > 0 {
			all += n
			out = append(out, strconv.Itoa(n)+" "+words[l.Line])
		}
	}
	return all, strings.Join(out, ", ")
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
