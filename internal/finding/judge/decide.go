package judge

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// ruled is what a limit makes of the candidates: the worst one and the
// probability that it keeps to the limit.
type ruled struct {
	worst     int
	p         float64
	verdict   Verdict
	corrected *metrology.Estimate // set where noise in a spread was taken out
	stepped   float64             // probability with the gauge's steps against it, where they forbid sound; else 0
}

// hold puts every candidate against bounds and takes the worst: the least
// likely to keep to them, of equals the one nearest to or farthest past.
// Method: JCGM 106:2012 clause 7; sound from 0.95, worn up to 0.05.
//
// The level is that of each point. A part with several points at its limit has
// several chances of one of them reading past it: of six points all within a
// few uncertainties of the limit 5 to 10 % are called worn, of parts up to
// 0.020 mm within it under 1 % (TestOutOfLimitsJudgedSound prints it). The
// points are not held to a stricter level for it: that would miss worn parts.
func hold(list []candidate, low, high float64) (ruled, error) {
	out := ruled{p: math.Inf(1)}
	lowest, nearest := math.Inf(1), math.Inf(1)
	for i, c := range list {
		p, err := metrology.Conform(c.est, low, high)
		if err != nil {
			return out, err
		}
		margin := min(c.est.Value-low, high-c.est.Value)
		p, fixed := c.withoutNoise(p, low, high)
		p, stepped := c.againstSteps(p, low, high)
		out.p = min(out.p, p)
		alike := math.Round(p * 1e9) // in the far tails a point is no worse for a shorter tail
		if alike < lowest || alike == lowest && margin < nearest {
			out.worst, lowest, nearest, out.corrected, out.stepped = i, alike, margin, fixed, stepped
		}
	}
	out.verdict = verdictOf(out.p)
	return out, nil
}

func verdictOf(p float64) Verdict {
	switch metrology.Decide(p, metrology.DefaultAccept, metrology.DefaultReject) {
	case metrology.Sound:
		return Sound
	case metrology.Worn:
		return Worn
	}
	return Doubtful
}

// decide fills in the verdict, the worst value and the words.
func (b *bench) decide(f *Finding, s scale, got measured, lim limits) {
	switch {
	case len(got.list) == 0:
		f.Sentence, f.Settle = unread(f, got)
		return
	case lim.ruling < 0 || lim.list[lim.ruling].crossed:
		unlimited(f, got, lim)
		return
	}
	rule := lim.list[lim.ruling]
	r, err := hold(got.list, rule.Low, rule.High)
	if err != nil {
		f.note(fmt.Sprintf("cannot be judged: %v", err))
		f.Sentence, f.Settle = unread(f, got)
		return
	}
	if (len(got.missing) > 0 || got.wanted != "") && r.verdict != Worn {
		f.Sentence, f.Settle = unread(f, got)
		return
	}
	worst := got.list[r.worst]
	f.Verdict, f.P = r.verdict, r.p
	f.Value, f.U, f.At = worst.est.Value, worst.est.U, worst.at
	if got.odd != "" && f.Verdict == Sound {
		f.Verdict = Doubtful
	}
	f.Disagree = disagree(f, got.list, lim)
	f.note(b.budgetWords(worst, s)...)
	f.note(odds(r, worst, s, got.step))
	f.Sentence = verdictWords(f, got, worst.count, rule)
	if f.Verdict == Doubtful {
		f.Settle = b.settle(s, got, worst, rule)
	}
}

// disagree asks whether another limit would give another verdict, and says
// which.
func disagree(f *Finding, list []candidate, lim limits) bool {
	differs := false
	for i, other := range lim.list {
		if i == lim.ruling || other.Missing != "" {
			continue
		}
		r, err := hold(list, other.Low, other.High)
		if err == nil && r.verdict != f.Verdict {
			differs = true
			f.note(fmt.Sprintf("by the limit of %s%s it would be %s", other.From, bracketed(other.Source), r.verdict))
		}
	}
	return differs
}

// unlimited shows the value of a check that nothing judges: its largest, for
// most figures grow with wear.
func unlimited(f *Finding, got measured, lim limits) {
	if len(got.missing) > 0 || got.wanted != "" {
		f.Sentence, f.Settle = unread(f, got)
		return
	}
	worst := got.list[0]
	for _, c := range got.list[1:] {
		if c.est.Value > worst.est.Value {
			worst = c
		}
	}
	f.Verdict = NoLimit
	f.Value, f.U, f.At = worst.est.Value, worst.est.U, worst.at
	f.Sentence = valueWords(f, got.step, worst.count) + " No limit to judge it by."
	f.Settle = "Enter a limit and where it comes from."
	if lim.wanted != "" {
		f.Settle = capital(lim.wanted) + "."
	}
}
