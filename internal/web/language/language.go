// Package language puts finished pages into another language. A language is a
// file: English phrases and what they are called there. A phrase may have
// places in braces, "Point {n} of {all}", which stand for anything and are put
// into the language in their turn. English is the language of the program and
// has no file; what a file does not have stays English, so that a half-done
// language is of use.
//
// What it cannot detect: a note of the user's that reads just like a phrase of
// the program. Elements that show what people typed carry translate="no".
package language

import (
	"cmp"
	"embed"
	"fmt"
	"io/fs"
	"iter"
	"path"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/pelletier/go-toml/v2"
)

//go:embed files/*.toml
var files embed.FS

// Language is one file, read. It does not change and may be used by several
// goroutines.
type Language struct {
	Code string // BCP 47: "de"
	Name string // in itself: "Deutsch"

	exact  map[string]string
	shapes []shape // most text first

	seen sync.Map // texts said before
	many atomic.Int64
}

// shape is a phrase with places.
type shape struct {
	from []string // the texts between the places; one more than there are places
	to   []piece
}

// piece of an answer: a text, or the place-th thing found.
type piece struct {
	text  string
	place int // -1 for a text
}

// Load reads all languages, by code. It panics where an embedded file is
// broken, which a test catches before a release does.
func Load() []*Language {
	names, err := fs.Glob(files, "files/*.toml") // sorted
	if err != nil {
		panic(err)
	}
	var out []*Language
	for _, name := range names {
		text, err := files.ReadFile(name)
		if err != nil {
			panic(err)
		}
		l, err := Read(text)
		if err != nil {
			panic(path.Base(name) + ": " + err.Error())
		}
		out = append(out, l)
	}
	return out
}

// Read makes a language of the text of its file. Errors name the phrase that
// cannot be used.
func Read(text []byte) (*Language, error) {
	var file struct {
		Code, Name string
		Say        map[string]string
	}
	if err := toml.Unmarshal(text, &file); err != nil {
		return nil, err
	}
	if file.Code == "" || file.Name == "" {
		return nil, fmt.Errorf("code and name of the language are missing")
	}
	l := &Language{Code: file.Code, Name: file.Name, exact: map[string]string{}}
	for from, to := range file.Say {
		if to == "" {
			return nil, fmt.Errorf("%q has no words behind it", from)
		}
		if !strings.Contains(from, "{") {
			l.exact[from] = to
			continue
		}
		s, err := shapeOf(from, to)
		if err != nil {
			return nil, err
		}
		l.shapes = append(l.shapes, s)
	}
	slices.SortFunc(l.shapes, func(a, b shape) int {
		return cmp.Or(cmp.Compare(b.weight(), a.weight()), slices.Compare(a.from, b.from))
	})
	return l, nil
}

// weight is how much text a shape has: the more, the surer it is meant.
func (s shape) weight() int { return len(strings.Join(s.from, "")) }

// shapeOf parts a phrase and its answer at their places.
func shapeOf(from, to string) (shape, error) {
	texts, names, err := places(from)
	if err != nil {
		return shape{}, fmt.Errorf("%q: %w", from, err)
	}
	s := shape{from: texts}
	if strings.Join(texts, "") == "" {
		return shape{}, fmt.Errorf("%q would stand for everything", from)
	}
	toTexts, toNames, err := places(to)
	if err != nil {
		return shape{}, fmt.Errorf("%q: %w", to, err)
	}
	for i, text := range toTexts {
		s.to = append(s.to, piece{text, -1})
		if i < len(toNames) {
			k := slices.Index(names, toNames[i])
			if k < 0 {
				return shape{}, fmt.Errorf("%q asks for {%s}, which %q does not have", to, toNames[i], from)
			}
			s.to = append(s.to, piece{"", k})
		}
	}
	return s, nil
}

