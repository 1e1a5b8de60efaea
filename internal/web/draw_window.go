package web

import (
	"math"
	"strconv"
	"strings"

	"matchmark/internal/book/labels"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// span is a length along a drawing, in percent of its width.
type span struct{ X, W string }

// window is a limit window to draw: solid block = as new, upright = limit,
// hatch beyond, pointer = reading. Words says the same without the drawing.
type window struct {
	New          *span
	Limits       []string
	Below, Above *span // hatched: past the limit
	Read         bool
	At           string
	Spread       *span // reading ± two standard uncertainties
	Under        []string
	Words        string
}

// drawWindow lays out the window of a finding; nil where the limit has no
// figure to draw.
func drawWindow(f *judge.Finding) *window {
	if f == nil || f.Check == nil || f.Check.By == machine.ByEye || f.Check.By == machine.ByPassage {
		return nil
	}
	read := f.Verdict != judge.NotRead && f.Read > 0
	l := f.Limit
	var points []float64
	for _, p := range []float64{l.Low, l.High, l.NewLow, l.NewHigh} {
		if finite(p) {
			points = append(points, p)
		}
	}
	if len(points) == 0 {
		return nil
	}
	if read {
		points = append(points, f.Value-2*f.U, f.Value+2*f.U)
	}
	s := scaleOver(points)
	w := boundsWindow(l, s)
	w.Read = read
	if read {
		w.At = s.pos(f.Value)
		if f.U > 0 {
			w.Spread = s.between(f.Value-2*f.U, f.Value+2*f.U)
		}
	}
	w.Under = limitWords(f.Check, l)
	w.Words = strings.Join(w.Under, ", ")
	if read {
		w.Words = "Reads " + withUnit(f.Value, f.Check.Unit) + "; " + w.Words
	}
	return w
}

// boundsWindow lays out the limit without a reading.
func boundsWindow(l judge.Bounds, s scale) *window {
	w := &window{New: newBlock(l, s)}
	if finite(l.Low) {
		w.Limits = append(w.Limits, s.pos(l.Low))
		w.Below = s.between(s.low, l.Low)
	}
	if finite(l.High) {
		w.Limits = append(w.Limits, s.pos(l.High))
		w.Above = s.between(l.High, s.high)
	}
	return w
}

func finite(v float64) bool { return !math.IsInf(v, 0) && !math.IsNaN(v) }

// newBlock is the solid block; with one bound only it reaches to the nearest
// limit or the end of the drawing on the sound side.
func newBlock(l judge.Bounds, s scale) *span {
	low, high := l.NewLow, l.NewHigh
	switch {
	case finite(low) && finite(high):
	case finite(high) && finite(l.Low):
		low = l.Low
	case finite(high):
		low = s.low
	case finite(low) && finite(l.High):
		high = l.High
	case finite(low):
		high = s.high
	default:
		return nil
	}
	return s.between(low, high)
}

// limitWords are the figures under the drawing.
func limitWords(c *machine.Check, l judge.Bounds) []string {
	var out []string
	switch {
	case finite(l.NewLow) && finite(l.NewHigh):
		out = append(out, "new "+figure(l.NewLow, c.Unit)+"–"+figure(l.NewHigh, c.Unit))
	case finite(l.NewHigh):
		out = append(out, "new up to "+figure(l.NewHigh, c.Unit))
	case finite(l.NewLow):
		out = append(out, "new from "+figure(l.NewLow, c.Unit))
	}
	switch {
	case finite(l.Low) && finite(l.High):
		out = append(out, "limits "+figure(l.Low, c.Unit)+" and "+withUnit(l.High, c.Unit))
	case finite(l.High):
		out = append(out, "limit "+withUnit(l.High, c.Unit))
	case finite(l.Low):
		out = append(out, "at least "+withUnit(l.Low, c.Unit))
	}
	return out
}

// scale maps a stretch of values to 0–100 % with a margin at both ends.
type scale struct{ low, high float64 }

func scaleOver(points []float64) scale {
	low, high := points[0], points[0]
	for _, p := range points {
		low, high = min(low, p), max(high, p)
	}
	room := high - low
	if room == 0 {
		room = math.Abs(high)
	}
	if room == 0 {
		room = 1
	}
	return scale{low - 0.18*room, high + 0.18*room}
}

func (s scale) percent(v float64) float64 {
	return 100 * (min(max(v, s.low), s.high) - s.low) / (s.high - s.low)
}

func (s scale) pos(v float64) string { return number(s.percent(v)) }

// between never gives a stretch too thin to see.
func (s scale) between(a, b float64) *span {
	x, y := s.percent(a), s.percent(b)
	return &span{number(x), number(max(y-x, 0.4))}
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }

// stage is one length of the progress chain.
type stage struct {
	Name      string
	Done, All int
	Width     string // of the solid part, percent; empty at the start
	Room      bool   // not yet full: the arrow shows
}

func newStage(name string, done, all int) stage {
	s := stage{Name: name, Done: done, All: all, Room: true}
	if all > 0 && done > 0 {
		share := min(float64(done)/float64(all), 1)
		s.Width = number(94 * share)
		if share == 1 {
			s.Width, s.Room = "98", false
		}
	}
	return s
}

// dots are centre-punch marks; they only ever say which parts are mates.
type dots struct {
	Width int
	At    []int
}

func punch(n int) dots {
	d := dots{Width: n * 14}
	for i := range n {
		d.At = append(d.At, 7+14*i)
	}
	return d
}

// matchDots draws a mark that says it is dots: "2 dots", "two dots on each".
func matchDots(mark string) *dots {
	if n := labels.Dots(mark); n > 0 {
		d := punch(n)
		return &d
	}
	return nil
}
