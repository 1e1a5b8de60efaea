package traymark

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func none(string) bool { return false }

// every lists all marks of three characters.
func every(t *testing.T) []string {
	t.Helper()
	all := Next(169, "", none)
	if len(all) != 169 {
		t.Fatalf("%d marks of three characters, want 13 × 13", len(all))
	}
	return all
}

// TestMarksAreMade: each mark is told as made, stands once, and has three
// characters of the alphabet.
func TestMarksAreMade(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range every(t) {
		if !Made(m) || seen[m] || len(m) != 3 {
			t.Errorf("%q: made %v, seen before %v", m, Made(m), seen[m])
		}
		seen[m] = true
	}
	for _, own := range []string{"", "14", "tray 14", "crank stand", "C4", "ccc", "OOO", "C4K7T", "前蓋"} {
		if Made(own) {
			t.Errorf("%q is told as made", own)
		}
	}
}

// TestOneFaultIsNoOtherMark: one wrong character, or any two exchanged, never
// gives another mark. Counted over every mark, place and character.
func TestOneFaultIsNoOtherMark(t *testing.T) {
	for _, length := range []int{short, long} {
		n := 1
		for range length - 1 {
			n *= 13
		}
		for i := range n {
			m := nth(i, length)
			for at := range length {
				for _, c := range letters {
					b := []byte(m)
					b[at] = byte(c)
					if string(b) != m && Made(string(b)) {
						t.Fatalf("%s and %s are both marks", m, b)
					}
				}
				for to := range at {
					b := []byte(m)
					b[at], b[to] = b[to], b[at]
					if string(b) != m && Made(string(b)) {
						t.Fatalf("%s and %s are both marks", m, b)
					}
				}
			}
		}
	}
}

// TestWrongWayRound: no mark but XXX is a mark when read upside down.
func TestWrongWayRound(t *testing.T) {
	turned := map[byte]byte{'X': 'X', '9': '6'} // 6 is not in the alphabet; the rest turn into no letter at all
	for _, m := range every(t) {
		var b []byte
		for i := len(m) - 1; i >= 0; i-- {
			b = append(b, turned[m[i]])
		}
		if Made(string(b)) && m != "XXX" {
			t.Errorf("%s upside down is %s", m, b)
		}
	}
}

// TestNextKeepsOff: marks taken are not given, the same question has the same
// answer, another machine begins elsewhere, and four characters follow three.
func TestNextKeepsOff(t *testing.T) {
	first := Next(6, "codlin", none)
	if again := Next(6, "codlin", none); !slices.Equal(first, again) {
		t.Errorf("%v, then %v", first, again)
	}
	if other := Next(6, "harrow", none); slices.Equal(first, other) {
		t.Errorf("two machines both begin with %v", other)
	}
	for _, m := range Next(163, "codlin", func(m string) bool { return slices.Contains(first, m) }) {
		if slices.Contains(first, m) || len(m) != 3 {
			t.Errorf("%s is taken or too long", m)
		}
	}
	if m := Next(1, "", func(m string) bool { return len(m) == 3 }); len(m) != 1 || len(m[0]) != 4 || !Made(m[0]) {
		t.Errorf("after all of three characters came %v", m)
	}
	if m := Next(3, "", func(string) bool { return true }); len(m) != 0 {
		t.Errorf("all taken, and still %v", m)
	}
	if m := Next(-1, "", none); len(m) != 0 {
		t.Errorf("none asked, %v given", m)
	}
}

func TestReadAsTyped(t *testing.T) {
	m := Next(1, "codlin", none)[0]
	for _, typed := range []string{m, strings.ToLower(m), " " + m + " ", m[:1] + " " + m[1:], m[:2] + "-" + m[2:]} {
		if got := Read(typed); got != m {
			t.Errorf("%q reads as %q, want %q", typed, got, m)
		}
	}
	for typed, want := range map[string]string{"14": "14", " tray 14 ": "tray 14", "Crank stand": "Crank stand", "": "", "c4": "c4"} {
		if got := Read(typed); got != want {
			t.Errorf("%q reads as %q, want %q", typed, got, want)
		}
	}
}

func TestNear(t *testing.T) {
	marks := []string{"14", "41", "crank stand", "9"}
	for typed, want := range map[string][]string{"14": {"14", "41"}, "15": {"14"}, "Crank stond": {"crank stand"}, "7": nil, "99": nil} {
		if got := Near(typed, marks); !slices.Equal(got, want) {
			t.Errorf("%q: %v, want %v", typed, got, want)
		}
	}
}

// TestReadIsSettled: reading twice is reading once, whatever was typed.
func TestReadIsSettled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		typed := rapid.String().Draw(t, "typed")
		if once := Read(typed); Read(once) != once {
			t.Fatalf("%q reads as %q, and that as %q", typed, once, Read(once))
		}
	})
}
