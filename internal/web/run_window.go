package web

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
)

// pointWindow is the limit window that a figure is held against while it is
// typed. Figures are as the script reads them; empty is none.
type pointWindow struct {
	Window     *window // nil where only the size is known
	Name, From string
	Here       bool
	ScaleLow   string
	ScaleHigh  string
	Low, High  string
	NewLow     string
	NewHigh    string
	Zero       string // the size without wear
	About      string // what is expected, to ask about what is far from it
}

// windowsOf gives one window for each surface of a run, or for each check read
// directly; the one of the point now shows.
func windowsOf(v *bench.View, r run, now int) []pointWindow {
	if r.Points[now].Feature == nil {
		return checkWindows(v, r, now)
	}
	surfaces := surfacesOf(r)
	here := r.Points[now]
	var out []pointWindow
	for i, room := range judge.Rooms(v.Machine, surfaces) {
		w := pointWindow{Here: surfaces[i] == here.Feature && !here.Unworn}
		about := v.Expected(surfaces[i].ID)
		if about == 0 {
			about = math.NaN() // not known
		}
		w.About = plainFigure(about)
		if room != nil {
			w.lay(room.Check, judge.Bounds{NewLow: room.NewLow, NewHigh: room.NewHigh, Low: room.Low, High: room.High, From: room.From, Source: room.Source}, "mm", room.Zero, about)
			w.Zero = plainFigure(room.Zero)
			if w.Zero != "" {
				w.sayWear()
			}
		}
		out = append(out, w)
	}
	return out
}

// checkWindows gives one window for each check of a run.
func checkWindows(v *bench.View, r run, now int) []pointWindow {
	var out []pointWindow
	for i, p := range r.Points {
		if k := windowIndex(r, i); k == len(out) {
			w := pointWindow{Here: k == windowIndex(r, now)}
			w.lay(p.Check, v.Judged().Of(p.Check.ID).Limit, p.Check.Unit)
			out = append(out, w)
		}
	}
	return out
}

// windowIndex counts the checks before the one of point i.
func windowIndex(r run, i int) int {
	n := 0
	for k := 1; k <= i; k++ {
		if r.Points[k].Check != r.Points[k-1].Check {
			n++
		}
	}
	return n
}

// lay draws the window; a limit without a figure gives none. Further figures
// that it should hold come last.
func (w *pointWindow) lay(c *machine.Check, l judge.Bounds, unit string, more ...float64) {
	absent := func(x float64) bool { return !finite(x) }
	points := slices.DeleteFunc([]float64{l.Low, l.High, l.NewLow, l.NewHigh}, absent)
	if len(points) == 0 {
		return
	}
	s := scaleOver(append(points, slices.DeleteFunc(more, absent)...))
	w.Window = boundsWindow(l, s)
	w.Window.Under = limitWords(&machine.Check{Unit: unit}, l)
	w.Name, w.From = c.Name, provenance(l)
	w.ScaleLow, w.ScaleHigh = plainFigure(s.low), plainFigure(s.high)
	w.Low, w.High, w.NewLow, w.NewHigh = plainFigure(l.Low), plainFigure(l.High), plainFigure(l.NewLow), plainFigure(l.NewHigh)
}

// sayWear names the limit a wear limit.
func (w *pointWindow) sayWear() {
	if w.Window == nil {
		return
	}
	for i, text := range w.Window.Under {
		if strings.HasPrefix(text, "limit ") {
			w.Window.Under[i] = "wear " + text
		}
	}
}

// plainFigure is a figure for the script; one that is none is empty.
func plainFigure(v float64) string {
	if !finite(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', 9, 64)
}
