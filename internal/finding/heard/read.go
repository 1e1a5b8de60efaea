package heard

import (
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/quantity"
)

// reader is one line on its way to being understood.
type reader struct {
	line  string
	trays []machine.Tray
	w     []word
	sets  []set
	facts []Fact
	out   *Heard
}

// at gives a word, an empty one past the end.
func (r *reader) at(i int) word {
	if i < 0 || i >= len(r.w) {
		return word{}
	}
	return r.w[i]
}

// free gives a word that nothing has taken yet, else an empty one.
func (r *reader) free(i int) word {
	if w := r.at(i); w.taken == Between {
		return w
	}
	return word{}
}

// is tells whether a free word is one of those named.
func (r *reader) is(i int, words ...string) bool { return slices.Contains(words, r.free(i).text) }

// take claims the words from i up to j.
func (r *reader) take(i, j int, s Sort) {
	for ; i < j && i < len(r.w); i++ {
		r.w[i].taken = s
	}
}

// raw is the line as typed from word i up to word j.
func (r *reader) raw(i, j int) string { return r.line[r.w[i].from:r.w[j-1].to] }

// fact keeps what the words from i up to j were understood as.
func (r *reader) fact(s Sort, i, j int, text, doubt string) {
	r.take(i, j, s)
	r.facts = append(r.facts, Fact{Sort: s, Text: text, From: r.w[i].from, To: r.w[j-1].to, Doubt: doubt})
}

// phrase finds one of some phrases at word i among the free words, the longest
// first as listed; it gives how many words it takes.
func (r *reader) phrase(i int, phrases ...string) int {
	for _, p := range phrases {
		n := 0
		for f := range strings.FieldsSeq(p) {
			if r.free(i+n).text != f {
				n = -1
				break
			}
			n++
		}
		if n > 0 {
			return n
		}
	}
	return 0
}

// letsGo are the sayings in front of the torque that just moved a joint.
var letsGo = []string{"let go at", "let go with", "let go around", "let go about", "let go", "broke loose at", "broke free at", "broke away at", "broke at", "came loose at",
	"came undone at", "came free at", "cracked off at", "cracked loose at", "cracked at", "gave way at", "gave at", "moved at", "started at", "slackened at",
	"undid at", "released at", "breakaway torque", "breakaway at", "breakaway", "break away", "break loose at", "gave in at"}

// torque reads the torque it let go at: after a saying, or any figure with a
// unit of torque.
func (r *reader) torque() {
	for i := range r.w {
		n := r.phrase(i, letsGo...)
		at := i + n
		for n > 0 && r.is(at, "at", "about", "around", "roughly", "of", "was", "=", ":", "~", "just", "only") {
			at++
		}
		w := r.free(at)
		if !w.number || w.isFraction() || r.out.LetGo != nil {
			continue
		}
		if a, m := r.torqueAt(at); m > 0 {
			r.out.LetGo = &a
			r.fact(LetGo, i, at+m, "let go at "+figure(a.Value, 1)+" N·m"+typedBehind(a.Typed), "")
		} else if q, err := quantity.Parse(w.text, quantity.Torque, "N·m"); n > 0 && err == nil && q.Value > 0 && !r.unitFollows(at+1) {
			a := machine.Amount{Value: q.Value, Unit: "N·m", Typed: r.raw(at, at+1), Step: q.Step}
			r.out.LetGo = &a
			r.fact(LetGo, i, at+1, "let go at "+w.text+" N·m", "no unit was said: taken as N·m")
		}
	}
}

// typedBehind adds the words used where they were in another unit.
func typedBehind(typed string) string {
	low := strings.ToLower(strings.ReplaceAll(typed, " ", ""))
	if strings.HasSuffix(low, "nm") || strings.HasSuffix(low, "n·m") || strings.Contains(low, "newton") {
		return ""
	}
	return " (" + typed + ")"
}

// unitFollows tells whether the word behind a figure is a unit of another
// kind, so that the figure is no bare torque.
func (r *reader) unitFollows(i int) bool {
	_, err := quantity.Parse("1 "+r.at(i).text, quantity.AnyDimension, "")
	return err == nil && !r.at(i).isMark() && r.at(i).text != ""
}

// torqueAt reads a figure with a unit of torque; n is how many words.
func (r *reader) torqueAt(i int) (machine.Amount, int) {
	for n := min(4, len(r.w)-i); n >= 2; n-- {
		unit := strings.NewReplacer("meter", "metre", "Meter", "metre", "kilos", "kgf", "kgm", "kgf·m", "kg m", "kgf·m", "pounds", "pound", "foot", "foot").Replace(r.raw(i+1, i+n))
		unit = strings.TrimSpace(strings.TrimPrefix(unit, "."))
		q, err := quantity.Parse(r.w[i].text+" "+strings.ReplaceAll(unit, "pound feet", "pound foot"), quantity.Torque, "")
		if err == nil && q.Value > 0 {
			return machine.Amount{Value: q.Value, Unit: "N·m", Typed: r.raw(i, i+n), Step: q.Step}, n
		}
	}
	return machine.Amount{}, 0
}

// keepers are words for what a tray may be instead.
var keepers = []string{"box", "bin", "tub", "bag", "jar", "crate", "drawer", "shelf"}

