package machine

import (
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// seeing is a reading of the bore of liner 1 taken where these were known.
func seeing(v float64, known ...EntryID) *ReadingTaken {
	r := bore("1", v)
	r.Seen = append([]EntryID{}, known...)
	return r
}

// TestReadingsThatDidNotKnowOfEachOther: which of the readings a to d, taken
// in this order, are asked about together.
func TestReadingsThatDidNotKnowOfEachOther(t *testing.T) {
	elsewhere := seeing(80.02)
	elsewhere.Axis = "across"
	other := seeing(80.02)
	other.Feature = "liner.2/bore"
	unworn := seeing(80.02)
	unworn.Unworn = true
	for name, row := range map[string]struct {
		said []Body
		want string // sets of the letters of readings, by place
	}{
		"one knew of the other":               {[]Body{seeing(80.02), seeing(80.05, "a")}, ""},
		"neither knew":                        {[]Body{seeing(80.02), seeing(80.05)}, "ab"},
		"the same figure is asked about too":  {[]Body{seeing(80.02), seeing(80.02)}, "ab"},
		"nobody said what was known":          {[]Body{bore("1", 80.02), bore("1", 80.05)}, ""},
		"the earlier did not say":             {[]Body{bore("1", 80.02), seeing(80.05)}, "ab"},
		"the later did not say":               {[]Body{seeing(80.02), bore("1", 80.05)}, ""},
		"the earlier knew of the later":       {[]Body{seeing(80.02, "b"), seeing(80.05)}, ""},
		"three strangers":                     {[]Body{seeing(80.02), seeing(80.05), seeing(80.03)}, "abc"},
		"two strangers and one that knew all": {[]Body{seeing(80.02), seeing(80.05), seeing(80.03, "a", "b")}, "ab"},
		"each repeats its own":                {[]Body{seeing(80.02), seeing(80.05), seeing(80.02, "a"), seeing(80.05, "b")}, "abcd"},
		"another axis":                        {[]Body{seeing(80.02), elsewhere}, ""},
		"another place":                       {[]Body{seeing(80.02), other}, ""},
		"the unworn surface":                  {[]Body{seeing(80.02), unworn}, ""},
		"before and after a rebore":           {[]Body{seeing(80.02), &RemedyDone{Check: "bore-wear.1", Key: "rebore", Reworked: []FeatureID{"liner.1/bore"}}, seeing(80.5)}, ""},
		"the first counts":                    {[]Body{seeing(80.02), seeing(80.05), &EntryWithdrawn{Target: "b"}}, ""},
		"one of three counts":                 {[]Body{seeing(80.02), seeing(80.05), seeing(80.03), &EntryWithdrawn{Target: "b"}, &EntryWithdrawn{Target: "c"}}, ""},
		"both count":                          {[]Body{seeing(80.02), seeing(80.05), &ReadingsAgreed{Readings: []EntryID{"b", "a"}}}, ""},
		"two of three count":                  {[]Body{seeing(80.02), seeing(80.05), &ReadingsAgreed{Readings: []EntryID{"a", "b"}}, seeing(80.03)}, "abd"},
		"that word taken back":                {[]Body{seeing(80.02), seeing(80.05), &ReadingsAgreed{Readings: []EntryID{"a", "b"}}, &EntryWithdrawn{Target: "c"}}, "ab"},
		"a check read directly":               {[]Body{&ReadingTaken{Check: "side-play.1", Amount: mm(0.2), Seen: []EntryID{}}, &ReadingTaken{Check: "side-play.1", Amount: mm(0.3), Seen: []EntryID{}}}, "ab"},
	} {
		log := engine().entries
		for i, body := range row.said {
			log = append(log, Entry{ID: EntryID(rune('a' + i)), At: noon.Add(time.Hour + time.Duration(i)*time.Minute), Version: 1, Body: body})
		}
		m := Fold(log)
		questions(t, m)
		var sets []string
		for _, c := range m.Clashes {
			set := ""
			for _, r := range c.Readings {
				set += string(r.Entry)
			}
			sets = append(sets, set)
		}
		if got := strings.Join(sets, " "); got != row.want {
			t.Errorf("%s: asked about %q, want %q", name, got, row.want)
		}
	}
	questions(t, Fold(append(engine().entries, Entry{ID: "z", Body: &ReadingsAgreed{Readings: []EntryID{"a"}}})), "fewer than two")
}

// TestClashesByDefinition: two readings stand in one clash just where a chain
// of strangers leads from one to the other; the second route walks the chain.
func TestClashesByDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Fold(anyLog(t))
		f := &folder{m: m}
		for _, e := range m.Events {
			if a, ok := e.Body.(*ReadingsAgreed); ok {
				f.agreed = append(f.agreed, a.Readings)
			}
		}
		together := func(a, b EntryID) bool {
			return slices.ContainsFunc(m.Clashes, func(c Clash) bool {
				return slices.ContainsFunc(c.Readings, func(r *Reading) bool { return r.Entry == a }) &&
					slices.ContainsFunc(c.Readings, func(r *Reading) bool { return r.Entry == b })
			})
		}
		for _, ft := range m.Features {
			for _, list := range byPoint(ft.Current()) {
				reach := make([][]bool, len(list))
				for i := range list {
					reach[i] = make([]bool, len(list))
					for j := range list {
						reach[i][j] = i != j && f.strangers(list[min(i, j)], list[max(i, j)])
					}
				}
				for k := range list {
					for i := range list {
						for j := range list {
							reach[i][j] = reach[i][j] || reach[i][k] && reach[k][j]
						}
					}
				}
				for i, a := range list {
					for j, b := range list {
						if a.Entry != "" && b.Entry != "" && i != j && reach[i][j] != together(a.Entry, b.Entry) {
							t.Fatalf("%s and %s: together %v, by definition %v", a.Entry, b.Entry, !reach[i][j], reach[i][j])
						}
					}
				}
			}
		}
	})
}
