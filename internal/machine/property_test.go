package machine

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// TestOrderOfTheSliceChangesNothing: entries in any order fold to one machine.
func TestOrderOfTheSliceChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := anyLog(t)
		want, got := dump(Fold(log)), dump(Fold(shuffled(t, log)))
		if want != got {
			t.Fatalf("another order gives another machine:\n%s", cmp.Diff(want, got))
		}
	})
}

// TestFoldLeavesItsInputAlone: folding twice gives the same, and the entries
// are as they were.
func TestFoldLeavesItsInputAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := anyLog(t)
		before, err := json.Marshal(log)
		if err != nil {
			t.Fatal(err)
		}
		first := dump(Fold(log))
		Fold(slices.Clone(log))
		after, err := json.Marshal(log)
		if err != nil || string(before) != string(after) {
			t.Fatal("the entries were changed")
		}
		if second := dump(Fold(log)); first != second {
			t.Fatalf("folded again:\n%s", cmp.Diff(first, second))
		}
	})
}

// TestTwiceCountsOnce: entries that arrive twice change nothing.
func TestTwiceCountsOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := slices.DeleteFunc(anyLog(t), func(e Entry) bool { return e.ID == "" })
		twice := append(slices.Clone(log), log[:rapid.IntRange(0, len(log)).Draw(t, "again")]...)
		once, again := dump(Fold(log)), dump(Fold(twice))
		if once != again {
			t.Fatalf("%s", cmp.Diff(once, again))
		}
	})
}

// TestFoldAfterPrinting: a log that went through its JSON folds the same.
func TestFoldAfterPrinting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := anyLog(t)
		back := make([]Entry, len(log))
		for i, e := range log {
			text, err := json.Marshal(e)
			if err != nil {
				t.Fatal(err)
			}
			back[i] = Decode(text)
			if u, ok := back[i].Body.(*Unreadable); ok {
				u.Why = "not known" // the words are this program's
			}
		}
		want, got := dump(Fold(log)), dump(Fold(back))
		if want != got {
			t.Fatalf("%s", cmp.Diff(want, got))
		}
	})
}

// TestNothingIsDropped: every entry that speaks is an event, a declaring fact,
// a withdrawal, or asked about.
func TestNothingIsDropped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := anyLog(t)
		m := Fold(log)
		heard := map[EntryID]bool{}
		for _, e := range m.Events {
			heard[e.Entry] = true
		}
		for _, q := range m.Questions {
			heard[q.Entry] = true
		}
		f := &folder{m: &Machine{}}
		seq := f.arrange(log)
		for i, speaks := range f.live(seq) {
			e := seq.entries[i]
			if _, undo := e.Body.(*EntryWithdrawn); speaks && !undo && !declares(e.Body) && !heard[e.ID] {
				t.Fatalf("entry %s, %s, went nowhere: %+v", e.ID, e.Kind(), e.Body)
			}
		}
	})
}

// speaksByDefinition is live on a log whose entries undo only earlier ones,
// straight from the words of its comment: the second route.
func speaksByDefinition(log []Entry) []bool {
	at := map[EntryID]int{}
	for i, e := range log {
		at[e.ID] = i
	}
	speaks := make([]bool, len(log))
	for i := len(log) - 1; i >= 0; i-- { // all that may undo it comes later
		speaks[i] = true
		for j := i + 1; j < len(log); j++ {
			if !speaks[j] {
				continue
			}
			if w := withdrawn(log[j]); w != "" && at[w] == i {
				speaks[i] = false
			}
			for k, ok := j, log[j].Supersedes != ""; ok; ok = log[k].Supersedes != "" { // down the chain
				if k = at[log[k].Supersedes]; k == i {
					speaks[i] = false
				}
			}
		}
	}
	return speaks
}

func TestWhoSpeaksByDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := &book{}
		b.say(&Noted{})
		for range rapid.IntRange(0, 30).Draw(t, "length") {
			earlier := func(name string) EntryID {
				return b.entries[rapid.IntRange(0, len(b.entries)-1).Draw(t, name)].ID
			}
			switch rapid.IntRange(0, 3).Draw(t, "sort") {
			case 0:
				b.say(&Noted{})
			case 1:
				b.say(&EntryWithdrawn{Target: earlier("withdraws")})
			case 2:
				b.correct(earlier("supersedes"), &Noted{})
			case 3:
				b.correct(earlier("supersedes"), &EntryWithdrawn{Target: earlier("withdraws")})
			}
		}
		f := &folder{m: &Machine{}}
		got, want := f.live(f.arrange(b.entries)), speaksByDefinition(b.entries)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("(-definition +live):\n%s", diff)
		}
		if len(f.m.Questions) > 0 {
			t.Fatalf("a question about an honest log: %+v", f.m.Questions)
		}
	})
}
