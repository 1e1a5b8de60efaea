// Package traymark makes the short marks of trays and reads them as typed.
//
// A made mark has three characters of an alphabet of thirteen: no two of them
// look alike, none is a vowel (so that no word comes out), and none but X reads
// as another one when the tray stands the wrong way round. The last character
// follows from the others, so that one wrong character, or two exchanged, is no
// mark at all and never another tray. Marks that people use of their own, "14"
// or "crank stand", stay as they are.
//
// What it cannot detect: two wrong characters that happen to agree, and a mark
// of one's own that happens to be a made one.
package traymark

import (
	"hash/fnv"
	"strings"
	"unicode"
)

// letters is the alphabet: thirteen, a prime, so that each place of a mark can
// be weighed by its number and every single fault shows.
const letters = "CFJKPRTXY3479"

// lengths of a made mark: three characters, four once all those are taken.
const (
	short = 3
	long  = 4
)

// Made tells whether a mark is one that Next could have given.
// Method: the characters' numbers, each times its place, sum to a multiple of
// thirteen. A sum weighed so, modulo a prime, is the check of the ten-figure
// book number (ISO 2108, modulo eleven there); the test tries every fault.
func Made(mark string) bool {
	if len(mark) != short && len(mark) != long {
		return false
	}
	sum := 0
	for i := range len(mark) {
		v := strings.IndexByte(letters, mark[i])
		if v < 0 {
			return false
		}
		sum += (i + 1) * v
	}
	return sum%len(letters) == 0
}

// Next gives n marks that are not taken, the same ones for the same seed and
// the same marks taken. Another seed begins elsewhere, so that two machines in
// one shop seldom share a mark. It gives fewer than n only once every mark is
// taken: 169 of three characters and 2,197 of four.
func Next(n int, seed string, taken func(mark string) bool) []string {
	out := make([]string, 0, max(n, 0))
	start := fnv.New32a()
	start.Write([]byte(seed))
	for _, length := range []int{short, long} {
		all := 1
		for range length - 1 {
			all *= len(letters)
		}
		// A step that shares no factor with thirteen visits each mark once and
		// keeps neighbours apart.
		at, step := int(start.Sum32()%uint32(all)), all*5/8|1
		for range all {
			if len(out) >= n {
				return out
			}
			if mark := nth(at, length); !taken(mark) {
				out = append(out, mark)
			}
			at = (at + step) % all
		}
	}
	return out
}

// nth writes a number as a mark: all characters but the last are its digits,
// the last makes the sum come out.
func nth(n, length int) string {
	mark, sum := make([]byte, length), 0
	for i := range length - 1 {
		v := n % len(letters)
		n /= len(letters)
		mark[i], sum = letters[v], sum+(i+1)*v
	}
	for v := range len(letters) {
		if (sum+length*v)%len(letters) == 0 {
			mark[length-1] = letters[v]
		}
	}
	return string(mark)
}

// Read takes a mark as typed: a made mark in any capitals and with spaces or
// strokes between is written as it stands on its label; everything else keeps
// its words, only spaces at the ends go.
func Read(typed string) string {
	tight := strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '-' || r == '.' {
			return -1
		}
		return unicode.ToUpper(r)
	}, typed)
	if Made(tight) {
		return tight
	}
	return strings.TrimSpace(typed)
}

// Near lists those marks of a list that differ from a typed one in one
// character at most, or in two exchanged: what may have been meant.
func Near(typed string, marks []string) []string {
	var out []string
	want := []rune(strings.ToUpper(Read(typed)))
	for _, m := range marks {
		if oneSlip(want, []rune(strings.ToUpper(m))) {
			out = append(out, m)
		}
	}
	return out
}

// oneSlip tells whether two words of one length differ in at most one place, or
// in two neighbours exchanged. A word of one character is near to nothing.
func oneSlip(a, b []rune) bool {
	if len(a) != len(b) || len(a) < 2 {
		return string(a) == string(b)
	}
	var at []int
	for i := range a {
		if a[i] != b[i] {
			at = append(at, i)
		}
	}
	return len(at) <= 1 || len(at) == 2 && at[1] == at[0]+1 && a[at[0]] == b[at[1]] && a[at[1]] == b[at[0]]
}
