package machine

import (
	"slices"
	"strings"
)

// Reckoning asks one question of the trade's arithmetic where its answer is
// wanted: at a joint, a check or a test. With gives the inputs by key, each a
// value as a fitter types it, a source such as "datum:stroke", or both, with
// the sources in braces: "{datum:driver-teeth}/{datum:driven-teeth}". Nothing is
// worked out while one of them is not known, but for those with a ? behind
// them: "datum:oil-load?".
type Reckoning struct {
	Topic string            `json:"topic"`
	Title string            `json:"title"` // what it tells here
	With  map[string]string `json:"with,omitempty"`
}

// Where an input of a reckoning gets its value from; what stands behind the
// colon is in brackets.
const (
	FromDatum   = "datum"   // a figure of the machine (its id)
	FromFeature = "feature" // a surface's size: its nominal, else as read (part/feature)
	FromMade    = "made"    // the size a surface was made to: its nominal, else what its unworn surface tells surely (part/feature)
	FromEach    = "each"    // sizes of a surface as read at every place, as a list (part/feature)
	FromCount   = "count"   // how many places a family has (the family)
	FromReading = "reading" // the latest figure of a check, in its unit (the check)
	FromRepeats = "repeats" // all its present figures, as a list (the check)
	FromEvery   = "every"   // those of a check at every place, as a list (the check)
	FromLess    = "less"    // the figure with its sign turned: above the face is less than nothing below it (the check)
	FromTight   = "tight"   // how tight a clearance check comes out: its figure below nothing (the check)
	FromThread  = "thread"  // of the bolts that came out, else the one usual there (the joint)
	FromGrade   = "grade"   // property class usual there (the joint)
	FromShims   = "shims"   // those found at the last opening, as thickness x pieces (the joint)
	FromPack    = "pack"    // how thick they are together (the joint)
)

// ReckoningSources lists the sources an input may name.
func ReckoningSources() []string {
	return []string{FromDatum, FromFeature, FromMade, FromEach, FromCount, FromReading, FromRepeats, FromEvery, FromLess, FromTight, FromThread, FromGrade, FromShims, FromPack}
}

// Piece is a part of an input: text as typed, or a source with what it names.
type Piece struct {
	Text  string
	Kind  string // empty for text
	ID    string
	Maybe bool // the answer can do without it
}

// Pieces parts an input of a reckoning. A text without sources is one piece; a
// brace that opens no source is text.
// Cost: linear in the text.
func Pieces(text string) []Piece {
	if p, ok := sourceIn(text); ok {
		return []Piece{p}
	}
	var out []Piece
	plain := ""
	for text != "" {
		before, rest, open := strings.Cut(text, "{")
		inside, after, closed := strings.Cut(rest, "}")
		p, ok := sourceIn(inside)
		plain += before
		switch {
		case !open:
			text = ""
		case closed && ok:
			if plain != "" {
				out = append(out, Piece{Text: plain})
			}
			plain, text = "", after
			out = append(out, p)
		default:
			plain, text = plain+"{", rest
		}
	}
	if plain != "" || len(out) == 0 {
		out = append(out, Piece{Text: plain})
	}
	return out
}

// sourceIn reads "datum:stroke".
func sourceIn(text string) (Piece, bool) {
	text, maybe := strings.CutSuffix(text, "?")
	kind, id, found := strings.Cut(text, ":")
	if !found || id == "" || strings.ContainsAny(id, "{}: ?") || !slices.Contains(ReckoningSources(), kind) {
		return Piece{}, false
	}
	return Piece{Kind: kind, ID: id, Maybe: maybe}, true
}

// source is a piece as it is written.
func (p Piece) source() string {
	if p.Maybe {
		return p.Kind + ":" + p.ID + "?"
	}
	return p.Kind + ":" + p.ID
}

// Written puts pieces together again.
func Written(pieces []Piece) string {
	if len(pieces) == 1 && pieces[0].Kind != "" {
		return pieces[0].source()
	}
	var b strings.Builder
	for _, p := range pieces {
		if p.Kind == "" {
			b.WriteString(p.Text)
			continue
		}
		b.WriteString("{" + p.source() + "}")
	}
	return b.String()
}
