package acceptance_test

import (
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"fmt"
	"testing"

	"matchmark/internal/trial"
)

//go:embed axe/axe.min.js
var axeScript string

const axeSum = "29348999450cdf2849a8e70b7912fc2da85a849da39c0d0d5394f51d4a9ed95c"

// TestAxeIsUnaltered: the vendored file is that of the npm package axe-core
// 4.14.1.
func TestAxeIsUnaltered(t *testing.T) {
	sum := sha256.Sum256([]byte(axeScript))
	if got := hex.EncodeToString(sum[:]); got != axeSum {
		t.Errorf("axe.min.js has SHA-256 %s, want %s", got, axeSum)
	}
}

// axeRun asks for WCAG 2.0 to 2.2 A and AA, contrast by AAA and the size of
// targets.
const axeRun = `axe.run(document, {resultTypes: ['violations'], iframes: false, preload: false,
  runOnly: {type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']},
  rules: {'color-contrast-enhanced': {enabled: true}, 'target-size': {enabled: true}}})
.then(r => r.violations.map(v => ({id: v.id, help: v.help, on: v.nodes.map(n => n.target.join(' ') + ': ' + n.any.concat(n.all, n.none).map(c => c.message).join('; '))})))`

type violation struct {
	ID   string   `json:"id"`
	Help string   `json:"help"`
	On   []string `json:"on"`
}

// axe looks at the page as it stands.
func axe(tab *trial.Tab) []fault {
	var out []fault
	for _, v := range trial.Ask[[]violation](tab, axeRun) {
		for _, on := range v.On {
			out = append(out, fault{Check: 1, What: fmt.Sprintf("%s: %s", v.ID, on)})
		}
	}
	return out
}

// TestCheck01: axe (A, AA, AAA contrast, target-size) 0 violations: every page
// x Blue/Film x 360, 390, 1024, 1440.
func TestCheck01(t *testing.T) {
	holds(t, 1)
	surveyed(t).holdTo(t, 1)
}

// TestAxeBites: it finds what is wrong with a page made wrong.
func TestAxeBites(t *testing.T) {
	tab := trial.NewTab(t, 390, 844)
	tab.Open("data:text/html,<title>T</title><body style='background:%23fff'><img src=x><p style='color:%23777'>pale</p><p style='color:%23666'>paler than wanted</p><button style='width:10px;height:10px'></button><button style='width:10px;height:10px'></button>")
	trial.Ask[bool](tab, axeScript+";true")
	found := map[string]bool{}
	for _, v := range trial.Ask[[]violation](tab, axeRun) {
		found[v.ID] = true
	}
	for _, want := range []string{"html-has-lang", "image-alt", "button-name", "color-contrast-enhanced", "target-size"} {
		if !found[want] {
			t.Errorf("%s is not found on a page made wrong; found %v", want, found)
		}
	}
}
