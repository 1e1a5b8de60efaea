package book

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
)

// Guess stands on every paper with prices.
const Guess = "Price and days are this workshop's guesses, in bench hours' worth and calendar days; the shop's word counts."

// Shop is the order to one place of work.
type Shop struct {
	Where     string     `json:"where"`
	Machine   string     `json:"machine"`
	Serial    string     `json:"serial,omitempty"`
	Aim       remedy.Aim `json:"aim"`
	Jobs      []ShopJob  `json:"jobs"`
	CostHours float64    `json:"costHours"`
	Days      float64    `json:"days"` // the longest of the jobs
	Guess     string     `json:"guess"`
}

// ShopJob is one piece of work.
type ShopJob struct {
	Name      string            `json:"name"`
	Remedy    string            `json:"remedy"`
	Parts     []machine.PartID  `json:"parts"` // that are sent to be worked on
	PartNames []string          `json:"partNames"`
	Surfaces  []Surface         `json:"surfaces"`
	SendAlong []string          `json:"sendAlong"` // mating parts
	New       []machine.PartID  `json:"renewed"`   // parts that are renewed with the work
	NewNames  []string          `json:"renewedNames"`
	Why       []Reason          `json:"why"`
	Back      []BackCheck       `json:"checks"` // made when it comes back
	Mind      string            `json:"mind,omitempty"`
	Notes     []string          `json:"notes,omitempty"`
	For       []machine.CheckID `json:"for"`
	CostHours float64           `json:"costHours"`
	Days      float64           `json:"days"`
}

// Reason is a failing check with the limit that it was judged by.
type Reason struct {
	Check machine.CheckID `json:"check"`
	Says  string          `json:"says"`
	Limit *Limit          `json:"limit,omitempty"`
}

// BackCheck is a check that the work will be held against.
type BackCheck struct {
	Check  machine.CheckID `json:"check"`
	Name   string          `json:"name"`
	When   string          `json:"when"` // on arrival, when built, in Prove
	Wanted *Limit          `json:"wanted,omitempty"`
	Tool   string          `json:"tool,omitempty"`
}

// sheet is what all papers are drawn up from.
type sheet struct {
	m        *machine.Machine
	judged   judge.Findings
	plan     remedy.Plan
	renewed  map[machine.PartID]bool
	reworked map[machine.FeatureID]bool
}

func newSheet(m *machine.Machine, judged judge.Findings, plan remedy.Plan) *sheet {
	s := &sheet{m: m, judged: judged, plan: plan, renewed: map[machine.PartID]bool{}, reworked: map[machine.FeatureID]bool{}}
	for _, j := range plan.Jobs {
		for _, id := range j.Renews {
			s.renewed[id] = true
		}
		for _, id := range j.Reworks {
			s.reworked[id] = true
		}
	}
	return s
}

// ShopOrder draws up the order to each place of work but the own bench and the
// counter: what part, which surface, from what size to what, the mating part
// that is sent along, and the checks that are made when it comes back. Places
// are in alphabetical order, jobs in the order of the plan. Cost: a search of
// all checks for each surface worked.
func ShopOrder(m *machine.Machine, judged judge.Findings, plan remedy.Plan) []Shop {
	s := newSheet(m, judged, plan)
	out := []Shop{}
	for _, j := range plan.Jobs {
		if own(j.Where) {
			continue
		}
		i := slices.IndexFunc(out, func(x Shop) bool { return x.Where == j.Where })
		if i < 0 {
			i = len(out)
			out = append(out, Shop{Where: j.Where, Machine: m.Name, Serial: m.Serial, Aim: plan.Aim, Guess: Guess})
		}
		job := s.shopJob(j)
		out[i].Jobs = append(out[i].Jobs, job)
		out[i].CostHours += job.CostHours
		out[i].Days = max(out[i].Days, job.Days)
	}
	slices.SortStableFunc(out, func(a, b Shop) int { return strings.Compare(a.Where, b.Where) })
	return out
}

// own tells places that get no order: the own bench, and what is only bought.
func own(where string) bool { return where == "" || where == "bench" || where == "buy" }

