package kit

import (
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"
)

// page is docs/KITS.md.
func page(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("../../docs/KITS.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// example is the worked kit of the page.
func example(t testing.TB) string {
	t.Helper()
	_, after, ok := strings.Cut(page(t), "```toml\n")
	text, _, ends := strings.Cut(after, "```")
	if !ok || !ends {
		t.Fatal("docs/KITS.md has no example")
	}
	return text
}

func TestExampleOfThePageIsAKit(t *testing.T) {
	s, faults := Read("example.toml", []byte(example(t)))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if faults := Inspect(s); len(faults) > 0 {
		t.Fatal(faults)
	}
	for impeller, joints := range map[string]int{"pressed": 4, "screwed": 4} {
		m := fold(t, []*Sheet{s}, Taking{Choices: map[string]map[string]string{"water-pump-example": {"impeller": impeller}},
			Counts: map[string]map[string]int{"water-pump-example": {"bolts": 6}}})
		if len(m.Joints) != joints || len(m.Parts) != 6 || m.Part("pump-bolt").Qty != 6 {
			t.Errorf("%s: %d joints, %d parts, %d bolts", impeller, len(m.Joints), len(m.Parts), m.Part("pump-bolt").Qty)
		}
		if grip := m.Check("impeller-grip"); (grip != nil) != (impeller == "pressed") {
			t.Errorf("%s: grip check is there: %v", impeller, grip != nil)
		}
	}
}

// TestThePageNamesEveryField compares the tables with the shape of the file,
// both ways.
func TestThePageNamesEveryField(t *testing.T) {
	text := page(t)
	var look func(typ reflect.Type, heading string)
	look = func(typ reflect.Type, heading string) {
		_, after, ok := strings.Cut(text, "\n### "+heading+"\n")
		if !ok {
			t.Errorf("the page has no heading %q", heading)
			return
		}
		body, _, _ := strings.Cut(after, "\n### ")
		told := map[string]bool{}
		for _, m := range regexp.MustCompile("(?m)^\\| `([a-z_]+)` \\|").FindAllStringSubmatch(body, -1) {
			told[m[1]] = true
		}
		for i := range typ.NumField() {
			f := typ.Field(i)
			tag := f.Tag.Get("toml")
			if !told[tag] {
				t.Errorf("%s: field %s is not in the table", heading, tag)
			}
			delete(told, tag)
			inner := f.Type
			for inner.Kind() == reflect.Slice || inner.Kind() == reflect.Pointer {
				inner = inner.Elem()
			}
			if inner.Kind() == reflect.Struct {
				look(inner, heading+"."+tag)
			}
		}
		for tag := range told {
			t.Errorf("%s: the table has a field %s that no kit can have", heading, tag)
		}
	}
	file := reflect.TypeFor[File]()
	for i := range file.NumField() {
		inner := file.Field(i).Type
		if inner.Kind() == reflect.Slice {
			inner = inner.Elem()
		}
		look(inner, file.Field(i).Tag.Get("toml"))
	}
}

func TestThePageNamesEveryWord(t *testing.T) {
	text := page(t)
	row := func(heading, field string) string {
		_, after, _ := strings.Cut(text, "\n### "+heading+"\n")
		_, after, _ = strings.Cut(after, "| `"+field+"` |")
		line, _, _ := strings.Cut(after, "\n")
		return line
	}
	_, hazards, _ := strings.Cut(text, "## Hazard words")
	for _, list := range []struct {
		where string
		words []string
	}{{row("joint", "sort"), JointSorts()}, {row("part.feature", "sort"), FeatureSorts()}, {row("check", "when"), Whens()},
		{row("check", "by"), Bys()}, {row("check.limit", "from"), provenances()}, {row("check.remedy", "where"), Wheres()}, {hazards, Hazards()}} {
		for _, w := range list.words {
			if !strings.Contains(list.where, w) {
				t.Errorf("the page does not name %q in %q", w, list.where)
			}
		}
	}
	if n := strings.Count(hazards, "`, `") + 1; n != len(Hazards()) {
		t.Errorf("the page names %d hazards, the program knows %d", n, len(Hazards()))
	}
}
