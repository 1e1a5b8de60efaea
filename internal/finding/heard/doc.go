// Package heard reads one line said over a removal, "4 M8x25 front cover, 2
// shims 0.3 left, tray 14", and gives what was understood: fasteners, shims,
// tray, match mark, the torque it let go at, what was in the way, and which
// joint of the machine is meant, ranked. It is pure.
//
// Nothing of the line is lost: every part of it is named as understood or as
// left over, and the whole line is kept as the note beside what it meant.
//
// It cannot know that a word was misheard as another word of the trade, nor
// tell which of two like joints is meant where the line does not say; it then
// ranks them and the person chooses. Numbers with units are read by
// trade/quantity; a shim without a unit is in mm and shown so, a torque without
// one is taken for N·m and doubted.
package heard

import "matchmark/internal/machine"

// Sort says what a piece of the line is.
type Sort string

const (
	Fasteners Sort = "fasteners"
	Shims     Sort = "shims"
	Tray      Sort = "tray"
	Mark      Sort = "match mark"
	LetGo     Sort = "let go at"
	Way       Sort = "in the way"
	Name      Sort = "name" // names the joint or its place
	Between   Sort = ""     // blanks, points and small words
	Left      Sort = "left" // not understood
)

// Piece is a run of the line, in bytes from From up to To.
type Piece struct {
	Sort     Sort
	From, To int
}

// Fact is one thing understood, in trade words, with where it was said.
type Fact struct {
	Sort     Sort
	Text     string // "4 bolts M8x25"
	From, To int
	Doubt    string // what was taken for granted; mostly empty
}

// Candidate is a joint that may be meant. The weights of all candidates and of
// None sum to 1; they rank and are no measured odds.
type Candidate struct {
	Joint  *machine.Joint
	Weight float64
	hit    []int // which words of the line name it
}

// PartCandidate is a part that may be meant.
type PartCandidate struct {
	Part   *machine.Part
	Weight float64
}

// Heard is what was understood of a line.
type Heard struct {
	Line   string
	Joints []Candidate     // best first, at most eight
	Parts  []PartCandidate // best first, at most four
	None   float64         // weight of "it names no joint"

	Facts     []Fact // in the order said
	Fasteners []machine.Fastener
	Shims     []machine.Shim
	Tray      string
	MatchMark string
	LetGo     *machine.Amount  // N·m
	Way       []*machine.Joint // was in the way of it
	Off       []*machine.Part  // of the first candidate, those named

	Pieces []Piece // the whole line without a gap, as the first candidate explains it
}

// clear is the weight from which one joint is taken to be meant; below it the
// person is asked which.
const clear = 0.2

// Joint is the joint most likely meant, nil where the line names none clearly.
func (h Heard) Joint() *machine.Joint {
	if len(h.Joints) == 0 || h.Joints[0].Weight < max(h.None, clear) {
		return nil
	}
	return h.Joints[0].Joint
}

// Unheard lists the runs that were not understood, as typed.
func (h Heard) Unheard() []string {
	var out []string
	for _, p := range h.Pieces {
		if p.Sort == Left {
			out = append(out, h.Line[p.From:p.To])
		}
	}
	return out
}
