package heard

import (
	"slices"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// hadTo begin what had to come off before.
var hadTo = []string{"had to take", "had to remove", "had to move", "had to shift", "had to drop", "had to undo", "had to get", "had to pull", "have to take", "have to remove", "after taking", "after removing", "needed to take", "need to take", "once i took", "after i took"}

// ways reads what was in the way: "battery was in the way", "had to take the
// exhaust off first".
func (e *Ear) ways(r *reader) {
	for i := range r.w {
		if n := r.phrase(i, hadTo...); n > 0 {
			end := i + n
			for end < len(r.w) && r.free(end).text != "" && !r.at(end).breaks() && !r.is(end, "first", "off", "out", "away", "before", "to", "aside") {
				end++
			}
			from := end
			for r.is(end, "first", "off", "out", "away", "of", "the", "way", "aside") {
				end++
			}
			if j := e.whatIs(r, i+n, from); j != nil {
				e.inTheWay(r, j, i, end)
			}
			continue
		}
		if n := r.phrase(i, "in the way", "in way", "had to come off first", "had to come off", "had to come out first"); n > 0 {
			start := i
			for start > 0 && start > i-6 && r.free(start-1).text != "" && !r.at(start-1).breaks() && !r.at(start-1).number && !r.is(start-1, "but", "and", "because", "with") {
				start--
			}
			if j := e.whatIs(r, start, i); j != nil {
				e.inTheWay(r, j, start, i+n)
			}
		}
	}
}

func (e *Ear) inTheWay(r *reader, j *machine.Joint, from, to int) {
	if !slices.Contains(r.out.Way, j) {
		r.out.Way = append(r.out.Way, j)
		r.fact(Way, from, to, "in the way: "+spelling.Inside(j.Name), "")
	}
}

// whatIs finds the joint that some words name by themselves, nil where they
// name none clearly.
func (e *Ear) whatIs(r *reader, from, to int) *machine.Joint {
	if to <= from {
		return nil
	}
	sub := &reader{line: r.line, w: slices.Clone(r.w[from:to]), out: &Heard{}}
	all := slices.Clone(e.joints)
	for i := range all { // what is open already may well have been in the way
		all[i].prior = usual[all[i].joint.Sort]
	}
	list, none := e.rank(all, e.hears(sub))
	if len(list) == 0 || list[0].score < none || list[0].score < 0.3 {
		return nil
	}
	return list[0].joint
}
