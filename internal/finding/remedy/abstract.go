package remedy

// The problem in plain integers. It knows no machine: needs are to be covered
// by acts, acts pay for jobs and move values. Indexes tie them together.

// problem is what the search works on. It is not changed by it.
type problem struct {
	needs   []need
	jobs    []int64 // price of each
	acts    []act
	effects []effect
}

// need is a condition. A must is to be covered by a taken act. A judged need
// that is not covered keeps value + effects within low and high.
type need struct {
	must   bool
	word   int   // act that is taken whatever it costs; -1 for none
	size   int64 // size the word demands of that act; 0 for none
	judged bool
	value  int64
	low    int64
	high   int64
}

// effect moves the value of a need; it works once, however many taken acts
// carry it.
type effect struct {
	need int
	by   int64
}

// act is one decision. It pays for its jobs, each paid once over all acts.
// A family takes one size: it can be taken only if some size reaches every wear.
type act struct {
	jobs    []int
	covers  []cover
	effects []int
	days    int64
	family  bool
	sizes   []int64 // ascending
	wears   []int64
	barred  bool
}

// cover says how long a need lasts once covered, in thousandths.
type cover struct {
	need int
	life int64
}

// far is more than any price or value.
const far = int64(1) << 60

// sizeFor is the smallest size of a family that reaches every wear, or the one
// that the words demand. It fails where there is none, or where two words differ.
func (p *problem) sizeFor(a int) (size int64, ok bool) {
	least, asked := int64(0), int64(0)
	for _, w := range p.acts[a].wears {
		least = max(least, w)
	}
	for _, n := range p.needs {
		if n.word != a || n.size == 0 {
			continue
		}
		if asked != 0 && asked != n.size {
			return 0, false
		}
		asked = n.size
	}
	if asked != 0 {
		return asked, asked >= least
	}
	for _, s := range p.acts[a].sizes {
		if s >= least {
			return s, true
		}
	}
	return 0, false
}

// usable tells whether an act can be taken at all.
func (p *problem) usable(a int) bool {
	if p.acts[a].barred {
		return false
	}
	if !p.acts[a].family {
		return true
	}
	_, ok := p.sizeFor(a)
	return ok
}

// words lists which acts are taken on a person's word.
func (p *problem) words() []bool {
	out := make([]bool, len(p.acts))
	for _, n := range p.needs {
		if n.word >= 0 {
			out[n.word] = true
		}
	}
	return out
}

// priceOf adds up the jobs of the given acts, each once.
func (p *problem) priceOf(acts []int) int64 {
	paid, sum := make([]bool, len(p.jobs)), int64(0)
	for _, a := range acts {
		for _, j := range p.acts[a].jobs {
			if !paid[j] {
				paid[j] = true
				sum += p.jobs[j]
			}
		}
	}
	return sum
}

// daysOf is the longest lead time of the acts.
func (p *problem) daysOf(acts []int) int64 {
	longest := int64(0)
	for _, a := range acts {
		longest = max(longest, p.acts[a].days)
	}
	return longest
}

// lives gives for each need the best life that the acts give it, -1 where none
// covers it. A person's word counts as it is.
func (p *problem) lives(acts []int) []int64 {
	out := make([]int64, len(p.needs))
	for n := range out {
		out[n] = -1
	}
	for _, a := range acts {
		for _, c := range p.acts[a].covers {
			out[c.need] = max(out[c.need], c.life)
		}
	}
	return out
}

// without is the problem with some needs no longer asked for: neither to be
// covered nor judged, and their words forgotten.
func (p *problem) without(gone []bool) *problem {
	q := *p
	q.needs = append([]need(nil), p.needs...)
	for n := range q.needs {
		if gone[n] {
			q.needs[n] = need{word: -1}
		}
	}
	return &q
}
