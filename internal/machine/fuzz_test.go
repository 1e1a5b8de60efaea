package machine

import (
	"bytes"
	"encoding/json"
	"testing"
)

// FuzzDecodeFold: any bytes, taken as the lines of a log, fold without a
// panic, fold the same twice, and can be written back and read again.
func FuzzDecodeFold(f *testing.F) {
	for _, e := range append(engine().entries, smallLog(f)...) {
		line, err := json.Marshal(e)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(line)
	}
	for _, s := range []string{"", "\n", "{}", "null", "[]", `"x"`, "{\"id\":\"a\"}\n{\"id\":\"a\",\"kind\":\"noted\"}", `{"kind":"noted","body":null}`,
		`{"id":"a","kind":"entry-withdrawn","v":1,"body":{"target":"b"}}` + "\n" + `{"id":"b","kind":"entry-withdrawn","v":1,"body":{"target":"a"}}`,
		`{"id":"a","supersedes":"b","kind":"noted"}` + "\n" + `{"id":"b","supersedes":"a","kind":"noted"}`,
		`{"id":"p","kind":"places-set","v":1,"body":{"family":"f","labels":["1","1",""],"under":"f","above":["1"]}}` + "\n" + `{"id":"q","kind":"part-added","v":1,"body":{"id":"x","places":"f"}}`,
		"\xff\xfe{", `{"id":"a","kind":"noted","v":-1,"body":"x"}`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var log []Entry
		for _, line := range bytes.Split(data, []byte("\n")) {
			e := Decode(line)
			log = append(log, e)
			text, err := json.Marshal(e)
			if err != nil {
				t.Fatalf("cannot be written back: %v", err)
			}
			again, err := json.Marshal(Decode(text))
			if err != nil || !bytes.Equal(text, again) {
				t.Fatalf("written %s\nand read and written %s, %v", text, again, err)
			}
		}
		if once, twice := dump(Fold(log)), dump(Fold(log)); once != twice {
			t.Fatal("folded twice, two machines")
		}
	})
}
