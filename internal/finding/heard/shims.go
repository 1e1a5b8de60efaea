package heard

import (
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/quantity"
)

func itoa(n int) string { return strconv.Itoa(n) }

// thickest is the thickest shim that is taken for one, mm: the kits know none
// near it.
const thickest = 10

// sideWords say where a shim or a bolt sat.
var sideWords = []string{"left", "right", "front", "rear", "back", "top", "bottom", "inner", "outer", "upper", "lower", "lh", "rh", "inside", "outside", "nearside", "offside", "middle"}

// shims reads every set of shims in the line.
func (r *reader) shims() {
	for i := range r.w {
		if !isShim(r.free(i).text) {
			continue
		}
		from, count, ahead := r.beforeShim(i)
		at := i + 1
		for r.is(at, "pack", "packs", "of", ":", "at", "are", "were", "is", "was", "each", "total", "measured", "about", "=") {
			at++
		}
		where, to := r.where(at)
		if _, n := r.thickness(to); n > 0 && to > at {
			at = to
		} else {
			where = ""
		}
		after, end := r.listOfShims(at)
		for k := range after {
			if after[k].where == "" {
				after[k].where = where
			}
		}
		if len(after) == 0 {
			end = i + 1
			for r.is(end, "pack", "packs") {
				end++
			}
		}
		r.keepShims(from, end, count, ahead, after)
	}
}

func isShim(text string) bool {
	return slices.Contains([]string{"shim", "shims", "shimms", "shimm", "chim", "chims", "shin", "shins"}, text)
}

// measured is one thickness of a list.
type measured struct {
	mm    float64
	count int // 0 where it was not said
	where string
	typed string
	word  int
}

// beforeShim reads what stands in front of the word: "2 shims", "two 0.3 mm
// shims", "1 x 0.5 and 2 x 0.1 shims".
func (r *reader) beforeShim(i int) (from, count int, list []measured) {
	from = i
	for r.is(from-1, "steel", "brass", "thin", "thick", "thickness", "paper", "of", "little") {
		from--
	}
	for from > 0 {
		m, start := r.thicknessEnding(from)
		if start < 0 {
			break
		}
		list = append([]measured{m}, list...)
		from = start
		if !r.is(from-1, "and", "+", "&") {
			break
		}
		if _, more := r.thicknessEnding(from - 1); more < 0 {
			break
		}
		from--
	}
	if len(list) > 0 {
		return from, 0, list
	}
	at := from - 1
	if r.is(at, "off", "x") {
		at--
	}
	switch c := r.free(at).count(); {
	case c > 0 && c < 100:
		return at, c, nil
	case r.is(at, "to", "too"):
		return at, 2, nil
	case r.is(at, "a", "single"):
		return at, 1, nil
	case r.is(at, "no", "zero"): // "no shims" is said, and left in the note
		return from, 0, nil
	}
	return from, 0, nil
}

// thicknessEnding reads a thickness that ends just before word end, with its
// count if one stands there; start is -1 where there is none.
func (r *reader) thicknessEnding(end int) (m measured, start int) {
	for n := 1; n <= 2 && end-n >= 0; n++ {
		at := end - n
		if !r.free(at).number {
			continue
		}
		mm, took := r.thickness(at)
		if took != n || took == 1 && !strings.Contains(r.w[at].text, ".") {
			continue
		}
		m = measured{mm: mm, typed: r.typed(at, took), word: at}
		count := at - 1
		if r.is(count, "x", "off", "of", "at") {
			count--
		}
		if c := r.free(count).count(); c > 0 && c < 100 && (count == at-1 || count == at-2) {
			m.count, at = c, count
		}
		return m, at
	}
	return measured{}, -1
}

// thickness reads a figure with or without a unit of length; took is how many
// words, 0 where it is no thickness of a shim.
func (r *reader) thickness(i int) (mm float64, took int) {
	if !r.free(i).number {
		return 0, 0
	}
	took = 1
	text := r.w[i].text
	if u := r.free(i + 1).text; slices.Contains([]string{"mm", "mil", "millimetre", "millimetres", "millimeter", "millimeters", "thou", "thous", "inch", "in", "inches", `"`, "micron", "microns"}, u) &&
		!(u == "in" && !r.at(i+1).glued && !strings.HasPrefix(text, "0.0")) {
		took = 2
		if u == "mil" {
			u = "mm"
		}
		text += " " + u
	} else if r.is(i+1, "thousandths") {
		took, text = 2, text+" thou"
	}
	q, err := quantity.Parse(text, quantity.Length, "mm")
	if err != nil || q.Value <= 0 || q.Value > thickest || took == 1 && !strings.Contains(text, ".") && q.Value > 3 {
		return 0, 0
	}
	return q.Value, took
}

