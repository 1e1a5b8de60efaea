package heard

import (
	"slices"

	"matchmark/internal/finding/sequence"
	"matchmark/internal/machine"
)

// How likely a joint is before a word is said, in nats: what can come apart
// now, what was just worked on, what comes apart at all. Chosen on the corpus.
const (
	canOpen  = 1.0
	isOpen   = -2.5
	sameWork = 0.5 // of the assembly that was worked on last
	sibling  = 0.6 // like the joint opened last
	lately   = 3   // openings that count as last
)

// usual is how often a joint of each sort is what a removal is about. Common
// practice, no source.
var usual = map[string]float64{"bolted": 0.6, "threaded": 0.4, "hose": 0.4, "clamped": 0.4, "pinned": 0.35, "splined": 0.3, "wire": 0.3, "linkage": 0.3,
	"keyed": 0.2, "adjusted": 0.1, "press": 0, "slip": 0, "seal": 0, "plain bearing": -0.1, "rolling bearing": -0.1, "gasket": -0.5, "mesh": -0.5}

// For makes a machine ready to hear. The plan says what can come apart now; it
// may be nil. Cost: linear in the machine's names.
func For(m *machine.Machine, p *sequence.Plan) *Ear {
	e := &Ear{m: m, words: map[string]int{"": 0}, list: []string{""}}
	e.index()
	free := map[*machine.Joint]bool{}
	if p != nil {
		for _, s := range p.Free {
			if s.Act == sequence.Open {
				free[s.Joint] = true
			}
		}
	}
	last := lastOpened(m)
	for i := range e.joints {
		n := &e.joints[i]
		n.prior = usual[n.joint.Sort]
		switch {
		case n.joint.State == machine.Open:
			n.prior += isOpen
		case free[n.joint]:
			n.prior += canOpen
		}
		if slices.ContainsFunc(last, func(j *machine.Joint) bool { return j.Assembly == n.joint.Assembly }) {
			n.prior += sameWork
		}
		if slices.ContainsFunc(last, func(j *machine.Joint) bool { return j.Type == n.joint.Type && j != n.joint }) {
			n.prior += sibling
		}
	}
	return e
}

// lastOpened lists the joints opened last.
func lastOpened(m *machine.Machine) []*machine.Joint {
	var out []*machine.Joint
	for i := len(m.Events) - 1; i >= 0 && len(out) < lately; i-- {
		if b, ok := m.Events[i].Body.(*machine.JointOpened); ok {
			if j := m.Joint(b.Joint); j != nil {
				out = append(out, j)
			}
		}
	}
	return out
}

// Hear reads one line. Cost: words of the line times words of the machine.
func (e *Ear) Hear(line string) Heard { return e.hear(line, nil) }

// HearOf reads a line about a joint that the person named: it stands first
// with the whole weight.
func (e *Ear) HearOf(line string, j *machine.Joint) Heard { return e.hear(line, j) }

func (e *Ear) hear(line string, about *machine.Joint) Heard {
	h := Heard{Line: line}
	r := &reader{line: line, trays: e.m.Trays, w: figures(split(line)), out: &h}
	r.torque()
	r.tray()
	r.mark()
	e.ways(r)
	r.fasteners()
	r.shims()
	r.state()
	r.settle()
	q := e.hears(r)
	joints, none := e.rank(e.joints, q)
	h.None = none
	for _, c := range joints {
		if c.score >= least && len(h.Joints) < most {
			h.Joints = append(h.Joints, Candidate{c.joint, c.score, c.hit})
		}
	}
	parts, _ := e.rank(e.parts, q)
	for _, c := range parts {
		if c.score >= least && len(h.Parts) < 4 {
			h.Parts = append(h.Parts, PartCandidate{c.part, c.score})
		}
	}
	if about != nil {
		h.insist(about, joints)
	}
	if j := h.Joint(); j != nil {
		h.Off = e.offOf(j, q.words)
	}
	slices.SortStableFunc(r.facts, func(a, b Fact) int { return a.From - b.From })
	h.Facts = r.facts
	h.Pieces = r.pieces(h)
	return h
}

// insist puts the joint that the person named first.
func (h *Heard) insist(about *machine.Joint, all []ranked) {
	first := Candidate{Joint: about, Weight: 1}
	for _, c := range all {
		if c.joint == about {
			first.hit = c.hit
		}
	}
	rest := slices.DeleteFunc(h.Joints, func(c Candidate) bool { return c.Joint == about })
	for i := range rest {
		rest[i].Weight = 0
	}
	h.Joints, h.None = append([]Candidate{first}, rest...), 0
}

// pieces parts the whole line into what was understood and what was not, as
// the first candidate explains it.
func (r *reader) pieces(h Heard) []Piece {
	named := map[int]bool{}
	if h.Joint() != nil {
		for _, w := range h.Joints[0].hit {
			named[w] = true
		}
	}
	var out []Piece
	at := 0
	put := func(s Sort, to int) {
		if to <= at {
			return
		}
		switch n := len(out); {
		case n > 0 && out[n-1].Sort == s:
			out[n-1].To = to
		case n > 1 && s != Between && out[n-2].Sort == s && onlyBlank(r.line[out[n-1].From:at]):
			out = out[:n-1]
			out[n-2].To = to
		default:
			out = append(out, Piece{s, at, to})
		}
		at = to
	}
	for i, w := range r.w {
		put(Between, w.from)
		s := w.taken
		switch {
		case s != Between:
		case named[i]:
			s = Name
		case isFiller(w.text) || joining[w.text] || punctuation(w):
		default:
			s = Left
		}
		put(s, w.to)
	}
	if end := len(r.line); at < end && len(r.line) > longest {
		put(Left, end)
	}
	put(Between, len(r.line))
	return out
}

func punctuation(w word) bool {
	return w.isMark() && slices.Contains([]string{",", ".", ";", ":", "(", ")", "-", "+", "&", "/", "#", "!", "?", `"`, "'", "–", "—", "…", "="}, w.text)
}
