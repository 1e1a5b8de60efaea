package closing

import (
	"strings"

	"matchmark/internal/finding/balance"
	"matchmark/internal/finding/caution"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/fastener"
)

// Sheet is what is wanted beside one joint as it is closed.
type Sheet struct {
	Joint      *machine.Joint
	Life       string             // said first where life hangs on it
	Cautions   []caution.Caution  // the worst first
	Refused    string             // why no torque is worked out, and who knows; empty where one may be
	Tightening []Tightening       // the threaded fasteners, by thread
	Others     []machine.Fastener // dowels, plates and pins that came out with them
	Paper      *Paper             // the torque that was read in a paper, nil where none was
	Found      []Found            // torques that the joint came undone at
	Weigh      string             // these held against the ranges
	Pattern    *Pattern           // the order with the places of the bolts, nil where these are not known
	Around     []string           // the order in words
	Among      []machine.JointID  // the order of this joint and its like, where it matters
	Shims      *Shims             // nil where the joint has none
	Fit        []string           // sealant, lubricant, which way round
	Marks      []string           // match marks, as written
	Photos     []machine.Sum      // of the removals: the manual of this joint
	AsFound    []string           // what was noted before undoing
	New        []*machine.Part    // used once: must be new
	Count      []balance.PartLine // its parts, to be counted
	Heat       []Heat             // what must be heated or pressed, where both sizes are read
	Reckon     []string           // topics of reckon that fit the joint
	Given      map[string][]string
	Done       *Done // nil while it was never closed
}

// Desk makes sheets of one machine. It keeps what sheets share, so it is not
// for two goroutines at once; it changes nothing of the machine.
type Desk struct {
	m      *machine.Machine
	judged judge.Findings

	threads  fastener.List
	wrong    error // the table of threads does not read
	sizes    map[string]fastener.Size
	worked   map[spec]Torque
	patterns map[field]*Pattern
	friction map[string]fastener.Friction
	turned   map[machine.PartID]bool // types of part that a wrench turns
	metals   map[*machine.Joint]metal
	counted  map[machine.PartID]balance.PartLine
	measured map[machine.CheckID]*judge.Finding
}

// For opens a desk. The verdicts may be empty: those that are wanted are then
// made. Cost: the table of threads, about a millisecond, and the balance.
func For(m *machine.Machine, judged judge.Findings) *Desk {
	d := &Desk{m: m, judged: judged, sizes: map[string]fastener.Size{}, worked: map[spec]Torque{},
		patterns: map[field]*Pattern{}, turned: map[machine.PartID]bool{}, metals: map[*machine.Joint]metal{}, friction: map[string]fastener.Friction{},
		counted: map[machine.PartID]balance.PartLine{}, measured: map[machine.CheckID]*judge.Finding{}}
	d.threads, d.wrong = fastener.Threads()
	for _, l := range balance.Of(m).Parts {
		d.counted[l.Part.ID] = l
	}
	for _, f := range fastener.Frictions() {
		d.friction[f.State] = f
	}
	return d
}

// Of makes the sheet of one joint. For several, open a Desk once.
func Of(m *machine.Machine, j *machine.Joint) Sheet { return For(m, judge.Findings{}).Of(j) }

// All makes the sheets of every joint, in the machine's order.
func All(m *machine.Machine, judged judge.Findings) []Sheet {
	d := For(m, judged)
	out := make([]Sheet, len(m.Joints))
	for i, j := range m.Joints {
		out[i] = d.Of(j)
	}
	return out
}

// Of makes the sheet of a joint of the desk's machine. The sequence in which
// parts, checks or removals were entered at one time changes nothing.
func (d *Desk) Of(j *machine.Joint) Sheet {
	s := Sheet{Joint: j, Cautions: caution.For(hazardsOf(j), "close"), Refused: refusal(j), Fit: parted(j.Plan.AtBuild)}
	if j.Life {
		s.Life = caution.LifeWords
	}
	sets := d.setsOf(j)
	s.Found = foundOf(j)
	s.Tightening = d.tightenAll(j, sets.threaded, s.Refused, s.Found)
	s.Others = sets.others
	s.Weigh = weigh(s.Found, s.Tightening)
	s.Paper = d.paperOf(j, s.Tightening)
	s.Pattern, s.Around = d.around(j, sets.count)
	s.Among = d.among(j)
	s.Shims = d.shimsOf(j)
	s.record()
	for _, p := range j.Parts {
		if p.OneUse {
			s.New = append(s.New, p)
		}
		s.Count = append(s.Count, d.counted[p.ID])
	}
	s.Heat = d.heatOf(j)
	s.topics(d)
	s.Done = doneOf(s)
	return s
}

// record copies what was written at removals: marks, photographs, evidence.
func (s *Sheet) record() {
	for _, r := range s.Joint.Removals {
		if r.MatchMark != "" {
			s.Marks = append(s.Marks, r.MatchMark)
		}
		s.Photos = append(s.Photos, r.Photos...)
	}
	for _, e := range s.Joint.Evidence {
		words := e.What
		if e.Value != nil {
			words += ": " + e.Value.Typed
		}
		if e.Words != "" {
			words += ": " + e.Words
		}
		s.AsFound = append(s.AsFound, words)
		if e.Photo != "" {
			s.Photos = append(s.Photos, e.Photo)
		}
	}
}

// hazardsOf joins the hazards of a joint and of its parts, each once.
func hazardsOf(j *machine.Joint) []string {
	var out []string
	seen := map[string]bool{}
	add := func(list []string) {
		for _, h := range list {
			if !seen[h] {
				seen[h] = true
				out = append(out, h)
			}
		}
	}
	add(j.Hazards)
	for _, p := range j.Parts {
		add(p.Hazards)
	}
	return out
}

// parted cuts a kit's line at its semicolons.
func parted(text string) []string {
	var out []string
	for _, p := range strings.Split(text, ";") {
		if p = strings.TrimSpace(p); p != "" {
			out = append(out, strings.TrimPrefix(p, "mind: "))
		}
	}
	return out
}
