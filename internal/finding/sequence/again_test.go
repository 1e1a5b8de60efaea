package sequence

import (
	"testing"

	"pgregory.net/rapid"

	"matchmark/internal/machine"
)

// TestAgainIsMake: a plan that leans on earlier ones, of a longer and longer
// history, is the plan made from nothing.
func TestAgainIsMake(t *testing.T) {
	taken := 0
	rapid.Check(t, func(t *rapid.T) {
		b := scene(t, 6, 5, rapid.Bool().Draw(t, "tidy"))
		before := b.plan()
		for range rapid.IntRange(1, 4).Draw(t, "rounds") {
			switch rapid.IntRange(0, 2).Draw(t, "what") {
			case 0:
				b.write(&machine.Noted{Text: "nothing that matters here"})
			default:
				history(t, b)
			}
			m := b.fold()
			got, want := Again(m, looks{m}, before), Make(m, looks{m})
			if dump(got) != dump(want) {
				t.Fatalf("got\n%s\nwant\n%s", dump(got), dump(want))
			}
			for _, s := range got.Steps {
				if s.Joint != nil && m.Joint(s.Joint.ID) != s.Joint || s.Check != nil && m.Check(s.Check.ID) != s.Check {
					t.Fatalf("step %s is of an earlier machine", s.ID)
				}
			}
			if got.settled == before.settled {
				taken++
			}
			before = got
		}
	})
	if taken == 0 {
		t.Error("no order was ever taken over")
	}
	t.Logf("%d orders taken over", taken)
}

// TestReadingTakesTheOrderOver: a further look that leaves its check open, kept
// where the last fact was, changes nothing about the order; one that makes it
// sound does.
func TestReadingTakesTheOrderOver(t *testing.T) {
	b := new(book).write(joint("cover", ""), joint("gear", "cover"), check("teeth", machine.Apart, "gear", "")).
		write(opened("cover", "gear")...).write(look("teeth", false))
	first := b.plan()
	m := b.write(look("teeth", false)).fold()
	if second := Again(m, looks{m}, first); second.settled != first.settled {
		t.Error("the order was found anew")
	}
	m = b.write(look("teeth", true)).fold()
	if third := Again(m, looks{m}, first); third.settled == first.settled {
		t.Error("a check that is done kept its place")
	}
}
