package heard

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// The scale of the weights, in nats. Chosen on the lines of
// testdata/corpus.tsv; testdata/fresh.tsv was written after and had no say.
const (
	unsaid      = 0.28 // a word of the name that was not said, share of what it tells
	unsaidTop   = 3.0  // no word costs more than that times unsaid
	unsaidTail  = 0.08 // the same behind "in", "on", "to"
	unmeant     = 0.5  // a word said that the name has not
	fastenerSay = 0.25 // share of "bolts" and "shims" where they are counted
	placeUnsaid = 0.4  // of the cost of a word not said, where it is a side or an end
	remark      = 0.3  // share of words behind the phrase that names the thing
	hidden      = 0.6  // share of words that a longer saying gives another meaning
	partSaid    = 0.6  // share of a part's name that takes it for off; bolts are counted, not named
	nothing     = 3.0  // what a joint must reach to be meant at all
	least       = 0.02 // weight below which a candidate is not shown
	most        = 8    // candidates
)

// asked is one word of the line with what it may mean.
type asked struct {
	word  int // of the line
	share float64
	after bool // it stands behind "in", "on", "with": it says where the thing is
	means []meaning
}

// meaning is a word of the vocabulary, with how sure that it is meant.
type meaning struct {
	id   int
	sure float64
}

// asks turns the words nobody took into what they may mean. Words of a
// fastener or of shims have a small say as well: "hub nut" is a name.
func (e *Ear) asks(r *reader) []asked {
	var out []asked
	for i, w := range r.w {
		share := 1.0
		switch {
		case w.taken == Shims || w.taken == Fasteners && (nouns[stem(w.text)] || slices.Contains(kinds, w.text)):
			share = fastenerSay
		case w.taken == Fasteners:
			share = 0.9
		case w.taken != Between:
			continue
		}
		if w.number && r.at(i+1).glued && ordinalWords[w.text+r.at(i+1).text] != "" {
			w.text, w.number = ordinalWords[w.text+r.at(i+1).text], false
		}
		if w.number || w.isMark() || isFiller(w.text) && e.words[w.text] == 0 {
			continue
		}
		if m := e.meanings(w.text); len(m) > 0 {
			out = append(out, asked{word: i, share: share, means: m})
		}
	}
	e.together(r, &out)
	e.inOtherWords(r, &out)
	slices.SortStableFunc(out, func(a, b asked) int { return a.word - b.word })
	r.standing(out)
	return out
}

// behindWords turn from the thing to where it is, or what came with it.
var behindWords = setOf("in on from with under behind through inside of at to into for off")

// standing weighs the words by where they stand: a thing is mostly named in
// the first phrase that names any, and in front of "in", "on" or "with".
func (r *reader) standing(ask []asked) {
	if len(ask) == 0 {
		return
	}
	first := ask[0].word
	for i := range ask {
		a := &ask[i]
		for w := first + 1; w < a.word; w++ {
			if r.w[w].taken == Between && (r.w[w].breaks() || r.w[w].text == "but") {
				a.share *= remark
				break
			}
		}
		for w := first + 1; w < a.word; w++ {
			a.after = a.after || r.w[w].taken == Between && behindWords[r.w[w].text]
		}
	}
}

// meanings finds a word in the vocabulary: as it stands, cut short, mistyped,
// or two run together.
func (e *Ear) meanings(text string) []meaning {
	s := stem(text)
	if id, ok := e.words[s]; ok {
		return []meaning{{id, 1}}
	}
	if len(s) < 3 || joining[s] || isFiller(text) || condition[text] {
		return nil
	}
	var out []meaning
	for id, v := range e.list {
		if len(v) > len(s) && strings.HasPrefix(v, s) {
			out = append(out, meaning{id, 0.55 + 0.4*float64(len(s))/float64(len(v))})
		} else if sure := typo(s, v); sure > 0 {
			out = append(out, meaning{id, sure})
		}
	}
	for cut := 3; cut+2 <= len(s); cut++ {
		a, ok := e.words[s[:cut]]
		b, both := e.words[s[cut:]]
		if ok && both {
			out = append(out, meaning{a, 0.95}, meaning{b, 0.95})
		}
	}
	return out
}