// typed is a thickness as written, a spoken one in figures.
func (r *reader) typed(i, took int) string {
	if r.w[i].said {
		text := r.w[i].text
		if took > 1 {
			text += " " + r.w[i+1].text
		}
		return text
	}
	return r.raw(i, i+took)
}

// listOfShims reads thicknesses one after the other: "0.3 left, 0.15 right",
// "1 x 0.5 + 2 x 0.1".
func (r *reader) listOfShims(at int) (list []measured, end int) {
	end = at
	for {
		next := end
		if len(list) > 0 {
			for r.is(next, "and", "+", "&", "plus", ",") {
				next++
			}
			if next == end && !r.at(end).glued && !strings.Contains(r.free(end).text, ".") {
				return list, end
			}
		}
		m, to := r.oneShim(next, len(list) > 0)
		if to == next {
			return list, end
		}
		list, end = append(list, m), to
	}
}

// oneShim reads one entry of the list; a later one needs a point or a unit, so
// that "0.3, 4 bolts" is no shim of 4 mm.
func (r *reader) oneShim(at int, later bool) (measured, int) {
	m := measured{word: at}
	i := at
	if c := r.free(i).count(); c > 0 && c < 100 && r.is(i+1, "x", "off", "of", "at") {
		if _, n := r.thickness(i + 2); n > 0 {
			m.count, i = c, i+2
		}
	} else if c > 0 && c < 20 && r.free(i+1).number && strings.Contains(r.free(i+1).text, ".") {
		m.count, i = c, i+1
	}
	mm, n := r.thickness(i)
	if n == 0 || later && n == 1 && !strings.Contains(r.w[i].text, ".") {
		return m, at
	}
	m.mm, m.typed, m.word = mm, r.typed(i, n), i
	i += n
	for r.is(i, "thick", "each", "shim", "shims", "apiece") {
		i++
	}
	m.where, i = r.where(i)
	return m, i
}

// where reads the place behind a thing: "left", "on the left", "each side",
// "under the cover".
func (r *reader) where(i int) (string, int) {
	at := i
	for r.is(at, "on", "the", "at", "in", "to") {
		at++
	}
	if n := r.phrase(at, "each side", "both sides", "either side", "each end", "both ends", "left hand side", "right hand side", "left side", "right side", "left hand", "right hand"); n > 0 {
		return strings.ToLower(r.raw(at, at+n)), at + n
	}
	if slices.Contains(sideWords, r.free(at).text) && !r.namesPart(at+1) {
		if r.is(at+1, "side", "end", "hand", "one") {
			return strings.ToLower(r.raw(at, at+2)), at + 2
		}
		return r.free(at).text, at + 1
	}
	if r.is(i, "under", "behind", "between", "beneath") {
		return r.whereabouts(i)
	}
	return "", i
}

// namesPart tells whether a side goes on with a name: "0.3 left axle" speaks of
// the left axle.
func (r *reader) namesPart(i int) bool {
	w := r.free(i)
	return w.text != "" && !w.isMark() && !w.number && !isFiller(w.text) && !isShim(w.text) &&
		!slices.Contains([]string{"side", "end", "hand", "one", "tray", "let", "marked", "broken", "missing"}, w.text)
}

// keepShims records what was said of one mention of shims.
func (r *reader) keepShims(from, end, count int, ahead, after []measured) {
	list := append(ahead, after...)
	if len(list) == 0 {
		if count > 0 {
			where, to := r.where(end)
			r.fact(Shims, from, max(end, to), plural(count, "shim", "shims")+behind(where), "no thickness was said: it stays in the note")
		}
		return
	}
	where := ""
	if len(after) == 0 {
		where, end = r.where(end)
	}
	for i, m := range list {
		n := max(m.count, 1)
		if m.count == 0 && len(list) == 1 && count > 0 {
			n = count
		}
		if m.where == "" {
			m.where = where
		}
		r.out.Shims = append(r.out.Shims, machine.Shim{ThicknessMM: m.mm, Count: n, Where: m.where, Typed: m.typed})
		if i > 0 {
			f := &r.facts[len(r.facts)-1]
			f.Text += " + " + shimText(n, m.mm, m.where)
			continue
		}
		r.fact(Shims, from, end, shimText(n, m.mm, m.where), "")
	}
	r.take(from, end, Shims)
}

func shimText(n int, mm float64, where string) string {
	text := strconv.FormatFloat(mm, 'f', 3, 64)
	text = strings.TrimSuffix(text, "0")
	return plural(n, "shim", "shims") + " " + text + " mm" + behind(where)
}

func behind(where string) string {
	if where == "" {
		return ""
	}
	return " " + where
}
