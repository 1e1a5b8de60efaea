package labels

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// Label is what stands on one label or tag, in words and figures.
type Label struct {
	Mark    string       // of the tray; on a tag, where the part lies
	Name    string       // of the tray or the part; empty leaves a line to write on
	Machine string       // "Wendle Codlin 18"
	Serial  string       // "0418"; written behind the machine's name where there is room
	Date    time.Time    // when what is in it came off; zero leaves a line to write on
	Link    string       // what the code opens; empty is no code
	Dots    int          // match dots; 0 where there are none, or several sorts
	Inside  []string     // what lies in the tray
	Tag     bool         // a tie-on tag of a part, cut as its call is
	Call    machine.Call // of a tag
	Number  int          // of a tag: the part's number in the machine's list
}

// Of gives the label of a tray.
func Of(m *machine.Machine, t *machine.Tray) Label {
	l := Label{Mark: t.Mark, Name: NameOf(m, t), Machine: m.Name, Serial: m.Serial, Date: since(m, t), Dots: dotsOf(t)}
	for _, p := range t.Parts {
		l.Inside = append(l.Inside, times(p.Qty, p.Name))
	}
	for _, f := range t.Fasteners {
		for _, s := range f.Sets {
			l.Inside = append(l.Inside, fmt.Sprintf("%d × %s, %s", s.Count, s.Size, spelling.Inside(f.Joint.Name)))
		}
		for _, s := range f.Shims {
			l.Inside = append(l.Inside, fmt.Sprintf("%d × shim %.2f, %s", max(s.Count, 1), s.ThicknessMM, spelling.Inside(f.Joint.Name)))
		}
	}
	return l
}

// TagOf gives the tie-on tag of a part.
func TagOf(m *machine.Machine, p *machine.Part) Label {
	l := Label{Tag: true, Name: p.Name, Machine: m.Name, Call: p.Call, Date: p.CallBy.At, Number: slices.Index(m.Parts, p) + 1}
	if p.Tray != machine.NoTray {
		l.Mark = p.Tray
	}
	if p.Qty > 1 {
		l.Name += fmt.Sprintf(", %d off", p.Qty)
	}
	if p.Call == machine.NotJudged {
		l.Date = time.Time{}
	}
	marks := map[int]bool{}
	for _, j := range p.Joints {
		if n := Dots(lastMark(j)); n > 0 {
			marks[n], l.Dots = true, n
		}
	}
	if len(marks) > 1 {
		l.Dots = 0
	}
	return l
}

func times(n int, name string) string {
	if n > 1 {
		return fmt.Sprintf("%d × %s", n, spelling.Inside(name))
	}
	return name
}

// NameOf is what a tray is called: as it was named, else by the assemblies that
// what lies in it came from; empty for an empty tray without a name.
func NameOf(m *machine.Machine, t *machine.Tray) string {
	if t.Name != "" {
		return t.Name
	}
	return assembliesOf(m, t)
}

func assembliesOf(m *machine.Machine, t *machine.Tray) string {
	var ids []machine.AssemblyID
	add := func(id machine.AssemblyID) {
		if id != "" && !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	for _, p := range t.Parts {
		add(p.Assembly)
	}
	for _, f := range t.Fasteners {
		add(f.Joint.Assembly)
	}
	var names []string
	for _, a := range m.Assemblies {
		if slices.Contains(ids, a.ID) {
			names = append(names, a.Name)
		}
	}
	if len(names) > 3 {
		names = append(names[:2], fmt.Sprintf("%d more", len(names)-2))
	}
	for i := range names[min(1, len(names)):] {
		names[i+1] = spelling.Inside(names[i+1])
	}
	return strings.Join(names, ", ")
}

// since is when the first thing that still lies in a tray was laid there; for
// an empty one, zero: the line stays free.
func since(m *machine.Machine, t *machine.Tray) time.Time {
	laid := map[machine.PartID]time.Time{}
	for _, e := range m.Events {
		switch b := e.Body.(type) {
		case *machine.JointOpened:
			for _, id := range b.Off {
				laid[id] = e.At
			}
		case *machine.PartMoved:
			laid[b.Part] = e.At
		}
	}
	var first time.Time
	count := func(at time.Time) {
		if !at.IsZero() && (first.IsZero() || at.Before(first)) {
			first = at
		}
	}
	for _, p := range t.Parts {
		count(laid[p.ID])
	}
	for _, f := range t.Fasteners {
		if n := len(f.Joint.Removals); n > 0 {
			count(f.Joint.Removals[n-1].At)
		}
	}
	return first
}

// dotsOf gives the match dots of a tray: those of its joints, where all agree.
func dotsOf(t *machine.Tray) int {
	marks := map[int]bool{}
	n := 0
	for _, f := range t.Fasteners {
		if d := Dots(lastMark(f.Joint)); d > 0 {
			marks[d], n = true, d
		}
	}
	if len(marks) != 1 {
		return 0
	}
	return n
}

func lastMark(j *machine.Joint) string {
	if n := len(j.Removals); n > 0 {
		return j.Removals[n-1].MatchMark
	}
	return ""
}

var dotted = regexp.MustCompile(`^(?i:([1-9])|(one|two|three|four|five|six|seven|eight|nine)) (?:dot|punch|centre.punch)`)

var numbers = []string{"", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}

// Dots reads a match mark that says it is dots, "2 dots" or "two dots on each";
// 0 for every other mark.
func Dots(mark string) int {
	found := dotted.FindStringSubmatch(strings.TrimSpace(mark))
	switch {
	case found == nil:
		return 0
	case found[1] != "":
		return int(found[1][0] - '0')
	}
	return slices.Index(numbers, strings.ToLower(found[2]))
}
