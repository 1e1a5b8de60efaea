package judge

import (
	"strings"
	"testing"

	"matchmark/internal/machine"
)

// TestAClashStandsInTheSentence: while nobody has said which readings count,
// the verdict says that all do; the answer takes the words away.
func TestAClashStandsInTheSentence(t *testing.T) {
	const words = "readings of two devices stand side by side; all count here until it is said which do."
	strange := func(r *machine.ReadingTaken) *machine.ReadingTaken { r.Seen = []machine.EntryID{}; return r }
	wear := &machine.CheckAdded{ID: "wear", Name: "Bore wear", By: machine.BySize, Outer: bore, Limits: []machine.Limit{{High: "80.1", From: machine.Handbook}}}
	both := func() *log { return fit(wear).add(bores(80.01, 80.01, 80.01, 80.01, 80.01, 80.01)...) }
	gap := func() *log { return direct("mm", "feeler", machine.Limit{High: "0.5", From: machine.Handbook}) }
	for name, row := range map[string]struct {
		l    *log
		id   machine.CheckID
		want string
	}{
		"one point":     {both().add(strange(size(bore, "top", "along", 80.02))), "wear", " At top along " + words},
		"two points":    {both().add(strange(size(bore, "top", "along", 80.02)), strange(size(bore, "low", "across", 80.02))), "wear", " At 2 points " + words},
		"read directly": {gap().add(read(0.3, 0.01, "mm"), strange(read(0.4, 0.01, "mm"))), "gap", " R" + words[1:]},
		"no clash":      {both().add(size(bore, "top", "along", 80.02)), "wear", ""},
		"both count":    {gap().add(read(0.3, 0.01, "mm"), strange(read(0.4, 0.01, "mm")), &machine.ReadingsAgreed{Readings: []machine.EntryID{"e000001", "e000002"}}), "gap", ""},
	} {
		got := row.l.one(t, row.id).Sentence
		if row.want == "" && strings.Contains(got, "side by side") || !strings.HasSuffix(got, row.want) {
			t.Errorf("%s: %q does not end in %q", name, got, row.want)
		}
	}
}
