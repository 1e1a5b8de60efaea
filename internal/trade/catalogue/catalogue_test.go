package catalogue

import (
	"strings"
	"testing"

	"matchmark/reference"
)

func tables(t testing.TB) *Catalogue {
	t.Helper()
	c, err := Standard()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestEveryKindHasItems(t *testing.T) {
	c := tables(t)
	for _, k := range Kinds() {
		items := c.Of(k)
		if len(items) < 10 {
			t.Errorf("%s: only %d items", k, len(items))
		}
		for _, it := range items {
			if it.Source == "" || it.Kind != k {
				t.Errorf("%s %s: kind %q, source %q", k, it.Designation, it.Kind, it.Source)
			}
		}
		t.Logf("%s: %d items", k, len(items))
	}
}

// TestEverySizeHasATolerance: a size without a band would be taken as exact.
func TestEverySizeHasATolerance(t *testing.T) {
	c := tables(t)
	for _, k := range Kinds() {
		if k == GearRack {
			continue // the numbers of a rack are definitions
		}
		for _, it := range c.Of(k) {
			for _, d := range it.Dims {
				if d.Lo == d.Hi {
					t.Errorf("%s %s: %s has no tolerance", k, it.Designation, d.Name)
				}
			}
		}
	}
}

func TestTwins(t *testing.T) {
	c := tables(t)
	a, _ := c.Find(RollingBearing, "6205")
	b, _ := c.Find(RollingBearing, "NU205")
	if !a.Twin(b) || !b.Twin(a) {
		t.Error("6205 and NU205 have one envelope (reference row BRG-051) and are not twins")
	}
	other, _ := c.Find(RollingBearing, "6206")
	if a.Twin(other) {
		t.Error("6205 and 6206 are taken for twins")
	}
}

func TestBadTablesNameFileAndLine(t *testing.T) {
	var ball family
	for _, f := range families {
		if f.kind == Ball {
			ball = f
		}
	}
	head := "designation,series,d,D,B,equivalents,source\n"
	for _, c := range []struct{ row, want string }{
		{",60,10,26,8,,s", "no designation"},
		{"x,60,ten,26,8,,s", `"ten"`},
		{"x,60,NaN,26,8,,s", "NaN"},
		{"x,60,26,10,8,,s", "want d below D"},
		{"x,60,-1,10,8,,s", "want above 0"},
		{"a,60,10,26,8,,s", "line 2"},
	} {
		tab, err := reference.Parse("x.csv", strings.NewReader(head+"a,60,10,26,8,,s\n"+c.row+"\n"))
		if err != nil {
			t.Fatal(err)
		}
		_, err = readItems(ball, tab, nil)
		if err == nil || !strings.Contains(err.Error(), "x.csv line 3") || !strings.Contains(err.Error(), c.want) {
			t.Errorf("row %q: error %v, want line 3 and %q", c.row, err, c.want)
		}
	}
}
