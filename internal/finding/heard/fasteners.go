package heard

import (
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/machine"
)

// set is one set of fasteners as heard, with the words it came from.
type set struct {
	machine.Fastener
	noun     string // "bolt", "lock nut"; empty where it was not said
	size     string // "M8x25", with the head where that was said
	many     bool   // the noun was said in the plural
	from, to int
	of       int // set whose pieces it is part of, -1 for none
}

// nouns are the fasteners, in the singular.
var nouns = map[string]bool{"bolt": true, "nut": true, "stud": true, "screw": true, "setscrew": true, "capscrew": true, "washer": true,
	"cotter": true, "circlip": true, "dowel": true, "rivet": true, "clip": true}

// before a noun these words belong to it.
var kinds = []string{"lock", "castle", "wing", "dome", "union", "flange", "set", "cap", "split", "roll", "spring", "stud", "jam", "grub", "hose", "tab", "plain", "shouldered", "dowel", "copper", "fibre", "hex", "socket", "countersunk", "pan"}

// nounAt reads a fastener's name: "bolts", "lock nuts", "split pin".
func (r *reader) nounAt(i int) (string, int) {
	w := r.free(i)
	if w.number || w.isMark() || w.text == "" {
		return "", 0
	}
	one := stem(w.text)
	if slices.Contains(kinds, w.text) {
		second := stem(r.free(i + 1).text)
		if nouns[second] || second == "pin" && slices.Contains([]string{"split", "roll", "cotter", "dowel", "spring"}, w.text) {
			return w.text + " " + second, 2
		}
		if r.is(i+1, "head") && nouns[stem(r.free(i+2).text)] {
			return w.text + " head " + stem(r.free(i+2).text), 3
		}
	}
	if nouns[one] {
		return one, 1
	}
	if w.text == "botls" || w.text == "blots" || w.text == "bolds" {
		return "bolt", 1
	}
	return "", 0
}

// qualities of a bolt that tell where it sat or which it was.
var qualities = []string{"long", "short", "longer", "shorter", "longest", "shortest", "top", "bottom", "upper", "lower", "outer", "inner", "corner", "middle", "end"}

// fasteners reads every set of fasteners in the line.
func (r *reader) fasteners() {
	for i := 0; i < len(r.w); {
		s, end := r.setAt(i)
		if end == i {
			i++
			continue
		}
		s.from, s.to, s.of = i, end, -1
		r.sets = append(r.sets, s)
		r.take(i, end, Fasteners)
		i = end
	}
}

// setAt reads one set that begins at word i: count, size, name and head in the
// orders that people say them.
func (r *reader) setAt(i int) (s set, end int) {
	if r.free(i).text == "" {
		return s, i
	}
	at := r.countAt(&s, i)
	for r.is(at, qualities...) && s.Count > 0 {
		s.Where = strings.TrimSpace(s.Where + " " + r.w[at].text)
		at++
	}
	if s.Count > 0 {
		at = r.describedNoun(&s, at)
		if s.Where != "" && s.noun == "" && r.is(at, "ones") {
			at++
		}
	}
	at = r.sized(&s, at)
	if s.noun == "" && s.size == "" {
		if s.Count > 0 && slices.Contains([]string{"long", "short", "longer", "shorter"}, s.Where) && (r.at(at).breaks() || r.free(at).number || at >= len(r.w) || r.is(at, "and", "ones")) {
			return s, at
		}
		return s, i
	}
	if s.Count == 0 {
		at = r.countBehind(&s, at)
	}
	if s.Count == 0 && s.noun != "" && s.size != "" && !s.many {
		s.Count = 1
	}
	if s.Count == 0 && s.size == "" {
		return s, i
	}
	if w, to := r.boltWhere(at); w != "" {
		s.Where, at = strings.TrimSpace(s.Where+" "+w), to
	}
	return s, at
}

// describedNoun reads a name with a word or two in front of it that say which:
// "two hinge bolts", "6 brass nuts".
func (r *reader) describedNoun(s *set, i int) int {
	for n := 1; n <= 2; n++ {
		if w := r.free(i + n - 1); w.text == "" || w.number || w.isMark() || isFiller(w.text) || isShim(w.text) || slices.Contains(dotWords, w.text) {
			return i
		}
		if noun, m := r.nounAt(i + n); m > 0 {
			if _, own := r.nounAt(i + n - 1); own > 0 {
				return i
			}
			s.noun = strings.ToLower(r.raw(i, i+n)) + " " + noun
			return i + n + m
		}
	}
	return i
}

