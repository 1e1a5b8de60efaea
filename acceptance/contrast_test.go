package acceptance_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"matchmark/internal/trial"
)

// contrast of two colours "#RRGGBB". WCAG 2.2, definition of contrast ratio.
func contrast(a, b string) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func luminance(hex string) float64 {
	var c [3]float64
	for i := range c {
		n, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		if err != nil {
			return math.NaN()
		}
		v := float64(n) / 255
		if v <= 0.04045 {
			c[i] = v / 12.92
		} else {
			c[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2]
}

// TestContrastRatio: black on white is 21 to 1, and the same colour twice 1,
// by the definition; #777777 on white is 4.48, as the checkers print it.
func TestContrastRatio(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{{"#000000", "#FFFFFF", 21}, {"#1B2E75", "#1B2E75", 1}, {"#777777", "#FFFFFF", 4.48}} {
		if got := contrast(c.a, c.b); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%s on %s is %.3f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}

var (
	rootBlock = regexp.MustCompile(`:root(\[data-ground=film\])?\{([^}]*)\}`)
	hexToken  = regexp.MustCompile(`--([\w-]+):(#[0-9A-Fa-f]{6})\b`)
	sheetLink = regexp.MustCompile(`<link rel="stylesheet" href="([^"]+)">`)
)

// TestCheck05: Token contrast recomputed from CSS: text >= 7, lines >= 3. Text
// stands on every surface of its ground; words on a pressed button and in the
// ring of the part one is at count as text.
func TestCheck05(t *testing.T) {
	holds(t, 5)
	s := trial.Serve(t, t.TempDir())
	link := sheetLink.FindStringSubmatch(get(t, s.URL, "/").body)
	if link == nil {
		t.Fatal("the page has no style sheet")
	}
	grounds := map[string]map[string]string{}
	for _, m := range rootBlock.FindAllStringSubmatch(get(t, s.URL, link[1]).body, -1) {
		ground := "blue"
		if m[1] != "" {
			ground = "film"
		}
		tokens := map[string]string{}
		for _, h := range hexToken.FindAllStringSubmatch(m[2], -1) {
			tokens[h[1]] = h[2]
		}
		if grounds[ground] == nil && len(tokens) > 0 {
			grounds[ground] = tokens
		}
	}
	pairs := 0
	hold := func(ground, on, mark string, want float64) {
		tokens := grounds[ground]
		if tokens[on] == "" || tokens[mark] == "" {
			t.Errorf("%s: no token --%s or --%s", ground, on, mark)
			return
		}
		pairs++
		got := contrast(tokens[on], tokens[mark])
		t.Logf("%s: --%s on --%s %.1f", ground, mark, on, got)
		if got < want {
			t.Errorf("%s: --%s %s on --%s %s has %.2f, want %.0f", ground, mark, tokens[mark], on, tokens[on], got, want)
		}
	}
	for _, ground := range []string{"blue", "film"} {
		for _, surface := range strings.Fields("ground deep lift") {
			hold(ground, surface, "text", 7)
			hold(ground, surface, "text2", 7)
			hold(ground, surface, "line", 3)
			hold(ground, surface, "here", 3)
			hold(ground, surface, "press", 3)
		}
		hold(ground, "press", "on-press", 7)
		hold(ground, "here", "deep", 7)
	}
	if pairs != 34 {
		t.Errorf("%d pairs were compared, want 34", pairs)
	}
}
