package pairing

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/quantity"
)

// say puts a proposal into words: what goes where, and what it gains.
func (p *Proposal) say() string {
	if p.Moves == 0 {
		return fmt.Sprintf("Leave each %s at its own place: the worst pair keeps its limits at %s, and no other order does better by %.0f %% or more.", p.Moving, quantity.Percent(p.Now), 100*gainful)
	}
	var moves []string
	for _, x := range p.Pairs {
		if x.At != x.From {
			moves = append(moves, fmt.Sprintf("%s to place %s", x.Part, x.At))
		}
	}
	return fmt.Sprintf("%s: the worst pair then keeps its limits at %s instead of %s. Parts that have run in together are given up for it; look for match marks, weights and hand first.", strings.Join(moves, ", "), quantity.Percent(p.Best), quantity.Percent(p.Now))
}

// limits names where the limits of a group come from, each once.
func limits(judged judge.Findings, rows [][]*machine.Check) string {
	var out []string
	for _, row := range rows {
		for _, c := range row {
			f := judged.Of(c.ID)
			if f == nil {
				continue
			}
			words := string(f.Limit.From)
			if f.Limit.Source != "" {
				words += ", " + f.Limit.Source
			}
			if !slices.Contains(out, words) {
				out = append(out, words)
			}
		}
	}
	return strings.Join(out, "; ")
}
