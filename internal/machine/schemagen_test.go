package machine

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// object is a JSON object that keeps the order of its members.
type object []member

type member struct {
	name  string
	value any
}

func (o object) MarshalJSON() ([]byte, error) {
	out := []byte{'{'}
	for i, m := range o {
		if i > 0 {
			out = append(out, ',')
		}
		name, err := json.Marshal(m.name)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(m.value)
		if err != nil {
			return nil, err
		}
		out = append(append(append(out, name...), ':'), value...)
	}
	return append(out, '}'), nil
}

// wordsOf lists the only words a field may hold, nil where it may hold any:
// those of the block of constants that begins with the one named.
func wordsOf(def, field string) []string {
	blocks := map[string]string{"feature-added.sort": "Bore", "check-added.when": "Apart", "check-added.by": "ByReading",
		"joint-closed.as": "Trial", "call-made.call": "NotJudged", "surveyed.condition": "LooksSound"}
	first := blocks[def+"."+field]
	if field == "from" && def != "ordered" { // a provenance everywhere but in an order
		first = "Paperwork"
	}
	return source().words[first]
}

// generator writes schemas from types, and descriptions from their comments.
type generator struct {
	comments map[string]string // "PartAdded" and "PartAdded.Qty"
	shared   []member          // definitions of the types that bodies share
	done     map[string]bool
}

// writeSchema is the text of the schema file.
func writeSchema(t *testing.T) []byte {
	t.Helper()
	g := &generator{comments: source().comments, done: map[string]bool{}}
	var kinds []string
	var rules []object
	var defs object
	for _, b := range Bodies() {
		kind := string(b.Kind())
		kinds = append(kinds, kind)
		typ := reflect.TypeOf(b).Elem()
		defs = append(defs, member{kind, g.structure(typ, kind)})
		rules = append(rules, object{
			{"if", object{{"properties", object{{"kind", object{{"const", kind}}}}}}},
			{"then", object{{"properties", object{{"body", object{{"$ref", "#/$defs/" + kind}}}}}}},
		})
	}
	text := func(words string) object { return object{{"type", "string"}, {"description", words}} }
	root := object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"$id", "urn:matchmark:entry:1"},
		{"title", "One entry of a matchmark log"},
		{"description", "A log is a text of such entries, one a line. An entry is one fact of one machine; it is never edited: a mistake is answered by an entry that supersedes it or withdraws it. Units: mm, N, N·m, MPa, °C, s, kg, W, V, A, Ω, L, rpm, deg. A type id such as main-cap with its place behind a point, main-cap.2, is the id of one instance; part/feature names a measurable surface."},
		{"type", "object"},
		{"required", []string{"id", "at", "by", "device", "kind", "v", "body"}},
		{"additionalProperties", false},
		{"properties", object{
			{"id", object{{"type", "string"}, {"minLength", 1}, {"description", "made on the device, sorts by time (UUIDv7)"}}},
			{"seq", object{{"type", "integer"}, {"minimum", 1}, {"description", "number in the machine's log, without gaps; absent before it is kept"}}},
			{"at", object{{"type", "string"}, {"format", "date-time"}, {"description", "when it happened, by the device's clock"}}},
			{"by", text("author")},
			{"device", text("where it was recorded")},
			{"kind", object{{"enum", kinds}}},
			{"v", object{{"const", 1}, {"description", "version of the kind's shape"}}},
			{"supersedes", text("id of the entry this one replaces")},
			{"body", object{{"type", "object"}, {"description", "the fact; its shape is the definition named after the kind"}}},
		}},
		{"allOf", rules},
		{"$defs", append(defs, g.shared...)},
	}
	raw, err := json.Marshal(root)
	if err != nil {
		t.Fatal(err)
	}
	return indent(t, raw)
}

func indent(t *testing.T, raw []byte) []byte {
	t.Helper()
	var out strings.Builder
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(json.RawMessage(raw)); err != nil {
		t.Fatal(err)
	}
	return []byte(out.String())
}

// structure is the schema of a struct; embedded structs lie flat in it.
func (g *generator) structure(typ reflect.Type, def string) object {
	var properties object
	required := []string{}
	g.members(typ, def, &properties, &required)
	out := object{{"type", "object"}}
	if words := g.comments[typ.Name()]; words != "" {
		out = append(out, member{"description", words})
	}
	return append(out, member{"required", required}, member{"additionalProperties", false}, member{"properties", properties})
}

