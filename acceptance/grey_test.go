package acceptance_test

import (
	"fmt"
	"image"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"matchmark/internal/trial"
)

// state is one thing a page shows in two ways or more: the element, and scripts
// that put it into each.
type state struct {
	what, path, css string
	ways            map[string]string // name of the way → script on e, the element
}

// states are what a page tells apart without words as well as with them.
var states = []state{
	{"button of a word on a part", "m/codlin/fits", ".calls button", map[string]string{"pressed": "e.setAttribute('aria-pressed','true')", "not": "e.setAttribute('aria-pressed','false')"}},
	{"page of the nav", "m/codlin", ".top nav a", map[string]string{"here": "e.setAttribute('aria-current','page')", "not": "e.removeAttribute('aria-current')"}},
	{"page of the phone's bar", "m/codlin?phone", ".bar nav a", map[string]string{"here": "e.setAttribute('aria-current','page')", "not": "e.removeAttribute('aria-current')"}},
	{"choice of a list", "m/codlin/fits", ".filters .btn", map[string]string{"here": "e.setAttribute('aria-current','true')", "not": "e.removeAttribute('aria-current')"}},
	{"kit of a list", "m/codlin/figures", ".asm", map[string]string{"here": "e.setAttribute('aria-current','true')", "not": "e.removeAttribute('aria-current')"}},
	{"tick", "m/codlin/buy", "label.tick input[type=checkbox]", map[string]string{"on": "e.checked=true", "off": "e.checked=false"}},
	{"first job", "m/codlin", ".jobs .job", map[string]string{"here": "e.classList.add('here')", "not": "e.classList.remove('here')"}},
	{"hatch of a hold", "m/codlin", ".held .hatch", map[string]string{"held": "e.hidden=false", "not": "e.replaceChildren()"}},
	{"limit in its window", "m/codlin/fits", "svg.window", map[string]string{"with": "e.hidden=false", "without limit": "e.querySelectorAll('.limit,.beyond').forEach(x => x.remove())"}},
}

// apart is the least share of dots in which two ways must differ. The dots that
// count are those on which either way draws: blank ground round a mark says
// nothing, and would make the share depend on how large it is cut out.
const apart = 0.10

// TestCheck19: Forced greyscale and forced-colors: every verdict and state
// still tells apart (screenshot hash of each mark differs by >= 10 % of pixels).
func TestCheck19(t *testing.T) {
	holds(t, 19)
	t.Parallel()
	s := trial.Serve(t, t.TempDir())
	tab := trial.NewTab(t, 1440, 900)
	for name, set := range map[string]func(){
		"grey, blue": func() { tab.Ground(s.URL, "blue"); grey(t, tab, true) },
		"grey, film": func() { tab.Ground(s.URL, "film"); grey(t, tab, true) },
		"forced":     func() { grey(t, tab, false); tab.Media("forced-colors", "active") },
	} {
		tab.Media("forced-colors", "")
		set()
		marksApart(t, tab, s.URL, name)
		for _, st := range states {
			width := int64(1440)
			if strings.HasSuffix(st.path, "?phone") {
				width = 390
			}
			tab.Size(width, 900)
			tab.Open(s.URL + strings.TrimSuffix(st.path, "?phone"))
			if !trial.Ask[bool](tab, fmt.Sprintf("document.querySelector(%q) !== null", st.css)) {
				t.Errorf("%s: %s shows no %s", name, st.path, st.what)
				continue
			}
			seen := map[string]image.Image{}
			for way, script := range st.ways {
				tab.Open(s.URL + strings.TrimSuffix(st.path, "?phone"))
				trial.Ask[bool](tab, fmt.Sprintf("(e => { document.activeElement.blur(); %s; return true })(document.querySelector(%q))", script, st.css))
				seen[way] = tab.Part(st.css, 2)
			}
			tellApart(t, name+", "+st.what, seen)
		}
	}
}

