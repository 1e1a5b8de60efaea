package spelling

import (
	"slices"
	"testing"
)

// The distances of kitten/sitting and flaw/lawn are the worked examples that
// texts on the Levenshtein distance give, from memory.
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"flaw", "lawn", 2}, {"", "abc", 3}, {"same", "same", 0}} {
		if got := Distance(c.a, c.b); got != c.want {
			t.Errorf("%s, %s: %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

func TestNearest(t *testing.T) {
	names := []string{"cast iron", "copper", "aluminium", "piston"}
	for _, c := range []struct {
		typed string
		want  []string
	}{{" Alumnium", []string{"aluminium"}}, {"iron", []string{"cast iron"}}, {"zzzzzz", nil}} {
		if got := Nearest(c.typed, names); !slices.Equal(got, c.want) {
			t.Errorf("%q: %q, want %q", c.typed, got, c.want)
		}
	}
}
