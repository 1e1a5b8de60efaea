package machine

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	"matchmark/internal/machine/schema"
)

const schemaPath = "schema/entry.schema.json"

// TestSchemaIsCurrent: the schema is what the types say. Write it anew with
// go test ./internal/machine -run TestSchemaIsCurrent -update
func TestSchemaIsCurrent(t *testing.T) {
	got := writeSchema(t)
	if *update {
		if err := os.WriteFile(schemaPath, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(schemaPath)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(string(got), "\n")); diff != "" {
		t.Errorf("the schema is not what the types say; write it anew with -update (-file +types):\n%s", diff)
	}
}

// compileSchema reads the schema as a reader without this program would.
func compileSchema(t testing.TB) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(schema.Entry))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	if err := c.AddResource("entry.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("entry.schema.json") // checks it against the meta-schema too
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func obeys(s *jsonschema.Schema, line []byte) error {
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(line))
	if err != nil {
		return err
	}
	return s.Validate(v)
}

// TestSchemaTakesEveryEntry: the log of version 1 obeys, and so does every
// kind with nothing in it that its words allow to be left out.
func TestSchemaTakesEveryEntry(t *testing.T) {
	s := compileSchema(t)
	lines, _ := readLog(t, "testdata/log/v1/small.jsonl")
	for i, line := range lines {
		if err := obeys(s, line); err != nil {
			t.Errorf("line %d, %s: %v", i+1, line, err)
		}
	}
	for i, e := range engine().entries {
		line, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		if err := obeys(s, line); err != nil {
			t.Errorf("entry %d, %s: %v", i, line, err)
		}
	}
}

// TestSchemaTakesAnyBody: whatever the types can hold obeys, once the fields
// with words of their own hold one of those.
func TestSchemaTakesAnyBody(t *testing.T) {
	s := compileSchema(t)
	rapid.Check(t, func(t *rapid.T) {
		e := Entry{ID: "e", At: noon, By: "b", Device: "d", Body: anyBody(t)}
		line, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		var v map[string]any
		if err := json.Unmarshal(line, &v); err != nil {
			t.Fatal(err)
		}
		fitWords(v["body"], string(e.Kind()))
		if err := s.Validate(v); err != nil {
			t.Fatalf("%s: %v", line, err)
		}
	})
}

// fitWords puts a word that is allowed where only some are.
func fitWords(v any, def string) {
	switch x := v.(type) {
	case map[string]any:
		for name, value := range x {
			_, text := value.(string)
			list, _ := value.([]any)
			switch words := wordsOf(def, name); {
			case text && words != nil:
				x[name] = words[0]
			case text && (name == "sum" || name == "photo" || name == "original"):
				x[name] = strings.Repeat("0a", 32)
			case name == "photos":
				for i := range list {
					list[i] = strings.Repeat("f0", 32)
				}
			default:
				fitWords(value, def)
			}
		}
	case []any:
		for _, item := range x {
			fitWords(item, def)
		}
	}
}

// TestSchemaRefuses changes one thing of a sound entry at a time.
func TestSchemaRefuses(t *testing.T) {
	s := compileSchema(t)
	sound := `{"id":"a","seq":1,"at":"2024-05-12T12:00:00Z","by":"Ann","device":"bench","kind":"reading-taken","v":1,"body":{"feature":"liner.1/bore","amount":{"value":80,"unit":"mm","typed":"80"}}}`
	if err := obeys(s, []byte(sound)); err != nil {
		t.Fatalf("the sound one: %v", err)
	}
	closed := `{"id":"a","at":"2024-05-12T12:00:00Z","by":"","device":"","kind":"joint-closed","v":1,"body":{"joint":"x","as":"final"}}`
	limit := `{"id":"a","at":"2024-05-12T12:00:00Z","by":"","device":"","kind":"limit-set","v":1,"body":{"check":"x","limit":{"high":"1","from":"handbook"}}}`
	photo := `{"id":"a","at":"2024-05-12T12:00:00Z","by":"","device":"","kind":"photo-added","v":1,"body":{"of":"part:x","sum":"` + strings.Repeat("0f", 32) + `","type":"image/jpeg"}}`
	rows := []struct{ name, from, old, new string }{
		{"no id", sound, `"id":"a",`, ``},
		{"an empty id", sound, `"id":"a"`, `"id":""`},
		{"no time", sound, `"at":"2024-05-12T12:00:00Z",`, ``},
		{"a time that is none", sound, `2024-05-12T12`, `2024-05-12 12`},
		{"number 0", sound, `"seq":1`, `"seq":0`},
		{"an unknown kind", sound, `reading-taken`, `reading-guessed`},
		{"another kind's body", sound, `reading-taken`, `part-moved`},
		{"a later version", sound, `"v":1`, `"v":2`},
		{"no body", sound, `,"body":{"feature":"liner.1/bore","amount":{"value":80,"unit":"mm","typed":"80"}}`, ``},
		{"a body that is null", sound, `{"feature":"liner.1/bore","amount":{"value":80,"unit":"mm","typed":"80"}}`, `null`},
		{"an unknown field outside", sound, `"by"`, `"colour":"red","by"`},
		{"an unknown field inside", sound, `"feature"`, `"colour":"red","feature"`},
		{"a field that is missing", sound, `,"typed":"80"`, ``},
		{"a text for a figure", sound, `"value":80`, `"value":"80"`},
		{"a closing of no known way", closed, `"final"`, `"halfway"`},
		{"a limit that hides where it is from", limit, `,"from":"handbook"`, ``},
		{"a limit from nowhere known", limit, `"handbook"`, `"hearsay"`},
		{"an attachment without a sum", photo, strings.Repeat("0f", 32), `0f`},
	}
	for _, base := range []string{closed, limit, photo} {
		if err := obeys(s, []byte(base)); err != nil {
			t.Errorf("a sound one, %s: %v", base, err)
		}
	}
	for _, r := range rows {
		line := strings.Replace(r.from, r.old, r.new, 1)
		if line == r.from {
			t.Errorf("%s: the row changes nothing", r.name)
		}
		if err := obeys(s, []byte(line)); err == nil {
			t.Errorf("%s was taken: %s", r.name, line)
		}
	}
}
