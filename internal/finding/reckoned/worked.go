package reckoned

import (
	"errors"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/fastener"
	"matchmark/internal/trade/reckon"
)

// Worked is one reckoning with its answer, or with what it lacks.
type Worked struct {
	Title   string
	Topic   string
	Answer  reckon.Answer // without lines where there is none
	Filled  []Filled      // in the order of the topic's inputs
	Missing []string      // what is needed and not known, and what to do about it
	Without []string      // what is not known and would tell more
	Err     error         // why what is known was refused
}

// Answered tells whether there is an answer.
func (w Worked) Answered() bool { return len(w.Answer.Lines) > 0 }

// Given is what was filled in, as key=value: it can be asked again alone.
func (w Worked) Given() []string {
	var out []string
	for _, f := range w.Filled {
		out = append(out, f.Key+"="+f.Typed)
	}
	return out
}

// Filled is one input with its value and where that is from.
type Filled struct {
	Key   string
	Ask   string
	Typed string // "92 mm"
	From  string // "Bore of Liner, cylinder 2, mean of 6 readings"
}

// Where a value is from that no source gives.
const (
	fromKit = "usual here, by the kit"
	assumed = "taken where nothing else is said"
)

// Desk works out reckonings of one machine. It keeps what they share, so it is
// not for two goroutines at once; it changes nothing of the machine.
type Desk struct {
	m      *machine.Machine
	judged judge.Findings

	topics  map[string]reckon.Topic
	threads *fastener.List // read when the first is wanted
	judging map[machine.CheckID]*judge.Finding
	answers map[string]answer
}

type answer struct {
	values reckon.Values
	answer reckon.Answer
	err    error
}

// For opens a desk. The verdicts may be empty: those that are wanted are then
// made. Cost: the list of topics, some tenths of a millisecond.
func For(m *machine.Machine, judged judge.Findings) *Desk {
	d := &Desk{m: m, judged: judged, topics: map[string]reckon.Topic{}, judging: map[machine.CheckID]*judge.Finding{}, answers: map[string]answer{}}
	for _, t := range reckon.Topics() {
		d.topics[t.Name] = t
	}
	return d
}

// Of works out a list of reckonings. For several lists, open a Desk once.
func Of(m *machine.Machine, list []machine.Reckoning) []Worked {
	return For(m, judge.Findings{}).Of(list)
}

// Of works out a list of reckonings of the desk's machine, one for each.
func (d *Desk) Of(list []machine.Reckoning) []Worked {
	out := make([]Worked, len(list))
	for i, r := range list {
		out[i] = d.one(r)
	}
	return out
}

func (d *Desk) one(r machine.Reckoning) Worked {
	w := Worked{Title: r.Title, Topic: r.Topic}
	t, ok := d.topics[r.Topic]
	if !ok {
		w.Err = reckon.UnknownError{What: "topic", Got: r.Topic}
		return w
	}
	lacks := map[string]string{} // key → what to do
	for _, in := range t.Inputs {
		text, sourced := r.With[in.Key]
		if !sourced {
			if in.Needed {
				lacks[in.Key] = nowhere(t, in)
				w.Missing = append(w.Missing, lacks[in.Key])
			}
			continue
		}
		v := d.value(text)
		if len(v.wants) == 0 {
			w.Filled = append(w.Filled, Filled{in.Key, in.Ask, v.text, v.from})
			continue
		}
		lacks[in.Key] = in.Ask + ": " + strings.Join(v.wants, "; ")
		if v.maybe && !in.Needed {
			w.Without = append(w.Without, lacks[in.Key])
		} else {
			w.Missing = append(w.Missing, lacks[in.Key])
		}
	}
	if len(w.Missing) == 0 {
		d.answer(t, &w, lacks)
	}
	return w
}

// answer asks the topic. What it says is missing after all goes among the
// missing, in the words of its source where it has one.
func (d *Desk) answer(t reckon.Topic, w *Worked, lacks map[string]string) {
	given := w.Given()
	key := t.Name + "\x00" + strings.Join(given, "\x00")
	a, known := d.answers[key]
	if !known {
		a.values, a.answer, a.err = t.Reckon(given)
		d.answers[key] = a
	}
	var missing reckon.MissingError
	switch {
	case errors.As(a.err, &missing):
		for _, in := range missing.Inputs {
			words, ok := lacks[in.Key]
			if !ok {
				words = nowhere(t, in)
			}
			w.Missing = append(w.Missing, words)
		}
		w.Without = slices.DeleteFunc(w.Without, func(words string) bool { return slices.Contains(w.Missing, words) })
	case a.err != nil:
		w.Err = a.err
	default:
		w.Answer = a.answer
		w.assume(t, a.values)
	}
}

// assume adds the inputs that the topic took by itself.
func (w *Worked) assume(t reckon.Topic, values reckon.Values) {
	var all []Filled
	for _, g := range values.Given {
		if !g.Assumed {
			all = append(all, w.Filled[slices.IndexFunc(w.Filled, func(f Filled) bool { return f.Key == g.Key })])
			continue
		}
		ask := t.Inputs[slices.IndexFunc(t.Inputs, func(in reckon.Input) bool { return in.Key == g.Key })].Ask
		all = append(all, Filled{g.Key, ask, g.Typed, assumed})
	}
	w.Filled = all
}

// nowhere says of an input that nothing on the machine gives it.
func nowhere(t reckon.Topic, in reckon.Input) string {
	return in.Ask + ": nothing on this machine gives it; ask “matchmark reckon " + t.Name + "” with " + in.Key + "=…"
}
