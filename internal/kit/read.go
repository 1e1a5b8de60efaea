package kit

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"matchmark/internal/trade/spelling"
)

// Sheet is a kit file as read: what it says, and where it says it.
type Sheet struct {
	File
	Name  string // of the file, as faults name it
	Lines Lines
}

const maxText = 4 << 20 // bytes of one kit file

// Read reads one kit file. Name is what faults call it. It is strict: a field
// nobody knows is a fault. The sheet is nil only where the text cannot be read
// at all; else it holds what could be read, and Inspect says whether it makes
// sense. It never panics. Cost: linear in the text.
func Read(name string, text []byte) (*Sheet, Faults) {
	if len(text) > maxText {
		return nil, Faults{{name, 1, "the file", "it is too long to be a kit", "choose a kit file"}}
	}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	s := &Sheet{Name: name}
	err := toml.NewDecoder(bytes.NewReader(text)).DisallowUnknownFields().Decode(&s.File)
	var missing *toml.StrictMissingError
	if err != nil && !errors.As(err, &missing) {
		return nil, Faults{unreadable(name, err)}
	}
	s.Lines = scan(text)
	var faults Faults
	if missing != nil {
		for _, e := range missing.Errors {
			faults = append(faults, unknownField(name, &e))
		}
	}
	s.notFinite(reflect.ValueOf(s.File), "", func(path string) {
		faults = append(faults, Fault{name, s.Lines.Of(path), "field " + quote(lastName(path)), "this is no number to reckon with", "write a plain figure"})
	})
	return s, faults.sorted()
}

// mismatch is how the reader of TOML words a value of the wrong sort.
var mismatch = regexp.MustCompile(`cannot decode TOML (.+?) into (?:struct field \S+ of type )?(\S+)`)

// unreadable turns the reader's error into a fault.
func unreadable(name string, err error) Fault {
	f := Fault{File: name, Line: 1, Item: "the file", Problem: "it cannot be read: " + reader(err),
		Cure: "look for a missing quotation mark, bracket or equals sign on this line or the one above"}
	var d *toml.DecodeError
	if !errors.As(err, &d) {
		return f
	}
	f.Line, _ = d.Position()
	key := d.Key()
	if len(key) > 0 {
		f.Item = "field " + quote(key[len(key)-1])
	}
	if m := mismatch.FindStringSubmatch(d.Error()); m != nil {
		f.Problem = fmt.Sprintf("%s stands here, but %s is wanted", spelling.An(m[1]), wanted(m[2]))
		f.Cure = "write it as in the table of fields in docs/KITS.md"
		if m[2] == "string" {
			f.Cure = "put the value in quotation marks"
		}
	}
	return f
}

// reader is the error's own words, without the library's name.
func reader(err error) string { return strings.TrimPrefix(err.Error(), "toml: ") }

// wanted says in plain words what a field of a Go type takes.
func wanted(typ string) string {
	switch {
	case typ == "string":
		return "text in quotation marks"
	case typ == "bool":
		return "true or false"
	case typ == "int", typ == "float64":
		return "a number"
	case strings.HasPrefix(typ, "[][]"):
		return "a list of lists in square brackets"
	case strings.HasPrefix(typ, "[]"):
		return "a list in square brackets"
	}
	return "a table of fields"
}

// unknownField names the field nobody knows and the nearest known one.
func unknownField(name string, e *toml.DecodeError) Fault {
	line, _ := e.Position()
	key := e.Key()
	last := key[len(key)-1]
	f := Fault{File: name, Line: line, Item: "field " + quote(last), Problem: "no such field is known here"}
	if len(key) > 1 {
		f.Problem = fmt.Sprintf("no such field is known in a %s", strings.Join(key[:len(key)-1], " "))
	}
	f.Cure = meant(last, fieldsUnder(key[:len(key)-1]), "take it out, or see the table of fields in docs/KITS.md")
	return f
}

// fieldsUnder lists the field names that a path of keys may hold.
func fieldsUnder(path []string) []string {
	t := reflect.TypeFor[File]()
	for _, name := range path {
		t = below(t, name)
		if t == nil {
			return nil
		}
	}
	var out []string
	for i := range t.NumField() {
		out = append(out, t.Field(i).Tag.Get("toml"))
	}
	return out
}

// below is the struct type of a named field, nil where it is none.
func below(t reflect.Type, name string) reflect.Type {
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Tag.Get("toml") != name {
			continue
		}
		t = f.Type
		for t.Kind() == reflect.Slice || t.Kind() == reflect.Pointer {
			t = t.Elem()
		}
		if t.Kind() == reflect.Struct {
			return t
		}
		return nil
	}
	return nil
}

// notFinite calls tell with the path of every figure that is infinite or no
// number; TOML allows them, a kit does not.
func (s *Sheet) notFinite(v reflect.Value, path string, tell func(string)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			s.notFinite(v.Elem(), path, tell)
		}
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			tell(path)
		}
	case reflect.Slice:
		for i := range v.Len() {
			s.notFinite(v.Index(i), join(path, fmt.Sprint(i)), tell)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			s.notFinite(v.Field(i), join(path, v.Type().Field(i).Tag.Get("toml")), tell)
		}
	}
}

// lastName is the last word of a path that is no list index.
func lastName(path string) string {
	parts := strings.Split(path, ".")
	for i := len(parts) - 1; i > 0; i-- {
		if parts[i] != "" && (parts[i][0] < '0' || parts[i][0] > '9') {
			return parts[i]
		}
	}
	return parts[0]
}
