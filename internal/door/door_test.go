package door

import (
	"errors"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"matchmark/internal/store"
)

// yard is a door on a shelf in memory, with a clock that the test moves.
type yard struct {
	*testing.T
	*Door
	log store.Log
	at  time.Time
}

func newYard(t *testing.T) *yard {
	y := &yard{T: t, log: store.OpenMemory(), at: time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)}
	y.Door = New(y.log, func() time.Time { return y.at })
	return y
}

func (y *yard) code() Code {
	y.Helper()
	c, err := y.NewCode(y.Context())
	if err != nil {
		y.Fatal(err)
	}
	return c
}

func (y *yard) join(key Key) (Device, string, error) {
	return y.Join(y.Context(), key, "Phone", "Ansa")
}

func (y *yard) refused(key Key, what string) {
	y.Helper()
	if _, token, err := y.join(key); !errors.Is(err, ErrNoCode) || token != "" {
		y.Errorf("%s: token %q, %v, want ErrNoCode", what, token, err)
	}
}

func (y *yard) known(token string) bool {
	y.Helper()
	_, known, err := y.Known(y.Context(), token)
	if err != nil {
		y.Fatal(err)
	}
	return known
}

// other is six digits that differ from a code's.
func other(c Code) string {
	if c.Digits == "000000" {
		return "000001"
	}
	return "000000"
}

// TestEitherKeyLetsOneDeviceIn: a secret or the digits, once, and never both.
func TestEitherKeyLetsOneDeviceIn(t *testing.T) {
	y := newYard(t)
	for what, key := range map[string]func(Code) Key{
		"secret": func(c Code) Key { return Key{Secret: c.Secret} },
		"digits": func(c Code) Key { return Key{Digits: c.Digits} },
		"spaced": func(c Code) Key { return Key{Digits: c.Spaced()} },
	} {
		c := y.code()
		dev, token, err := y.join(key(c))
		if err != nil || dev.Name != "Phone" || dev.By != "Ansa" {
			t.Fatalf("%s: %+v, %v", what, dev, err)
		}
		if got, known, err := y.Known(t.Context(), token); err != nil || !known || got.By != "Ansa" || got.ID != dev.ID {
			t.Errorf("%s: known as %+v, %v, %v", what, got, known, err)
		}
		y.refused(Key{Secret: c.Secret}, what+", the secret again")
		y.refused(Key{Digits: c.Digits}, what+", the digits again")
	}
}

// TestOnlyOneOfManyAtOnce: a code shown to a crowd lets one in.
func TestOnlyOneOfManyAtOnce(t *testing.T) {
	y := newYard(t)
	c := y.code()
	var in, out sync.WaitGroup
	joined := make(chan string, 40)
	in.Add(1)
	for i := range 40 {
		out.Go(func() {
			in.Wait()
			key := Key{Secret: c.Secret}
			if i%2 == 0 {
				key = Key{Digits: c.Digits}
			}
			if _, token, err := y.join(key); err == nil {
				joined <- token
			}
		})
	}
	in.Done()
	out.Wait()
	if len(joined) != 1 {
		t.Errorf("%d devices came in by one code", len(joined))
	}
}

func TestCodeLastsTenMinutes(t *testing.T) {
	y := newYard(t)
	c := y.code()
	y.at = c.Until.Add(-time.Second)
	if _, _, err := y.join(Key{Digits: c.Digits}); err != nil {
		t.Errorf("a second before its end: %v", err)
	}
	c = y.code()
	y.at = y.at.Add(10 * time.Minute)
	y.refused(Key{Secret: c.Secret}, "secret at its end")
	y.refused(Key{Digits: c.Digits}, "digits at their end")
}

func TestNewCodeEndsTheOldOne(t *testing.T) {
	y := newYard(t)
	old, fresh := y.code(), y.code()
	y.refused(Key{Secret: old.Secret}, "old secret")
	if _, _, err := y.join(Key{Secret: fresh.Secret}); err != nil {
		t.Errorf("the old secret spoilt the new code: %v", err)
	}
}

// TestFiveMissesEndTheCode, and the right digits after that are too late. A new
// code has its five tries again.
func TestFiveMissesEndTheCode(t *testing.T) {
	y := newYard(t)
	for range 2 {
		c := y.code()
		for left := 4; left >= 1; left-- {
			var wrong *WrongCodeError
			if _, _, err := y.join(Key{Digits: other(c)}); !errors.As(err, &wrong) || wrong.Left != left {
				t.Fatalf("with %d tries left: %v", left, err)
			}
		}
		y.refused(Key{Digits: other(c)}, "fifth miss")
		y.refused(Key{Digits: c.Digits}, "right digits after five misses")
		y.refused(Key{Secret: c.Secret}, "right secret after five misses")
	}
}