// typo weighs a word against one it may be a slip for; 0 is none.
func typo(s, v string) float64 {
	if len(s) < 4 || len(v) < 4 || s[0] != v[0] && len(s) < 6 || max(len(s)-len(v), len(v)-len(s)) > 2 {
		return 0
	}
	d := spelling.Distance(s, v)
	switch {
	case d == 1:
		return 0.85
	case d == 2 && len(s) >= 6 && len(v) >= 6, d == 2 && len(s) == len(v) && swapped(s, v):
		return 0.65
	}
	return 0
}

// swapped: two letters next to each other changed places.
func swapped(a, b string) bool {
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}

// together reads two words as one: "push rods", "fly wheel".
func (e *Ear) together(r *reader, out *[]asked) {
	for i := 0; i+1 < len(r.w); i++ {
		a, b := r.free(i), r.free(i+1)
		if a.number || b.number || a.text == "" || b.text == "" || len(a.text)+len(b.text) < 5 {
			continue
		}
		if id, ok := e.words[stem(a.text+b.text)]; ok {
			*out = append(*out, asked{word: i, share: 1, means: []meaning{{id, 1}}}, asked{word: i + 1, share: 1, means: []meaning{{id, 1}}})
		}
	}
}

// inOtherWords adds what the sayings of the trade mean.
func (e *Ear) inOtherWords(r *reader, out *[]asked) {
	var fresh []asked
	for _, s := range sayings {
		for i := range r.w {
			n := e.saysAt(r, i, s.says)
			if n == 0 {
				continue
			}
			sure := 0.85
			if n > 1 {
				sure = 0.95
			}
			var means []meaning
			for _, v := range vocabulary(s.means) {
				if id, ok := e.words[v]; ok {
					means = append(means, meaning{id, sure})
				}
			}
			for k := range *out {
				if a := &(*out)[k]; n > 1 && a.word >= i && a.word < i+n {
					a.share *= math.Pow(hidden, float64(n-1))
				}
			}
			for k := range n {
				fresh = append(fresh, asked{word: i + k, share: 1, means: means})
			}
		}
	}
	*out = append(*out, fresh...)
}

// saysAt finds a saying at word i; its last word may belong to a fastener,
// "wheel nuts".
func (e *Ear) saysAt(r *reader, i int, says string) int {
	n := 0
	for f := range strings.FieldsSeq(says) {
		w := r.at(i + n)
		if w.taken != Between && !(n > 0 && w.taken == Fasteners) || w.text != f && stem(w.text) != f && !(len(f) > 5 && typo(w.text, f) > 0.8) {
			return 0
		}
		n++
	}
	return n
}

// score weighs one name against what was asked, in nats; hit lists the words
// of the line that name it.
func (e *Ear) score(n *named, q question) (float64, []int) {
	total := n.prior
	var hit []int
	for _, t := range n.terms {
		sure := 0.0
		for _, v := range q.of[t.id] {
			sure = max(sure, v.sure*t.heardAs(v.after))
			if !slices.Contains(hit, v.word) {
				hit = append(hit, v.word)
			}
		}
		if sure > 0 {
			total += e.tells[t.id] * t.share * sure
		} else {
			total -= e.silence(t)
		}
	}
	if len(hit) == 0 {
		return math.Inf(-1), nil
	}
	placed, used := n.place.fits(q.places, func(piece string) bool { return e.says(n, piece) })
	for _, k := range used {
		for w := q.places[k].word; w <= q.places[k].last; w++ {
			hit = append(hit, w)
		}
	}
	for word, b := range q.best {
		if b > 0 && !slices.Contains(hit, word) {
			total -= unmeant * b
		}
	}
	return total + placed, hit
}

// silence is what a word of the name costs that was not said.
func (e *Ear) silence(t term) float64 {
	cost := min(e.tells[t.id], unsaidTop)
	switch {
	case t.main && placeWords[e.list[t.id]] != "":
		return unsaid * placeUnsaid * cost
	case t.main:
		return unsaid * cost
	case t.tail:
		return unsaidTail * cost
	}
	return 0
}

