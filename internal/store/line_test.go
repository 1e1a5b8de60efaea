package store

import (
	"testing"

	"matchmark/internal/machine"
)

// TestSameFact: a line written by an earlier version with other bytes is the
// same fact; a line that says other is not.
func TestSameFact(t *testing.T) {
	lines, err := writeLines("m", []machine.Entry{entry(1, "x")})
	if err != nil {
		t.Fatal(err)
	}
	sent := lines[0].text
	rows := []struct {
		name, kept string
		want       bool
	}{
		{"the same bytes", string(sent), true},
		{"another order of fields, a field that is empty", `{"v":1,"kind":"noted","body":{"of":"","text":"x"},"device":"bench","by":"ada","at":"2024-05-12T12:00:01Z","id":"e0001"}`, true},
		{"another text", `{"id":"e0001","at":"2024-05-12T12:00:01Z","by":"ada","device":"bench","kind":"noted","v":1,"body":{"text":"y"}}`, false},
		{"another author", `{"id":"e0001","at":"2024-05-12T12:00:01Z","by":"ben","device":"bench","kind":"noted","v":1,"body":{"text":"x"}}`, false},
		{"another time", `{"id":"e0001","at":"2024-05-12T12:00:02Z","by":"ada","device":"bench","kind":"noted","v":1,"body":{"text":"x"}}`, false},
		{"damage", `{"id":"e0001"`, false},
	}
	for _, r := range rows {
		if got := sameFact([]byte(r.kept), sent); got != r.want {
			t.Errorf("%s: %v, want %v\nkept %s\nsent %s", r.name, got, r.want, r.kept, sent)
		}
	}
}
