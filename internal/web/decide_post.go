package web

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/http"
	"slices"

	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
)

// toRecord is what taking a set records: the remedy of each check on which
// nobody said a word. A check that is mended by another's remedy needs no word
// of its own.
func toRecord(m *machine.Machine, p remedy.Plan) []*machine.RemedyChosen {
	var out []*machine.RemedyChosen
	for _, c := range p.Choices {
		own, mended := m.Check(c.Of), m.Check(c.Check)
		if own == nil || own.Chosen != nil || mended == nil || mended.Chosen != nil {
			continue
		}
		if slices.ContainsFunc(out, func(b *machine.RemedyChosen) bool { return b.Check == c.Of }) {
			continue
		}
		out = append(out, &machine.RemedyChosen{Check: c.Of, Key: c.Remedy, Step: c.Step, Why: takenWhy(p.Aim) + behind(": ", c.Why)})
	}
	return out
}

// digestOf names what a set would record, so that no other set is taken than
// the one that was shown.
func digestOf(m *machine.Machine, p remedy.Plan) string {
	sum := sha256.New()
	for _, b := range toRecord(m, p) {
		fmt.Fprintf(sum, "%s|%s|%v\n", b.Check, b.Key, b.Step)
	}
	return hex.EncodeToString(sum.Sum(nil)[:8])
}

// decidePost takes a set: it records a remedy for each check without a word of
// the person's own.
func decidePost(v *visit) error {
	aim := remedy.Aim(v.typed("aim"))
	if !slices.Contains(remedy.Aims(), aim) {
		return plight{http.StatusUnprocessableEntity, "No set was chosen", "Nothing was recorded. Take one of the three sets."}
	}
	m, plan := v.view.Machine, v.view.Choices(aim)
	var bodies []machine.Body
	for _, b := range toRecord(m, plan) {
		bodies = append(bodies, b)
	}
	switch {
	case len(bodies) == 0 && len(takenSets(m)) > 0: // the same form came before
	case len(bodies) == 0:
		return plight{http.StatusUnprocessableEntity, "There is nothing to record", "Every remedy of this set is your own word already."}
	case v.typed("set") != digestOf(m, plan):
		return plight{http.StatusConflict, "The set has changed since it was shown", "Nothing was recorded: something was measured or chosen in between. Go back, look at it again, and take it then."}
	default:
		if _, err := v.record(bodies...); err != nil {
			return err
		}
	}
	return v.go303(v.base() + "/decide")
}