// countAt reads the count in front of a set, with "off" or "x" behind it.
func (r *reader) countAt(s *set, i int) int {
	w := r.free(i)
	c := w.count()
	if r.is(i-1, "no", "number", "nr", "#", "cyl", "cylinder") {
		return i
	}
	next := i + 1
	if r.is(next, "x", "off") || r.is(next, "by") && r.is(next+1, "m") {
		next++
	}
	if r.is(next, "of") && !r.is(next+1, "the", "them") {
		next++
	}
	_, noun := r.nounAt(next)
	size, _ := r.sizeAt(next)
	switch {
	case c > 0 && c < 100 && !(noun == 0 && size == "" && next > i+1 && !r.is(next, qualities...)):
		if full, _ := r.sizeAt(i); full != "" && size == "" {
			return i // the number is the size itself: "8 mm bolts", "2BA"
		}
		s.Count = c
		return next
	case (w.text == "for" || w.text == "fore") && size != "":
		s.Count = 4
		return next
	case (w.text == "to" || w.text == "too") && (noun > 0 || size != "") && (i == 0 || r.at(i-1).breaks()):
		s.Count = 2
		return next
	case (w.text == "a" || w.text == "an" || w.text == "single") && noun > 0:
		s.Count = 1
		return next
	}
	return i
}

// countBehind reads "M8x25 x4", "M8x25 4 off", "bolts M8 (6)".
func (r *reader) countBehind(s *set, i int) int {
	at := i
	if r.is(at, "(") && r.free(at+1).count() > 0 && r.is(at+2, ")") {
		s.Count = r.w[at+1].count()
		return at + 3
	}
	if r.is(at, "x", ":") && r.free(at+1).count() > 0 && r.free(at+1).count() < 40 {
		s.Count = r.w[at+1].count()
		at += 2
		if r.is(at, "off") {
			at++
		}
		return at
	}
	if r.free(at).count() > 0 && r.is(at+1, "off", "of") && (r.at(at+2).text == "" || r.at(at+2).breaks() || r.is(at+1, "off")) {
		s.Count = r.w[at].count()
		return at + 2
	}
	return i
}

// sized reads size, name and head in any order.
func (r *reader) sized(s *set, i int) int {
	for range 6 {
		if size, n := r.sizeAt(i); n > 0 && s.size == "" {
			s.size, i = size, i+n
		} else if noun, n := r.nounAt(i); n > 0 && s.noun == "" && (s.Count > 0 || s.size != "" || r.sizeFollows(i+n) || r.free(i+n).count() > 0 && r.is(i+n+1, "off")) {
			s.noun, s.many, i = noun, strings.HasSuffix(r.w[i+n-1].text, "s"), i+n
		} else if mm, n := r.plainSize(i); n > 0 && s.noun != "" && s.size == "" {
			s.size, i = mm, i+n
		} else if head, n := r.headAt(i); n > 0 && !strings.Contains(s.size, "head") && (s.noun != "" || s.Count > 0) {
			s.size, i = strings.TrimPrefix(s.size+", "+head, ", "), i+n
		} else if (s.size != "" || s.noun != "") && r.is(i, "long", "short") {
			s.Where, i = strings.TrimSpace(s.Where+" "+r.w[i].text), i+1
		} else if s.noun != "" && s.size == "" && r.is(i, "with", ",", ":", "of") && r.sizeFollows(i+1) {
			i++
		} else {
			break
		}
	}
	return i
}

// plainSize reads a size in mm behind a name, "three nuts 13 mm", which may be
// thread or spanner: it is kept as said.
func (r *reader) plainSize(i int) (string, int) {
	v, ok := r.free(i).value()
	if _, n := r.headAt(i); n > 0 || !ok || v < 2 || v > 60 || !r.is(i+1, "mm", "mil", "millimetre") || isShim(r.at(i+2).text) {
		return "", 0
	}
	return r.w[i].text + " mm", 2
}

// sizeFollows tells whether a size or a head stands at word i.
func (r *reader) sizeFollows(i int) bool {
	size, _ := r.sizeAt(i)
	_, n := r.headAt(i)
	return size != "" || n > 0
}