// marksApart looks at the four verdicts on the pages that show them, and at the
// lines of state in the machine's legend.
func marksApart(t *testing.T, tab *trial.Tab, base, name string) {
	t.Helper()
	tab.Size(1440, 900)
	const label = `(() => { for (const m of document.querySelectorAll('.tag svg.mark')) {
		const word = ['goes back', 'make good', 'renew', 'not judged'].find(w => m.closest('.tag').innerText.toLowerCase().includes(w))
		if (word) m.setAttribute('data-verdict', word) }
		return true })()`
	verdicts := map[string]image.Image{}
	for _, path := range []string{"m/codlin/fits", "m/codlin/fits?v=sound", "m/codlin/fits?v=unread"} {
		tab.Open(base + path)
		trial.Ask[bool](tab, label)
		for _, word := range []string{"goes back", "make good", "renew", "not judged"} {
			css := fmt.Sprintf("svg[data-verdict=%q]", word)
			if verdicts[word] == nil && trial.Ask[bool](tab, fmt.Sprintf("document.querySelector(%q) !== null", css)) {
				verdicts[word] = tab.Part(css, 2)
			}
		}
	}
	if len(verdicts) != 4 {
		t.Errorf("%s: %d of 4 verdicts were found", name, len(verdicts))
	}
	tellApart(t, name+", verdict", verdicts)

	tab.Open(base + "m/codlin/machine")
	lines := map[string]image.Image{}
	for i, word := range trial.Ask[[]string](tab, "[...document.querySelectorAll('.legend li')].map((li, i) => { li.querySelector('svg').setAttribute('data-nth', i); return li.innerText.trim() })") {
		lines[word] = tab.Part(fmt.Sprintf(".legend svg[data-nth=\"%d\"]", i), 2)
	}
	if len(lines) < 5 {
		t.Errorf("%s: the legend has %d lines of state", name, len(lines))
	}
	tellApart(t, name+", line of state", lines)
}

// tellApart compares each way with each other.
func tellApart(t *testing.T, what string, seen map[string]image.Image) {
	t.Helper()
	for a, p := range seen {
		for b, q := range seen {
			if a >= b {
				continue
			}
			switch got := inkApart(p, q); {
			case got < 0:
				t.Errorf("%s: %s or %s draws nothing", what, a, b)
			case got < apart:
				t.Errorf("%s: %s and %s differ in %.0f %% of what they draw, want %.0f %%", what, a, b, 100*got, 100*apart)
			}
		}
	}
}

// inkApart is the share of drawn dots in which two pictures differ by more than
// a tenth of the scale of grey; -1 where nothing is drawn. The ground is the
// commonest shade of both.
func inkApart(p, q image.Image) float64 {
	w, h := max(p.Bounds().Dx(), q.Bounds().Dx()), max(p.Bounds().Dy(), q.Bounds().Dy())
	var count [256]int
	for y := range h {
		for x := range w {
			count[shade(p, x, y)]++
			count[shade(q, x, y)]++
		}
	}
	ground := slices.Index(count[:], slices.Max(count[:]))
	ink, differ := 0, 0
	for y := range h {
		for x := range w {
			a, b := shade(p, x, y), shade(q, x, y)
			if off(a, ground) || off(b, ground) {
				ink++
			}
			if off(a, b) {
				differ++
			}
		}
	}
	if ink == 0 {
		return -1
	}
	return float64(differ) / float64(max(ink, differ))
}

func off(a, b int) bool { return max(a-b, b-a) > 25 }

// shade is the grey of a dot, 0 to 255; outside the picture, its corner's.
func shade(m image.Image, x, y int) int {
	at := image.Pt(x, y).Add(m.Bounds().Min)
	if !at.In(m.Bounds()) {
		at = m.Bounds().Min
	}
	r, g, b, _ := m.At(at.X, at.Y).RGBA()
	return int(299*r+587*g+114*b) / 1000 >> 8
}

// grey takes all colour out of what the tab shows, or gives it back.
func grey(t *testing.T, tab *trial.Tab, yes bool) {
	t.Helper()
	kind := emulation.SetEmulatedVisionDeficiencyTypeNone
	if yes {
		kind = emulation.SetEmulatedVisionDeficiencyTypeAchromatopsia
	}
	if _, err := chromedp.Call(tab.Ctx, emulation.SetEmulatedVisionDeficiency, emulation.SetEmulatedVisionDeficiencyParams{Type: kind}); err != nil {
		t.Fatal(err)
	}
}

// TestInkApartBites: the same mark twice does not tell apart, a line and a line
// with gaps does.
func TestInkApartBites(t *testing.T) {
	line := func(gap int) image.Image {
		m := image.NewGray(image.Rect(0, 0, 40, 20))
		for x := range 40 {
			if gap == 0 || x%gap != 0 {
				m.Pix[10*m.Stride+x] = 255
			}
		}
		return m
	}
	if got := inkApart(line(0), line(0)); got != 0 {
		t.Errorf("a line differs from itself by %g", got)
	}
	if got := inkApart(line(0), line(4)); got != 0.25 {
		t.Errorf("a line with each fourth dot missing differs by %g, want 0.25", got)
	}
	if got := inkApart(image.NewGray(image.Rect(0, 0, 4, 4)), image.NewGray(image.Rect(0, 0, 4, 4))); got != -1 {
		t.Errorf("nothing drawn gives %g", got)
	}
}
