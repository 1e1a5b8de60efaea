package web

import (
	"slices"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/closing"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// sheetView is what is wanted beside a joint as it is closed, to be read at
// arm's length.
type sheetView struct {
	Torques  []torqueView
	Refused  string
	Paper    *closing.Paper
	Weigh    string
	Bolts    *boltField
	Around   []string
	Among    []amongRow
	Shims    *shimsView
	GoesOn   []string // oil, sealant, which way round
	Others   []string
	New      []string
	Heat     []heatRow
	Marks    []string
	Dots     *dots
	AsFound  []string
	Photos   []photoRow
	Done     []string // recorded, against what is advised
	Over     bool
	Advised  string // the ranges in one line, beside the field
	NotMaker string
}

// torqueView is the torque of one thread: a column for each mark that the
// heads may carry, a row for each pass.
type torqueView struct {
	Name   string
	Pieces string
	Kit    string // where the fasteners are known from, if they did not come out
	Stop   string
	New    string
	Notes  []string
	Heads  []headMark
	Passes []torquePass
}

type headMark struct {
	Class, If           string
	Range, Never        string
	By, Bite, Deep, Say string
	Source              string
	Working             []string
}

type torquePass struct {
	N     int
	Words string // for all alike: by hand, once more
	Cells []string
	Full  bool
}

type amongRow struct {
	N    int
	Name string
	Here bool
}

type shimsView struct {
	Say      string // what pack the dry build asks for
	Why      string // why there is none
	Plan     string
	Out      []string
	Readings []string
	Packs    []string
	Working  []string
}

type heatRow struct{ Say, Source string }

// sheetOf lays out the sheet of a joint.
func sheetOf(v *bench.View, base string, j *machine.Joint) sheetView {
	s := v.Closing(j)
	sv := sheetView{Refused: s.Refused, Paper: s.Paper, Weigh: s.Weigh, Around: s.Around, GoesOn: goesOn(s), Marks: s.Marks,
		Photos: photosOf(v.Machine, base, j.Photos), Bolts: boltsOf(s.Pattern), NotMaker: closing.NotMakers}
	for _, e := range j.Evidence {
		sv.AsFound = append(sv.AsFound, spelling.Head(foundWords(&e.AsFoundTaken)))
	}
	var ranges []string
	for _, t := range s.Tightening {
		tv := torqueOf(t)
		for _, h := range tv.Heads {
			ranges = append(ranges, h.Class+": "+h.Range)
		}
		sv.Torques = append(sv.Torques, tv)
	}
	sv.Advised = strings.Join(ranges, "; ")
	for _, f := range s.Others {
		sv.Others = append(sv.Others, fastenerWords(f))
	}
	for _, p := range s.New {
		sv.New = append(sv.New, p.Name)
	}
	for _, h := range s.Heat {
		sv.Heat = append(sv.Heat, heatRow{h.Say, h.Source})
	}
	for i, id := range s.Among {
		sv.Among = append(sv.Among, amongRow{i + 1, jointName(v.Machine, id), id == j.ID})
	}
	for _, m := range s.Marks {
		sv.Dots = matchDots(m)
	}
	sv.Shims = shimsOf(s.Shims)
	if s.Done != nil {
		sv.Done, sv.Over = s.Done.Says, s.Done.Over
	}
	return sv
}

// goesOn joins what the threads want with what the faces want, each once.
func goesOn(s closing.Sheet) []string {
	var out []string
	for _, t := range s.Tightening {
		if t.Oil != "" && !slices.Contains(out, spelling.Head(t.Oil)) {
			out = append(out, spelling.Head(t.Oil))
		}
	}
	for _, f := range s.Fit {
		if !slices.Contains(out, spelling.Head(f)) {
			out = append(out, spelling.Head(f))
		}
	}
	return out
}

func torqueOf(t closing.Tightening) torqueView {
	tv := torqueView{Name: t.Thread, Stop: t.Stop, New: t.New, Notes: t.Notes}
	if t.From != closing.CameOut {
		tv.Kit = spelling.Head(t.From)
	}
	var pieces []string
	for _, f := range t.Sets {
		pieces = append(pieces, fastenerWords(f))
	}
	tv.Pieces = strings.Join(pieces, "; ")
	passes := 0
	for _, q := range t.Torques {
		h := headMark{Class: q.Class, If: spelling.Head(q.If), By: q.By, Bite: q.Bite, Source: q.Source, Working: q.Working}
		h.Range, h.Never = rangeWords(q)
		if q.Deep != nil {
			h.Deep = q.Deep.Say
		}
		tv.Heads = append(tv.Heads, h)
		passes = max(passes, len(q.Stages))
	}
	for i := range passes {
		tv.Passes = append(tv.Passes, passOf(t, i))
	}
	return tv
}

// passOf is one pass: the words where it is alike for all, else the torque of
// each column. The last with a torque is the full one.
func passOf(t closing.Tightening, i int) torquePass {
	p := torquePass{N: i + 1}
	for _, q := range t.Torques {
		if i >= len(q.Stages) {
			p.Cells = append(p.Cells, "")
			continue
		}
		st := q.Stages[i]
		if st.HighNM == 0 || st.OnceAgain {
			p.Words = st.Words
		}
		p.Cells = append(p.Cells, strings.TrimSuffix(st.Words, " N·m"))
		next := i + 1
		p.Full = !st.OnceAgain && (next == len(q.Stages) || q.Stages[next].OnceAgain)
	}
	return p
}

// rangeWords are a torque's range and what it is never above, as its own
// sentence gives them: "28 to 35 N·m", "never above 35".
func rangeWords(q closing.Torque) (span, never string) {
	span, rest, ok := strings.Cut(q.Say, ", never above ")
	if !ok {
		return q.Say, ""
	}
	most, _, _ := strings.Cut(rest, ". ")
	return span, "Never above " + strings.TrimSuffix(most, ".")
}

func shimsOf(s *closing.Shims) *shimsView {
	if s == nil {
		return nil
	}
	out := &shimsView{Plan: s.Plan, Why: s.Why, Readings: s.Readings, Packs: s.Packs}
	for _, k := range s.Out {
		out.Out = append(out.Out, shimWords(k))
	}
	if s.Want != nil {
		out.Say, out.Working = s.Want.Say, s.Want.Working
	}
	return out
}
