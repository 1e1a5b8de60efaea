package judge

import (
	"fmt"
	"math"
	"strings"

	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/spelling"
)

// settle says what would end a doubt: naming the instrument, typing all
// figures, more repeats, or a finer instrument; or that nothing will.
func (b *bench) settle(s scale, got measured, worst candidate, rule bounds) string {
	var say []string
	if got.odd != "" {
		return capital(got.odd) + "."
	}
	if worst.coarse {
		say = append(say, "Type all figures that were read: the last one typed is what it was judged by.")
	}
	if worst.assumed != "" {
		say = append(say, capital(worst.assumed)+". Name the instrument.")
	}
	for _, t := range worst.terms {
		if t.spot.apart != "" {
			say = append(say, fmt.Sprintf("%s stands apart from its repeats%s: measure again, and withdraw it if it was a slip.", t.spot.apart, atPoint(pointWords(t.spot.point))))
		}
	}
	n, err := metrology.RepeatsToSettle(worst.est.Value, worst.random, worst.fixed(), rule.Low, rule.High)
	if err == nil && n > 0 && worst.random > 0 {
		n = max(n, worst.count+1)
		say = append(say, fmt.Sprintf("%d readings in all%s would settle it if their mean stays where it is.", n, atPoint(worst.at)))
		return strings.Join(say, " ")
	}
	if finer := b.finerGauge(s, worst, rule); finer != "" {
		say = append(say, choose(worst.gauge.ID == "", "", "More readings will not settle it; ")+finer+" would.")
		return strings.Join(say, " ")
	}
	if len(say) == 0 {
		say = append(say, "No instrument known here settles it: it lies too near the limit. Treat it as at its limit.")
	}
	return strings.Join(say, " ")
}

// finerGauge names the least exact instrument of the same kind that would end
// the doubt with one reading at the same value; empty if there is none.
func (b *bench) finerGauge(s scale, worst candidate, rule bounds) string {
	best, bestU := "", 0.0
	inside := (worst.est.Value - s.offset) / s.factor
	own := worst.gauge.Single(inside)
	for _, in := range b.rack {
		if worst.gauge.Kind == "" || in.Kind != worst.gauge.Kind || in.Unit != s.inside || in.ID == worst.gauge.ID {
			continue
		}
		single := in.Single(inside)
		if single.U >= own.U {
			continue
		}
		e := worst.est
		// The worst's own gauge makes way for the finer one.
		rest := max(0, e.U*e.U-s.factor*s.factor*own.U*own.U)
		e.U, e.Dof = metrology.SumSquares(math.Sqrt(rest), s.factor*single.U), 0
		p, err := metrology.Conform(e, rule.Low, rule.High)
		if err == nil && verdictOf(p) != Doubtful && single.U > bestU {
			best, bestU = "a reading with "+spelling.An(strings.TrimPrefix(in.Name, "a ")), single.U
		}
	}
	return best
}
