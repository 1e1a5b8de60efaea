package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"testing"

	"matchmark/internal/trade/reckon"
)

// Every topic answers its own example in one JSON document with all its
// fields, twice with the same bytes.
func TestReckonJSON(t *testing.T) {
	for _, topic := range reckon.Topics() {
		t.Run(topic.Name, func(t *testing.T) {
			args := append([]string{"reckon", topic.Name, "--json"}, topic.Example...)
			first, second := reckoned(t, args), reckoned(t, args)
			if !bytes.Equal(first, second) {
				t.Error("the same question gave other bytes")
			}
			var answer map[string]json.RawMessage
			if err := json.Unmarshal(first, &answer); err != nil {
				t.Fatal(err)
			}
			for _, key := range []string{"topic", "inputs", "lines", "working", "source", "sure", "cautions", "marked"} {
				if len(answer[key]) == 0 || string(answer[key]) == "null" {
					t.Errorf("no %s in %s", key, first)
				}
			}
		})
	}
}

func reckoned(t *testing.T, args []string) []byte {
	t.Helper()
	var out, told bytes.Buffer
	if code := Main(context.Background(), args, Surroundings{Out: &out, Err: &told}); code != 0 {
		t.Fatalf("%q: code %d: %s", args, code, told.String())
	}
	return out.Bytes()
}