// tray reads "tray 14", "in box 3", and marks that this machine has already.
func (r *reader) tray() {
	for i := range r.w {
		if r.out.Tray != "" {
			return
		}
		from := i
		other := slices.Contains(keepers, r.free(i).text)
		if r.free(i).text != "tray" && !(other && r.opensPhrase(i)) {
			continue
		}
		at := i + 1
		for r.is(at, "no", "number", "mark", "marked", "called", "#", ".", ":") {
			at++
		}
		n := r.markAt(at)
		if n == 0 {
			continue
		}
		if r.is(from-1, "in", "into", "to", "on") {
			from--
		}
		mark := r.knownTray(strings.ToUpper(strings.ReplaceAll(r.markText(at, n), " ", "")))
		if other {
			mark = r.free(i).text + " " + mark
		}
		r.out.Tray = mark
		r.fact(Tray, from, at+n, "tray "+mark, "")
	}
	r.namedTray()
}

// opensPhrase: the word stands first of what is said of one thing.
func (r *reader) opensPhrase(i int) bool {
	return i == 0 || r.at(i-1).breaks() || r.is(i-1, "in", "into", "on")
}

// markText is a mark as written; a number said in words is its figures.
func (r *reader) markText(i, n int) string {
	if r.w[i].said {
		return r.w[i].text
	}
	return r.raw(i, i+n)
}

// markAt tells how many words a tray's mark takes: a number, a letter, or a run
// of both without a gap.
func (r *reader) markAt(i int) int {
	w := r.free(i)
	if w.text == "" || w.isMark() {
		return 0
	}
	n := 1
	digits := w.number
	for !w.said && r.free(i+n).text != "" && r.at(i+n).glued && (!r.at(i+n).isMark() || r.at(i+n).text == "-" && r.at(i+n+1).glued) {
		digits = digits || r.at(i+n).number
		n++
	}
	if n == 1 && r.is(i, "to", "too") {
		r.w[i].text, r.w[i].number, r.w[i].said = "2", true, true
		return 1
	}
	one := n == 1 && len(w.text) == 1 && w.text != "x" && !r.is(i, "a", "i")
	text := strings.ToUpper(r.raw(i, i+n))
	if digits && !w.isFraction() || one || r.knownTray(text) != text || len(text) == 3 && r.hasTray(text) {
		return n
	}
	return 0
}

func (r *reader) hasTray(mark string) bool {
	return slices.ContainsFunc(r.trays, func(t machine.Tray) bool { return strings.EqualFold(t.Mark, mark) })
}

// knownTray spells a mark as the machine has it.
func (r *reader) knownTray(mark string) string {
	for _, t := range r.trays {
		if strings.EqualFold(t.Mark, mark) {
			return t.Mark
		}
	}
	return mark
}

// namedTray reads a tray of this machine by a mark in words: "crank stand".
func (r *reader) namedTray() {
	for _, t := range r.trays {
		fields := strings.Fields(strings.ToLower(t.Mark))
		if r.out.Tray != "" || len(t.Mark) < 4 || len(fields) == 0 {
			continue
		}
		for i := range r.w {
			if n := r.phrase(i, strings.Join(fields, " ")); n > 0 && n == len(fields) && (n > 1 || r.is(i-1, "on", "in", "tray")) {
				r.out.Tray = t.Mark
				r.fact(Tray, i, i+n, "tray "+t.Mark, "")
				break
			}
		}
	}
}

// mark reads match marks: "2 dots", "marked with a scribed line", "dot dot".
func (r *reader) mark() {
	for i := range r.w {
		if r.out.MatchMark != "" {
			return
		}
		n, text := r.dots(i)
		if n == 0 {
			n, text = r.marked(i)
		}
		if n > 0 {
			r.out.MatchMark = text
			from := i
			for r.is(from-1, "marked", "punched", "with", "mark", "match", "matched", "stamped") {
				from--
			}
			r.fact(Mark, from, i+n, "marked "+text, "")
		}
	}
}

var dotWords = []string{"dot", "dots", "pop", "pops", "punch", "punches"}

// dots reads a count of punch marks.
func (r *reader) dots(i int) (n int, text string) {
	for r.is(i+n, "dot") {
		n++
	}
	if n > 1 {
		return n, plural(n, "dot", "dots")
	}
	c := r.free(i).count()
	if r.is(i, "to", "too") {
		c = 2
	}
	if r.is(i, "a", "an") {
		c = 1
	}
	if c < 1 || c > 12 {
		return 0, ""
	}
	at := i + 1
	for r.is(at, "centre", "center", "punch", "punched") && !r.is(at+1, "") {
		at++
	}
	if slices.Contains(dotWords, r.free(at).text) || at > i+1 && r.is(at, "mark", "marks") {
		at++
		if r.is(at, "mark", "marks") {
			at++
		}
		return at - i, plural(c, "dot", "dots")
	}
	return 0, ""
}

// marked reads what a mark was said to be, up to the next comma.
func (r *reader) marked(i int) (n int, text string) {
	lead := r.phrase(i, "match marked with", "match mark is", "match mark", "match marked", "match marks", "marked with", "marked up", "marked as", "marked", "stamped", "scribed", "tagged")
	if lead == 0 || r.is(i+lead, "to", "for", "in", "off", "and", "out") {
		return 0, ""
	}
	for at := i + lead; at < i+lead+3; at++ {
		if n, text := r.dots(at); n > 0 {
			return at + n - i, text
		}
	}
	end := i + lead
	for end < len(r.w) && end < i+lead+4 && r.free(end).text != "" && !r.at(end).breaks() && !r.is(end, "and", "in", "tray") {
		end++
	}
	if end == i+lead {
		return 0, ""
	}
	return end - i, r.raw(i+lead, end)
}

// figure prints a number with at most some decimals.
func figure(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	return strings.TrimSuffix(strings.TrimSuffix(text, "0"), ".")
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return itoa(n) + " " + many
}
