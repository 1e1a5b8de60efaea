package sequence

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// Contradiction is a smallest set of words of the record that cannot all hold:
// dropping any one of them frees the steps. None is dropped; the plan goes on
// around the steps, and asks.
type Contradiction struct {
	Claims []Claim // each waits for the next, the weakest last
	Steps  []*Step // not offered while it stands
	Words  string  // "Cover waits for shaft (…); shaft waits for fork (…); … One is wrong; the weakest is the last."
	Ask    string  // what to settle first
}

// Claim is one of its rules, with what would take it back: an entry to
// withdraw, or the kit's word to deny. Neither is offered for what follows
// from the meaning of the words.
type Claim struct {
	Rule
	Withdraw machine.EntryID
	Deny     []machine.ReachDenied
}

// tellContradictions puts the cores in words.
func (p *Plan) tellContradictions() {
	for _, c := range p.cores {
		var out Contradiction
		var said []string
		for _, r := range p.chain(c) {
			claim := Claim{Rule: p.export(&p.rules[r])}
			switch p.rules[r].evidence {
			case machine.Observed, machine.SaidSo:
				claim.Withdraw = claim.Stamp.Entry
			case machine.Geometry:
				claim.Deny = p.denials(&p.rules[r])
			}
			out.Claims = append(out.Claims, claim)
			said = append(said, claim.Words)
		}
		for i := 1; i < len(said); i++ {
			said[i] = spelling.Inside(said[i])
		}
		out.Words = strings.Join(shorten(said), "; ") + "."
		last := out.Claims[len(out.Claims)-1]
		if len(out.Claims) > 1 {
			out.Words += " One is wrong; the weakest is the last."
		}
		out.Ask = "Is it right that " + spelling.Inside(last.Words) + "?"
		for _, s := range c.steps {
			out.Steps = append(out.Steps, &p.Steps[s])
		}
		p.Contradictions = append(p.Contradictions, out)
	}
}

// shorten keeps the first and last links of a long chain and counts the rest.
func shorten(said []string) []string {
	if len(said) <= 2*most {
		return said
	}
	n := len(said) - most
	return slices.Concat(said[:most-1], []string{fmt.Sprintf("and so on over %d more", n)}, said[len(said)-1:])
}

// chain puts the rules of a core so that each speaks of a step that the one
// before waits for, and the weakest comes last.
func (p *Plan) chain(c core) []int {
	n := len(c.rules) - 1
	weakest, rest := c.rules[n], slices.Clone(c.rules[:n])
	out := []int{}
	for from := p.waited(weakest); len(rest) > 0; from = p.waited(out[len(out)-1]) {
		i := slices.IndexFunc(rest, func(r int) bool {
			return slices.ContainsFunc(p.waiting(r), func(s int) bool { return slices.Contains(from, s) })
		})
		i = max(i, 0)
		out = append(out, rest[i])
		rest = slices.Delete(rest, i, i+1)
	}
	return append(out, weakest)
}

// waiting and waited are the two sides of a rule.
func (p *Plan) waiting(r int) []int {
	if p.rules[r].before {
		return slices.Concat(p.rules[r].any...)
	}
	return []int{p.rules[r].step}
}

func (p *Plan) waited(r int) []int {
	if p.rules[r].before {
		return []int{p.rules[r].step}
	}
	return slices.Concat(p.rules[r].any...)
}

// denials are the entries that would take the kit's word back: each joint of
// the alternatives is not in the way of the rule's joint.
func (p *Plan) denials(r *rule) []machine.ReachDenied {
	j := p.Steps[r.step].Joint
	if j == nil {
		return nil
	}
	var out []machine.ReachDenied
	for _, l := range slices.Concat(r.any...) {
		if k := p.Steps[l].Joint; k != nil {
			out = append(out, machine.ReachDenied{Joint: j.ID, Blocker: k.ID})
		}
	}
	return out
}
