package web

import (
	"matchmark/internal/bench"
	"matchmark/internal/finding/sequence"
	"matchmark/internal/trade/spelling"
)

// clashesOf puts each contradiction in a mechanic's words, with what would
// take one of its words back. Nothing is ever dropped by itself.
func clashesOf(v *bench.View) []clashRow {
	var out []clashRow
	for _, c := range v.Plan().Contradictions {
		row := clashRow{Ask: c.Ask}
		for _, claim := range c.Claims {
			row.Sources = append(row.Sources, claimOf(v, claim))
		}
		for _, s := range c.Steps {
			row.Stuck = append(row.Stuck, s.Name)
		}
		out = append(out, row)
	}
	return out
}

func claimOf(v *bench.View, c sequence.Claim) clashSource {
	base := "/m/" + escape(string(v.ID))
	s := clashSource{Words: spelling.Head(c.Words) + ".", Sure: string(c.Certainty) + ", " + string(c.Evidence), Entry: string(c.Withdraw), Photo: photoLink(base, c.Photo)}
	for _, d := range c.Deny {
		s.Deny = append(s.Deny, denyForm{At: jointAddress(base, d.Joint), Blocker: string(d.Blocker), Why: d.Why,
			Words: spelling.Head(spelling.Inside(jointName(v.Machine, d.Blocker))) + " is not in the way of " + spelling.Inside(jointName(v.Machine, d.Joint))})
	}
	return s
}
