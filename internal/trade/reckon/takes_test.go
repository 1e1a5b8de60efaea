package reckon

import (
	"errors"
	"strings"
	"testing"
)

// Each example is taken, key by key; a wrong key or dimension is named.
func TestTakes(t *testing.T) {
	for _, topic := range Topics() {
		for _, e := range topic.Example {
			key, text, _ := strings.Cut(e, "=")
			if err := topic.Takes(key, text); err != nil {
				t.Errorf("%s does not take %s: %v", topic.Name, e, err)
			}
		}
	}
	topic, _ := Find("crowfoot")
	var unknown UnknownError
	if err := topic.Takes("ofset", "50"); !errors.As(err, &unknown) || len(unknown.Near) == 0 || unknown.Near[0] != "offset" {
		t.Errorf("ofset: %v", err)
	}
	var wrong InputError
	if err := topic.Takes("offset", "50 N·m"); !errors.As(err, &wrong) || wrong.Key != "offset" || wrong.Want == "" {
		t.Errorf("50 N·m for a length: %v", err)
	}
}