// heardAs is how well a word fits where it stands in the name: what is named
// in front of "in" in the line stands in front of it in the name.
func (t term) heardAs(after bool) float64 {
	switch {
	case after && t.main:
		return 0.6
	case !after && t.tail:
		return 0.8
	}
	return 1
}

// says tells whether a piece of a place is a word of the name itself: "front"
// of the front wheel.
func (e *Ear) says(n *named, piece string) bool {
	return slices.ContainsFunc(n.terms, func(t term) bool {
		v := e.list[t.id]
		return t.share >= inParts && (v == piece || placeWords[v] == piece || ordinals[v] == piece)
	})
}

// question is what a line asks the names.
type question struct {
	words   []asked
	of      [][]vote  // for each word of the vocabulary, who asks for it
	best    []float64 // the most each word of the line could tell
	places  []heardPlace
	counted bool // bolts, nuts or studs were counted with it
}

// vote is a word of the line that may mean a word of the vocabulary.
type vote struct {
	word  int
	sure  float64
	after bool
}

// held is how much likelier a joint is where bolts were counted, by its sort.
var held = map[string]float64{"bolted": 0.7, "threaded": -0.2, "gasket": -0.7, "seal": -0.7, "press": -0.7, "slip": -0.7, "mesh": -0.7, "clamped": 0.1}

// hears puts the question of a line.
func (e *Ear) hears(r *reader) question {
	words := e.asks(r)
	of := make([][]vote, len(e.list))
	for _, a := range words {
		for _, m := range a.means {
			of[m.id] = append(of[m.id], vote{a.word, m.sure * a.share, a.after})
		}
	}
	return question{words: words, of: of, best: e.bestOf(r, words), places: r.places(), counted: len(r.out.Fasteners) > 0}
}

// bestOf is the most that each word of the line could tell.
func (e *Ear) bestOf(r *reader, ask []asked) []float64 {
	best := make([]float64, len(r.w))
	for _, a := range ask {
		text := r.w[a.word].text
		if a.share < 0.3 || isFiller(text) || placeWords[text] != "" {
			continue
		}
		cost := a.share
		if a.after {
			cost *= 0.5
		}
		for _, m := range a.means {
			best[a.word] = max(best[a.word], e.tells[m.id]*m.sure*cost*e.share[m.id])
		}
	}
	return best
}

// rank orders names by their score and gives each its weight; none is the
// weight of "nothing of these".
func (e *Ear) rank(list []named, q question) (out []ranked, none float64) {
	top := nothing
	for i := range list {
		s, hit := e.score(&list[i], q)
		if q.counted && list[i].joint != nil {
			s += held[list[i].joint.Sort]
		}
		if !math.IsInf(s, -1) {
			out = append(out, ranked{&list[i], s, hit})
			top = max(top, s)
		}
	}
	slices.SortStableFunc(out, func(a, b ranked) int { return cmp.Compare(b.score, a.score) })
	sum := math.Exp(nothing - top)
	for i := range out {
		out[i].score = math.Exp(out[i].score - top)
		sum += out[i].score
	}
	for i := range out {
		out[i].score /= sum
	}
	return out, math.Exp(nothing-top) / sum
}

type ranked struct {
	*named
	score float64
	hit   []int
}

// offOf lists the parts of a joint that the line names.
func (e *Ear) offOf(j *machine.Joint, ask []asked) []*machine.Part {
	var out []*machine.Part
	for i := range e.parts {
		n := &e.parts[i]
		if !slices.Contains(j.Parts, n.part) || len(n.terms) == 0 {
			continue
		}
		all, said := 0.0, 0.0
		for _, t := range n.terms {
			if !t.main || placeWords[e.list[t.id]] != "" {
				continue
			}
			all += e.tells[t.id]
			for _, a := range ask {
				if a.share == 1 && slices.ContainsFunc(a.means, func(m meaning) bool { return m.id == t.id && m.sure >= 0.65 }) {
					said += e.tells[t.id]
					break
				}
			}
		}
		if all > 0 && said >= partSaid*all && !nouns[stem(strings.ToLower(lastWord(n.base)))] {
			out = append(out, n.part)
		}
	}
	return out
}