// places parts a phrase: texts stand before, between and behind its places.
func places(phrase string) (texts, names []string, err error) {
	for {
		before, rest, found := strings.Cut(phrase, "{")
		texts = append(texts, before)
		if !found {
			return texts, names, nil
		}
		name, behind, closed := strings.Cut(rest, "}")
		if !closed || name == "" {
			return nil, nil, fmt.Errorf("a brace is not closed")
		}
		if len(names) > 0 && before == "" {
			return nil, nil, fmt.Errorf("two places touch")
		}
		names, phrase = append(names, name), behind
	}
}

// find gives what stands at the places of a text, nil where it has not this
// shape. Every place holds at least one character, and as few as will do.
func (s shape) find(text string) []string {
	last := len(s.from) - 1
	if len(text) < s.weight()+last || !strings.HasPrefix(text, s.from[0]) || !strings.HasSuffix(text, s.from[last]) {
		return nil
	}
	text = text[len(s.from[0]) : len(text)-len(s.from[last])]
	var found []string
	for _, next := range s.from[1:last] {
		if text == "" {
			return nil
		}
		i := strings.Index(text[1:], next)
		if i < 0 {
			return nil
		}
		found, text = append(found, text[:1+i]), text[1+i+len(next):]
	}
	if text == "" {
		return nil
	}
	return append(found, text)
}

// deepest is how many phrases may stand in one another.
const deepest = 6

// Say gives the words of the language for an English text: known as a whole,
// by its shape, sentence by sentence, or part by part between commas. all
// tells that nothing of it stayed as it was.
func (l *Language) Say(text string) (said string, all bool) { return l.say(text, deepest) }

func (l *Language) say(text string, depth int) (string, bool) {
	if to, ok := l.exact[text]; ok {
		return to, true
	}
	if !wordy(text) || depth == 0 {
		return text, !wordy(text)
	}
	if parts := sentences(text); len(parts) > 1 {
		return l.each(parts, " ", depth)
	}
	first := text
	for said, all := range l.ways(text, depth) {
		if all {
			return said, true
		}
		if first == text {
			first = said
		}
	}
	return first, false
}

// ways are the answers that a text allows, the surest first: by each shape it
// has, without its full stop, and part by part.
func (l *Language) ways(text string, depth int) iter.Seq2[string, bool] {
	return func(yield func(string, bool) bool) {
		for _, s := range l.shapes {
			if found := s.find(text); found != nil && !yield(l.put(s, found, depth)) {
				return
			}
		}
		if core, ok := strings.CutSuffix(text, "."); ok {
			if said, all := l.say(core, depth-1); !yield(said+".", all) {
				return
			}
		}
		for _, mark := range []string{"; ", ": ", ", "} {
			if parts := strings.Split(text, mark); len(parts) > 1 && !yield(l.each(parts, mark, depth)) {
				return
			}
		}
	}
}

// each says the parts of a text one by one.
func (l *Language) each(parts []string, between string, depth int) (string, bool) {
	all := true
	for i, p := range parts {
		var ok bool
		parts[i], ok = l.say(p, depth-1)
		all = all && ok
	}
	return strings.Join(parts, between), all
}

// put writes an answer with what was found at its places.
func (l *Language) put(s shape, found []string, depth int) (string, bool) {
	var out strings.Builder
	all := true
	for _, p := range s.to {
		if p.place < 0 {
			out.WriteString(p.text)
			continue
		}
		words, ok := l.say(found[p.place], depth-1)
		all = all && ok
		out.WriteString(words)
	}
	return out.String(), all
}

// sentences parts a text behind full stops that a space and a capital follow.
func sentences(text string) []string {
	var out []string
	start := 0
	for i := 0; i+2 < len(text); i++ {
		if strings.IndexByte(".?!", text[i]) >= 0 && text[i+1] == ' ' && text[i+2] >= 'A' && text[i+2] <= 'Z' {
			out, start = append(out, text[start:i+1]), i+2
		}
	}
	return append(out, text[start:])
}