// headAt reads the spanner a head takes: "13mm heads", "1/2 AF".
func (r *reader) headAt(i int) (string, int) {
	w := r.free(i)
	if r.is(i, "with") && r.free(i+1).number {
		if h, n := r.headAt(i + 1); n > 0 {
			return h, n + 1
		}
	}
	if !w.number {
		return "", 0
	}
	at, unit := i+1, ""
	if r.is(at, "mm", "mil", "millimetre", "inch", `"`) {
		unit = " mm"
		if r.is(at, "inch", `"`) {
			unit = " in"
		}
		at++
	}
	switch {
	case (unit != "" || w.isFraction()) && r.is(at, "head", "heads", "headed", "spanner", "hex", "socket", "wrench"):
		n := 1
		if r.is(at, "hex", "spanner", "socket") && r.is(at+1, "head", "heads", "size") {
			n = 2
		}
		return w.text + withDefault(unit, w) + " head", at + n - i
	case r.is(at, "af"):
		return w.text + withDefault(unit, w) + " head", at + 1 - i
	case r.is(at, "across") && r.is(at+1, "flats", "the"):
		return w.text + withDefault(unit, w) + " head", at + 2 - i
	}
	return "", 0
}

func withDefault(unit string, w word) string {
	switch {
	case unit != "":
		return unit
	case w.isFraction():
		return " in"
	}
	return " mm"
}

// boltWhere reads the place behind a set, where it goes on with no name:
// "at the dowels".
func (r *reader) boltWhere(i int) (string, int) {
	if r.is(i, "at", "by", "near") && r.is(i+1, "the", "top", "bottom") {
		return r.whereabouts(i)
	}
	return "", i
}

// whereabouts is the word at i with at most three behind it, to where the line goes
// on with something else; empty where nothing follows.
func (r *reader) whereabouts(i int) (string, int) {
	end := i + 1
	for end < len(r.w) && end < i+4 && r.free(end).text != "" && !r.at(end).breaks() && !r.at(end).number && !r.is(end, "and") {
		end++
	}
	if end == i+1 {
		return "", i
	}
	return strings.ToLower(r.raw(i, end)), end
}

// settle turns the sets into facts.
func (r *reader) settle() {
	for _, s := range r.sets {
		f := s.Fastener
		f.Size = called(s)
		switch {
		case f.Count > 0:
			r.out.Fasteners = append(r.out.Fasteners, f)
			r.fact(Fasteners, s.from, s.to, setText(f, s), "")
		case r.emptied(s):
			r.take(s.from, s.to, Fasteners)
		default:
			r.fact(Fasteners, s.from, s.to, f.Size, "how many was not said: it stays in the note")
		}
	}
}

// emptied: all of a set's pieces were said to be in another state.
func (r *reader) emptied(s set) bool {
	return slices.ContainsFunc(r.sets, func(o set) bool { return o.of >= 0 && r.sets[o.of].from == s.from })
}

// called is the size as kept: a bolt goes by its size alone.
func called(s set) string {
	switch {
	case s.size == "" && s.noun == "":
		return "bolt"
	case s.size == "":
		return s.noun
	case s.noun == "" || s.noun == "bolt" && startsSize(s.size):
		return s.size
	case s.noun == "bolt":
		return "bolt, " + s.size
	case startsSize(s.size):
		return s.size + " " + s.noun
	}
	return s.noun + ", " + s.size
}

func startsSize(size string) bool {
	return !strings.HasSuffix(size, "head") || strings.Contains(size, ",")
}

// setText is a set in trade words: "4 bolts M8x25, long".
func setText(f machine.Fastener, s set) string {
	noun := s.noun
	if noun == "" {
		noun = "bolt"
	}
	if f.Count > 1 {
		noun = manyOf(noun)
	}
	text := strconv.Itoa(f.Count) + " " + noun
	if s.size != "" {
		text += " " + strings.TrimPrefix(s.size, "bolt, ")
	}
	if f.Where != "" {
		text += ", " + f.Where
	}
	if f.State != "" {
		text += ", " + f.State
	}
	return text
}

func manyOf(noun string) string {
	if strings.HasSuffix(noun, "s") {
		return noun + "es"
	}
	return noun + "s"
}