func (s *sheet) shopJob(j remedy.Job) ShopJob {
	out := ShopJob{Name: j.Name, Remedy: j.Remedy, Mind: j.Beware, CostHours: j.Cost, Days: j.Days, For: unique(j.Serves),
		Surfaces: []Surface{}, SendAlong: []string{}, Parts: s.sent(j), New: unique(j.Renews)}
	for _, id := range j.Reworks {
		if ft := s.m.Feature(id); ft != nil {
			out.Surfaces = append(out.Surfaces, s.surface(ft, j.Step))
		}
	}
	var fits []machine.CheckID
	for _, sf := range out.Surfaces {
		for _, f := range sf.Fits {
			fits = append(fits, f.Check)
			for _, id := range f.Mates {
				if p := s.m.Part(id); p != nil && !slices.Contains(out.Parts, id) {
					out.SendAlong = append(out.SendAlong, s.called(p))
				}
			}
		}
	}
	out.SendAlong = unique(out.SendAlong)
	out.PartNames, out.NewNames = s.names(out.Parts), s.names(out.New)
	out.Why = s.reasons(j)
	out.Back = s.back(j, fits)
	for _, id := range out.Parts {
		if p := s.m.Part(id); p != nil && (p.Call == machine.Renew || p.Call == machine.GoesBack) {
			out.Notes = append(out.Notes, fmt.Sprintf("%s is called %q; the plan works on it. Settle which before sending it.", p.Name, p.Call))
		}
	}
	return out
}

// sent lists the parts that go out: those reworked; else those that the checks
// name and the job does not renew; else what a renewed part is pressed into.
func (s *sheet) sent(j remedy.Job) []machine.PartID {
	out := []machine.PartID{}
	for _, id := range j.Reworks {
		out = append(out, id.Part())
	}
	if len(out) == 0 {
		for _, id := range j.For {
			out = append(out, s.about(id, j.Renews)...)
		}
	}
	if len(out) == 0 {
		for _, id := range j.Renews {
			out = append(out, s.pressedInto(id, j.Renews)...)
		}
	}
	return unique(out)
}

func (s *sheet) about(id machine.CheckID, renewed []machine.PartID) []machine.PartID {
	c, out := s.m.Check(id), []machine.PartID{}
	if c == nil {
		return nil
	}
	for _, p := range c.Parts {
		out = append(out, p.ID)
	}
	for _, ft := range c.Surfaces() {
		if ft.Part != nil {
			out = append(out, ft.Part.ID)
		}
	}
	return slices.DeleteFunc(out, func(p machine.PartID) bool { return slices.Contains(renewed, p) })
}

func (s *sheet) pressedInto(id machine.PartID, renewed []machine.PartID) []machine.PartID {
	p, out := s.m.Part(id), []machine.PartID{}
	if p == nil {
		return nil
	}
	for _, j := range p.Joints {
		for _, q := range j.Parts {
			if j.Sort == "press" && !slices.Contains(renewed, q.ID) {
				out = append(out, q.ID)
			}
		}
	}
	return out
}

func (s *sheet) names(ids []machine.PartID) []string {
	out := []string{}
	for _, id := range ids {
		if p := s.m.Part(id); p != nil {
			out = append(out, p.Name)
		} else {
			out = append(out, string(id))
		}
	}
	return out
}

// reasons gives the verdict on each failing check that a job serves; a job
// done for its size group's sake says so.
func (s *sheet) reasons(j remedy.Job) []Reason {
	out := []Reason{}
	for _, id := range j.Serves {
		f := s.judged.Of(id)
		if f == nil {
			continue
		}
		r := Reason{Check: id, Says: f.Sentence}
		if l, ok := wornBy(f); ok {
			r.Limit = &l
		}
		out = append(out, r)
	}
	if len(out) == 0 && j.Group != "" {
		out = append(out, Reason{Says: fmt.Sprintf("No check of its own fails: it takes the size of its group, %s.", j.Group)})
	}
	return out
}

// back lists the checks to be made afterwards: those the work is for, those it
// opens, and the fits of the surfaces worked.
func (s *sheet) back(j remedy.Job, fits []machine.CheckID) []BackCheck {
	ids := append(slices.Clone(j.Serves), j.For...)
	ids = append(append(ids, j.Opens...), fits...)
	slices.Sort(ids)
	out := []BackCheck{}
	for _, id := range slices.Compact(ids) {
		c := s.m.Check(id)
		if c == nil {
			continue
		}
		b := BackCheck{Check: id, Name: c.Name, When: whenWords(c.When), Tool: c.Tool}
		if l, ok := asNew(s.judged.Of(id)); ok {
			b.Wanted = &l
		}
		out = append(out, b)
	}
	return out
}

func whenWords(when string) string {
	switch when {
	case machine.Apart:
		return "on arrival"
	case machine.Running:
		return "in Prove"
	}
	return "when built"
}
