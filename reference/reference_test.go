package reference

import (
	"strings"
	"testing"
)

func TestAllTablesRead(t *testing.T) {
	if len(Names()) < 10 {
		t.Fatalf("only %v embedded", Names())
	}
	for _, name := range Names() {
		tab, err := Read(name)
		if err != nil {
			t.Error(err)
			continue
		}
		if len(tab.Rows) == 0 {
			t.Errorf("%s has no rows", name)
		}
	}
}

func TestParseNamesFileAndLine(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "x.csv"},
		{"a,b\n1,2\n", "x.csv line 1"},
		{"a,source\n1,s\n2,\n", "x.csv line 3"},
		{"a,source\n1\n", "x.csv"},
	} {
		_, err := Parse("x.csv", strings.NewReader(c.text))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: error %v does not name %q", c.text, err, c.want)
		}
	}
	if _, err := Read("no.csv"); err == nil {
		t.Error("an absent table was read")
	}
}
