// Package caution keeps the warnings that go with kinds of step and of parts,
// the life gates, and what no measurement can give back.
//
// The words are this program's own and short. Most are common practice; a
// publication is named only where its title has been read, and never stands
// for a maker's limit or for the law of the place. The package cannot detect
// a hazard that nobody wrote into a kit.
package caution

import (
	"fmt"
	"slices"
)

// Caution is one warning, ready to be shown with a step.
type Caution struct {
	Hazard      string // the word of the kits: "jacking"
	Text        string // one to three short sentences
	DeferTo     string // who knows better, empty where nobody in particular
	Publication string // number and title as read, empty where none was read
}

// For gives the cautions of a step with these hazards: the worst first, each
// once. Act is what the step does, in the words of finding/sequence ("open",
// "close", "clean", "test" …); it adds a sentence, and never takes one away.
// Some hazards bring others: nobody lifts, splits or starts alone.
//
// A word that nobody has written about still gets a caution that says so, so
// no hazard falls silent. Cost: the length of the list of words.
func For(hazards []string, act string) []Caution {
	wanted := withCompany(hazards)
	var out []Caution
	for _, w := range warnings {
		if slices.Contains(wanted, w.hazard) {
			out = append(out, w.caution(act))
		}
	}
	for _, h := range wanted {
		if _, ok := find(h); !ok {
			out = append(out, unwritten(h))
		}
	}
	return out
}

// Of gives the caution of one hazard; ok is false where none is written.
func Of(hazard string) (c Caution, ok bool) {
	w, ok := find(hazard)
	if !ok {
		return unwritten(hazard), false
	}
	return w.caution(""), true
}

// Hazards lists the words with a caution, the worst first.
func Hazards() []string {
	out := make([]string, len(warnings))
	for i, w := range warnings {
		out[i] = w.hazard
	}
	return out
}

// warning is a caution as kept: what it says always, and at some acts first.
type warning struct {
	hazard  string
	text    string
	acts    map[string]string
	company []string // hazards that come with this one
	deferTo string
	paper   string // publication as shown
	seen    string // where its title was read; a paper without it is not shown
}

func (w warning) caution(act string) Caution {
	c := Caution{Hazard: w.hazard, Text: w.text, DeferTo: w.deferTo}
	if first := w.acts[act]; first != "" {
		c.Text = first + " " + c.Text
	}
	if w.seen != "" {
		c.Publication = w.paper
	}
	return c
}

func unwritten(hazard string) Caution {
	return Caution{Hazard: hazard, DeferTo: "someone trained for it",
		Text: fmt.Sprintf("No caution has been written for %q. Stop and ask before going on.", hazard)}
}

func find(hazard string) (warning, bool) {
	for _, w := range warnings {
		if w.hazard == hazard {
			return w, true
		}
	}
	return warning{}, false
}

// withCompany adds the hazards that come with others, sorted, each once.
func withCompany(hazards []string) []string {
	out := slices.Clone(hazards)
	for _, h := range hazards {
		w, _ := find(h)
		out = append(out, w.company...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}
