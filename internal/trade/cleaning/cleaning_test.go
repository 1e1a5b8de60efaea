package cleaning

import (
	"bufio"
	"errors"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/reftest"
	"matchmark/reference"
)

func TestTableIsWhole(t *testing.T) {
	if _, err := table(); err != nil {
		t.Fatal(err)
	}
	if len(Materials()) < 18 || len(Methods()) < 40 {
		t.Fatalf("only %d materials and %d methods", len(Materials()), len(Methods()))
	}
	for _, m := range Materials() {
		may, never := 0, 0
		for _, r := range For(m) {
			switch {
			case r.May == No && r.Why != "":
				never++
			case r.May == No:
				t.Errorf("%s on %s: never, and no why", r.Method, m)
			case r.May == Yes:
				may++
			}
		}
		if may == 0 || never == 0 {
			t.Errorf("%s: %d ways may be used and %d never; at least one of each was wanted", m, may, never)
		}
	}
}

// Aluminium and zinc are amphoteric: alkali dissolves them, with hydrogen
// (textbook chemistry, from memory). Pistons are aluminium.
func TestNoAlkaliOnWhatItDissolves(t *testing.T) {
	for _, m := range []string{"aluminium", "piston", "zinc die casting"} {
		for _, r := range For(m) {
			if (has(r.Method, "caustic") || has(r.Method, "alkaline")) && r.May != No {
				t.Errorf("%s on %s: %s", r.Method, m, r.May)
			}
		}
		if r, err := May(m, "Caustic-Soda"); err != nil || r.May != No || r.Why == "" {
			t.Errorf("caustic soda on %s: %+v, %v", m, r, err)
		}
	}
}

// Acid charges hard steel with hydrogen (ISO 4042 warns of it for plated bolts,
// from memory).
func TestNoAcidOnHardSteel(t *testing.T) {
	for _, m := range []string{"spring", "hardened gear", "crank and cam steel"} {
		for _, method := range []string{"strong acid", "citric acid dip"} {
			if r, err := May(m, method); err != nil || r.May != No {
				t.Errorf("%s on %s: %+v, %v", method, m, r, err)
			}
		}
	}
}

func TestGritNeverWithGalleriesOpen(t *testing.T) {
	const grit = "bead or grit blast with galleries open"
	for _, m := range Materials() {
		r, err := May(m, grit)
		if err != nil || r.May == Yes || r.May == WithCare {
			t.Errorf("%s: %+v, %v", m, r, err)
		}
	}
	for _, m := range []string{"cast iron", "aluminium", "magnesium", "crank and cam steel", "piston", "hydraulic part"} {
		if r, _ := May(m, grit); r.May != No {
			t.Errorf("%s holds oil ways, and grit in them is %q", m, r.May)
		}
	}
}

// A pair that the table does not hold is no leave to try it.
func TestUnlistedIsNoLeave(t *testing.T) {
	r, err := May("friction lining", "wire in the spray hole")
	if err != nil || r.May != Unlisted || r.Why == "" {
		t.Errorf("%+v, %v", r, err)
	}
}

func TestErrorsNameTheInputAndTheNearest(t *testing.T) {
	for _, c := range []struct{ material, method, what, near string }{
		{"alumnium", "caustic soda", "material", "aluminium"}, {"aluminium", "castic soda", "method", "caustic soda"},
	} {
		_, err := May(c.material, c.method)
		var wrong NameError
		if !errors.As(err, &wrong) || wrong.What != c.what || len(wrong.Near) == 0 || wrong.Near[0] != c.near || !strings.Contains(err.Error(), wrong.Got) {
			t.Errorf("%s, %s: %v", c.material, c.method, err)
		}
	}
	if For("wood") != nil {
		t.Error("wood is known")
	}
}

func TestCautionsFollowTheWords(t *testing.T) {
	for _, c := range []struct{ material, method, want string }{
		{"cast iron", "hot alkaline wash", "Alkali"}, {"aluminium", "solvent wash", "Vapour"}, {"aluminium", "wire wheel", "fly"},
		{"friction lining", "", "asbestos"}, {"sheet metal and paint", "heat or weld on a fuel tank", "explodes"}, {"rolling bearing", "compressed air", "2.1 bar"},
	} {
		said := Cautions(c.material, c.method)
		if !strings.Contains(said[0], "safety data sheet") || !strings.Contains(strings.Join(said[1:], " "), c.want) {
			t.Errorf("%s, %s: %q lacks %q", c.material, c.method, said, c.want)
		}
	}
	if said := Cautions("cast iron", "rust remover without acid"); len(said) != 1 {
		t.Errorf("what is without acid is cautioned as acid: %q", said)
	}
}

// ours names the materials of ../shared/trade/cleaning.yaml in this table.
var ours = map[string]string{"cast-iron": "cast iron", "aluminium": "aluminium", "magnesium": "magnesium", "zinc-die": "zinc die casting",
	"crank-bearing-steel": "crank and cam steel", "shell-bearing": "shell or bush", "piston": "piston", "hard-spring": "spring",
	"rolling-bearing": "rolling bearing", "gear-hardened": "hardened gear", "fuel-precise": "injection part", "rubber-seal": "rubber seal",
	"copper-brass": "copper or brass", "electrical": "electrical part", "tin-paint": "sheet metal and paint", "hydraulic": "hydraulic part",
	"plastic": "plastic", "lining": "friction lining"}

// Against ../shared/trade/cleaning.yaml (common practice, no source): every
// material of it is here, with no fewer things forbidden.
func TestNothingForbiddenIsLost(t *testing.T) {
	f, err := os.Open(reftest.Shared(t, "trade/cleaning.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	forbidden, id := map[string]int{}, ""
	for in := bufio.NewScanner(f); in.Scan() && !strings.HasPrefix(in.Text(), "passages:"); {
		if m := regexp.MustCompile(`^- id: (\S+)`).FindStringSubmatch(in.Text()); m != nil {
			id = m[1]
		}
		if strings.HasPrefix(in.Text(), "  - what:") {
			forbidden[id]++
		}
	}
	if len(forbidden) != len(ours) {
		t.Errorf("%d materials there, %d known here", len(forbidden), len(ours))
	}
	for id, n := range forbidden {
		never := slices.DeleteFunc(For(ours[id]), func(r Ruling) bool { return r.May != No })
		if len(never) < n {
			t.Errorf("%s: %d forbidden there, %d here as %q", id, n, len(never), ours[id])
		}
	}
}

func TestBadRowsNameFileAndLine(t *testing.T) {
	const head = "material,method,may,why,source\niron,wash,yes,,s\n"
	for _, c := range []struct{ row, want string }{
		{",wash,yes,,s", "material"}, {"iron,fire,maybe,,s", `"maybe"`}, {"iron,fire,no,,s", "why"}, {"iron,wash,yes,,s", "twice"},
	} {
		tab, err := reference.Parse("x.csv", strings.NewReader(head+c.row+"\n"))
		if err != nil {
			t.Fatal(err)
		}
		if _, err = read(tab); err == nil || !strings.Contains(err.Error(), "x.csv line 3") || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: error %v, want line 3 and %q", c.row, err, c.want)
		}
	}
}
