package kit

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// FuzzRead wants no panic from any text, whether it is read, inspected or
// expanded, and faults that can be shown.
func FuzzRead(f *testing.F) {
	f.Add([]byte(engineKit))
	f.Add([]byte(pumpKit))
	f.Add([]byte(example(f)))
	f.Add([]byte("[[part]]\nfeature = [{id=\"a\"}, {id=\"b\"}]\n[[part.feature]]\n"))
	f.Add([]byte("part = [{id = \"a\", feature = [{id = \"x\"}]}]\n[kit]\nid = \"\"\n"))
	f.Add([]byte("[check.limit]\nhigh=\"1\"\n[[check]]\n[[check.remedy.shift]]"))
	f.Add([]byte("\xef\xbb\xbf[kit]\r\nid='a'\r\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		s, faults := Read("fuzz.toml", text)
		lines := 1 + strings.Count(string(text), "\n")
		if s == nil && len(faults) == 0 {
			t.Fatal("no sheet and no fault")
		}
		if s != nil {
			faults = append(faults, Inspect(s)...)
			Expand([]*Sheet{s}, Taking{})
		}
		for _, fault := range faults {
			if fault.Line < 1 || fault.Line > lines || fault.Problem == "" || fault.Item == "" {
				t.Fatalf("%d lines, fault %+v", lines, fault)
			}
			if utf8.Valid(text) && !utf8.ValidString(fault.String()) {
				t.Fatalf("a fault that cannot be shown: %q", fault.String())
			}
		}
	})
}

func TestLinesOfEveryShape(t *testing.T) {
	text := "\xef\xbb\xbf[kit]\r\nid = \"a\"\r\n\r\n" + // 1-3
		"[[part]]\nid = \"p\"\n  [[part.feature]]\n  id = \"one\"\n  [[part.feature]]\n  id = \"two\"\n" + // 4-9
		"[[check]] # a remark\n'id' = \"c\"\nlimit = [ { from = \"x\",\n high = \"1\" },\n { \"high\" = \"2\" } ]\nsize.symbol = \"D\"\n" + // 10-15
		"[[check]]\nid = \"d\"\nhow = \"\"\"\none\ntwo\n\"\"\"\n[check.size]\nsymbol = \"D\"\n[[check.limit]]\n[[check.limit]]\nlow = \"3\"\n" + // 16-26
		"[[check.remedy]]\n[[check.remedy.shift]]\nby = 1\n[[check.remedy]]\n[[check.remedy.shift]]\n[[check.remedy.shift]]\nby = 2\n" + // 27-33
		"[[joint]]\nor_behind = [\n [\"a\",\n \"b\"], # one way\n [\"c\"]]\n" // 34-38
	s := sheet(t, "lines.toml", text)
	for path, want := range map[string]int{
		"kit": 1, "kit.id": 2, "part.0": 4, "part.0.id": 5, "part.0.feature.0": 6, "part.0.feature.1": 8, "part.0.feature.1.id": 9,
		"check.0": 10, "check.0.id": 11, "check.0.limit": 12, "check.0.limit.0": 12, "check.0.limit.0.high": 13, "check.0.limit.1": 14,
		"check.0.limit.1.high": 14, "check.0.size.symbol": 15, "check.1": 16, "check.1.how": 18, "check.1.size": 22, "check.1.limit.1": 25,
		"check.1.limit.1.low": 26, "check.1.limit.1.from": 25, "check.1.remedy.0.shift.0.by": 29, "check.1.remedy.1": 30,
		"check.1.remedy.1.shift.1": 32, "check.1.remedy.1.shift.1.by": 33, "joint.0.or_behind": 35, "joint.0.or_behind.0.1": 37,
		"joint.0.or_behind.1.0": 38, "joint.0.or_behind.1": 35, "joint.9": 1, "nothing.at.all": 1,
	} {
		if got := s.Lines.Of(path); got != want {
			t.Errorf("%s: line %d, want %d", path, got, want)
		}
	}
}
