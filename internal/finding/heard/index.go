package heard

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"matchmark/internal/machine"
)

// term is one word of a name with how much it tells of it.
type term struct {
	id    int // in the vocabulary
	share float64
	main  bool // in front of the first joining word
	tail  bool // of the name, behind it
}

// How much a word tells by where it stands in what is known of a joint.
const (
	inName  = 1.0
	behindA = 0.7  // behind "in", "on", "to": where the thing is
	inPart  = 0.55 // in the first part's name
	inParts = 0.35 // in another part's
	inPlan  = 0.2  // in the usual fasteners
)

// named is a joint or a part with the words that name it.
type named struct {
	joint *machine.Joint
	part  *machine.Part
	base  string // the name without its place
	terms []term
	place place
	prior float64
}

// Ear is a machine's names made ready to hear. It is not changed after For.
type Ear struct {
	m      *machine.Machine
	words  map[string]int // vocabulary: stems
	list   []string
	tells  []float64 // how telling each is on this machine, in nats
	share  []float64 // the greatest share it has in any name
	joints []named
	parts  []named
	cut    map[string][]string // names cut into stems, while the index is made
}

// vocabulary gives the stems of a text, in order.
func vocabulary(text string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		out = append(out, stem(w))
	}
	return out
}

// stems is vocabulary with a memory: like things share their names.
func (e *Ear) stems(text string) []string {
	got, ok := e.cut[text]
	if !ok {
		got = vocabulary(text)
		e.cut[text] = got
	}
	return got
}

func (e *Ear) id(w string) int {
	i, ok := e.words[w]
	if !ok {
		i = len(e.list)
		e.words[w] = i
		e.list = append(e.list, w)
	}
	return i
}

// add puts the words of one text under a name; the greater share counts.
func (e *Ear) add(n *named, text string, share, after float64, main bool) {
	for k, w := range e.stems(text) {
		if joining[w] {
			if k > 0 {
				share, main = after, false
			}
			continue
		}
		id := e.id(w)
		if i := slices.IndexFunc(n.terms, func(t term) bool { return t.id == id }); i >= 0 {
			n.terms[i].share = max(n.terms[i].share, share)
			continue
		}
		n.terms = append(n.terms, term{id: id, share: share, main: main, tail: !main && text == n.base})
	}
}

// index takes in the machine's joints and parts.
func (e *Ear) index() {
	families := familiesOf(e.m)
	e.cut = map[string][]string{}
	for _, j := range e.m.Joints {
		n := named{joint: j}
		n.base, n.place = families.of(j.Name, j.Place)
		e.add(&n, n.base, inName, behindA, true)
		for k, p := range j.Parts {
			base, _ := families.of(p.Name, p.Place)
			share := inParts
			if k == 0 {
				share = inPart
			}
			e.add(&n, base, share, share*0.6, false)
		}
		e.add(&n, j.Plan.Fasteners, inPlan, inPlan, false)
		e.joints = append(e.joints, n)
	}
	for _, p := range e.m.Parts {
		n := named{part: p}
		n.base, n.place = families.of(p.Name, p.Place)
		e.add(&n, n.base, inName, behindA, true)
		e.parts = append(e.parts, n)
	}
	e.weigh()
}

// weigh counts in how many names each word stands: a word of few names tells
// much. Instances at several places count as one name.
func (e *Ear) weigh() {
	counts := make([]float64, len(e.list))
	seen := map[string]bool{}
	n := 0.0
	for _, list := range [][]named{e.joints, e.parts} {
		for _, x := range list {
			if seen[x.base] {
				continue
			}
			seen[x.base] = true
			n++
			for _, t := range x.terms {
				if t.share >= behindA && (t.main || x.part != nil || t.share == behindA) {
					counts[t.id]++
				}
			}
		}
	}
	e.share = make([]float64, len(e.list))
	for _, list := range [][]named{e.joints, e.parts} {
		for _, x := range list {
			for _, t := range x.terms {
				e.share[t.id] = max(e.share[t.id], t.share)
			}
		}
	}
	e.tells = make([]float64, len(e.list))
	for i, c := range counts {
		e.tells[i] = math.Log((n + 1) / (max(c, 1) + 0.5))
	}
}