// TestTokensAreNotGuessedFromTheShelf: nothing on the shelf lets anyone in.
func TestTokensAreNotGuessedFromTheShelf(t *testing.T) {
	y := newYard(t)
	c := y.code()
	shelf := y.shelf()
	for _, secret := range []string{c.Secret, c.Digits} {
		if strings.Contains(shelf, secret) {
			t.Errorf("the shelf holds %q as it is", secret)
		}
	}
	dev, token, err := y.join(Key{Secret: c.Secret})
	if err != nil {
		t.Fatal(err)
	}
	_, secret, _ := strings.Cut(token, ".")
	if shelf = y.shelf(); strings.Contains(shelf, secret) {
		t.Error("the shelf holds the token's secret as it is")
	}
	for _, wrong := range []string{"", ".", dev.ID, dev.ID + ".", dev.ID + "." + hash(secret), "." + secret, "0." + secret,
		token + "x", strings.Repeat("x", 5000) + "." + secret, "../" + token} {
		if y.known(wrong) {
			t.Errorf("%q lets in", clipped(wrong))
		}
	}
	if !y.known(token) {
		t.Error("the token itself does not")
	}
}

func clipped(s string) string { return s[:min(len(s), 60)] }

// shelf is all that stands on the shelf.
func (y *yard) shelf() string {
	names, err := y.log.Papers(y.Context(), "")
	if err != nil {
		y.Fatal(err)
	}
	all := ""
	for _, name := range names {
		data, err := y.log.Paper(y.Context(), name)
		if err != nil {
			y.Fatal(err)
		}
		all += name + " " + string(data) + "\n"
	}
	return all
}

// TestLetOutCountsAtOnce, also where another process does it.
func TestLetOutCountsAtOnce(t *testing.T) {
	y := newYard(t)
	dev, token, err := y.join(Key{Secret: y.code().Secret})
	if err != nil {
		t.Fatal(err)
	}
	beside := New(y.log, func() time.Time { return y.at })
	if out, err := beside.LetOut(t.Context(), dev.ID); err != nil || out.Name != "Phone" {
		t.Fatalf("let out: %+v, %v", out, err)
	}
	if y.known(token) {
		t.Error("the device is still let in")
	}
	if _, err := beside.LetOut(t.Context(), dev.ID); !errors.Is(err, ErrNoDevice) {
		t.Errorf("let out twice: %v", err)
	}
	y.note(t.Context(), dev.ID, y.at.Add(2*time.Hour))
	if list, err := y.Devices(t.Context()); err != nil || len(list) != 0 {
		t.Errorf("a late note of it brings it back: %+v, %v", list, err)
	}
}

// TestSeenIsWrittenHourly, not at every page.
func TestSeenIsWrittenHourly(t *testing.T) {
	y := newYard(t)
	dev, token, err := y.join(Key{Secret: y.code().Secret})
	if err != nil {
		t.Fatal(err)
	}
	came := y.at
	for _, row := range []struct{ after, want time.Duration }{{time.Minute, 0}, {59 * time.Minute, 0}, {time.Hour, time.Hour}, {119 * time.Minute, time.Hour}, {3 * time.Hour, 3 * time.Hour}} {
		y.at = came.Add(row.after)
		if !y.known(token) {
			t.Fatal("not known")
		}
		list, err := y.Devices(t.Context())
		if err != nil || len(list) != 1 || list[0].ID != dev.ID {
			t.Fatalf("%+v, %v", list, err)
		}
		if got := list[0].Seen.Sub(came); got != row.want {
			t.Errorf("after %v it was seen after %v, want %v", row.after, got, row.want)
		}
	}
}

func TestPace(t *testing.T) {
	at := time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)
	p := NewPace(1, 3).Together(10, 5)
	for i := range 3 {
		if w := p.Wait("a", at); w != 0 {
			t.Fatalf("call %d waits %v", i, w)
		}
	}
	if w := p.Wait("a", at); w != time.Second {
		t.Errorf("the fourth call waits %v, want 1s", w)
	}
	for i := range 2 {
		if w := p.Wait("b", at); w != 0 {
			t.Errorf("another caller's call %d waits %v", i, w)
		}
	}
	if w := p.Wait("c", at); w != 100*time.Millisecond {
		t.Errorf("beyond the limit on all together: %v, want 100ms", w)
	}
	if w := p.Wait("a", at.Add(time.Second)); w != 0 {
		t.Errorf("after a second: %v", w)
	}
}

// TestPaceForgets: callers that come once do not fill the memory.
func TestPaceForgets(t *testing.T) {
	at := time.Date(2026, 12, 1, 9, 0, 0, 0, time.UTC)
	p := NewPace(1, 1)
	for i := range 10 * mostCallers {
		p.Wait(word(6), at.Add(time.Duration(i)*time.Millisecond))
	}
	if len(p.by) > mostCallers {
		t.Errorf("%d callers are remembered", len(p.by))
	}
}

// BenchmarkKnown is what every request of a device pays, on the file.
func BenchmarkKnown(b *testing.B) {
	log, err := store.Open(filepath.Join(b.TempDir(), "m.db"))
	if err != nil {
		b.Fatal(err)
	}
	defer log.Close()
	d := New(log, time.Now)
	c, err := d.NewCode(b.Context())
	if err != nil {
		b.Fatal(err)
	}
	_, token, err := d.Join(b.Context(), Key{Secret: c.Secret}, "Phone", "Ansa")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, known, err := d.Known(b.Context(), token); err != nil || !known {
			b.Fatal(known, err)
		}
	}
}
