package identify

import (
	"fmt"

	spur "matchmark/internal/trade/gear"
)

// say adds the profile shift to the likeliest racks, and what next.
func (t tooth) say(ans *Answer, shifts map[string]shift) {
	for i := 0; i < len(ans.Ranked) && i < explained; i++ {
		c := &ans.Ranked[i]
		m, alpha := rack(c.Item)
		if t.hasW && t.hasW1 {
			c.Why = fmt.Sprintf("spans differ by %s, this rack by %s", num(t.wk1.Value-t.wk.Value), num(spur.BasePitch(m, alpha)))
		}
		x, known := shifts[c.Item.Designation]
		if !known || !t.hasW {
			continue
		}
		c.Found = []Figure{{"profile shift x", x.mean, x.sd}}
		if c.Why != "" {
			c.Why += "; "
		}
		c.Why += fmt.Sprintf("profile shift %.2f ± %.2f", x.mean, x.sd)
	}
	if !ans.Settled {
		ans.Next = t.missing()
	}
	ans.Sentence = sentence(ans)
}

// missing names the reading that tells most about a gear: the second span, then
// the tip diameter. By rule, not by entropy.
func (t tooth) missing() string {
	switch {
	case t.z == 0:
		return gearDims[0].How
	case !t.hasW:
		return gearDims[2].How
	case !t.hasW1:
		return gearDims[3].How
	case !t.hasTip:
		return gearDims[4].How
	}
	return ""
}