func (g *generator) members(typ reflect.Type, def string, properties *object, required *[]string) {
	for i := range typ.NumField() {
		f := typ.Field(i)
		if f.Anonymous {
			g.members(f.Type, def, properties, required)
			continue
		}
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		always := !strings.HasPrefix(options, "omit")
		s := g.schema(f.Type, always)
		if words := wordsOf(def, name); words != nil {
			s = object{{"enum", words}}
		}
		if words := g.comments[typ.Name()+"."+f.Name]; words != "" {
			s = append(s, member{"description", words})
		}
		*properties = append(*properties, member{name, s})
		if always {
			*required = append(*required, name)
		}
	}
}

// schema is the schema of a field. A list that is always written may be null,
// which is how an empty one is written.
func (g *generator) schema(typ reflect.Type, always bool) object {
	if typ == reflect.TypeFor[time.Time]() {
		return object{{"type", "string"}, {"format", "date-time"}}
	}
	if typ == reflect.TypeFor[Sum]() {
		return object{{"type", "string"}, {"pattern", "^[0-9a-f]{64}$"}}
	}
	switch typ.Kind() {
	case reflect.Pointer:
		return g.schema(typ.Elem(), false)
	case reflect.Bool:
		return object{{"type", "boolean"}}
	case reflect.Int, reflect.Int64:
		return object{{"type", "integer"}}
	case reflect.Float64:
		return object{{"type", "number"}}
	case reflect.Map:
		return object{{"type", "object"}, {"additionalProperties", g.schema(typ.Elem(), true)}}
	case reflect.Slice:
		kind := any("array")
		if always {
			kind = []string{"array", "null"}
		}
		return object{{"type", kind}, {"items", g.schema(typ.Elem(), true)}}
	case reflect.Struct:
		if name := typ.Name(); !g.done[name] {
			g.done[name] = true
			s := g.structure(typ, name)
			g.shared = append(g.shared, member{name, s})
		}
		return object{{"$ref", "#/$defs/" + typ.Name()}}
	}
	return object{{"type", "string"}}
}

// reading is what the source of this package says beyond its types.
type reading struct {
	comments map[string]string   // on types and fields: "PartAdded", "PartAdded.Qty"
	words    map[string][]string // of each block of text constants, by the first one's name
}

// source reads the package once.
var source = sync.OnceValue(func() reading {
	out := reading{map[string]string{}, map[string][]string{}}
	files, err := filepath.Glob("*.go")
	if err != nil {
		panic(err)
	}
	for _, name := range files {
		if !strings.HasSuffix(name, "_test.go") {
			out.file(name)
		}
	}
	return out
})

// file reads one file of the package.
func (r reading) file(name string) {
	tree, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
	if err != nil {
		panic(err)
	}
	ast.Inspect(tree, func(n ast.Node) bool {
		decl, ok := n.(*ast.GenDecl)
		switch {
		case ok && decl.Tok == token.TYPE:
			r.types(decl)
		case ok && decl.Tok == token.CONST:
			r.constants(decl)
		}
		return !ok
	})
}

func (r reading) types(decl *ast.GenDecl) {
	for _, spec := range decl.Specs {
		typ := spec.(*ast.TypeSpec)
		doc := typ.Doc
		if doc == nil && len(decl.Specs) == 1 {
			doc = decl.Doc
		}
		name := typ.Name.Name
		r.comments[name] = oneLine(doc)
		s, ok := typ.Type.(*ast.StructType)
		if !ok {
			continue
		}
		for _, f := range s.Fields.List {
			for _, field := range f.Names {
				r.comments[name+"."+field.Name] = oneLine(f.Comment)
			}
		}
	}
}

func (r reading) constants(decl *ast.GenDecl) {
	first := ""
	for _, spec := range decl.Specs {
		c := spec.(*ast.ValueSpec)
		if first == "" {
			first = c.Names[0].Name
		}
		for _, v := range c.Values {
			if text, ok := v.(*ast.BasicLit); ok && text.Kind == token.STRING {
				word, err := strconv.Unquote(text.Value)
				if err != nil {
					panic(err)
				}
				r.words[first] = append(r.words[first], word)
			}
		}
	}
}

func oneLine(c *ast.CommentGroup) string { return strings.Join(strings.Fields(c.Text()), " ") }
