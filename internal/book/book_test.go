package book

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/demo"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
)

func near(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

// One order for each place of work, and what each job says.
func TestShopOrder(t *testing.T) {
	shops, _ := engine().papers(t)
	if len(shops) != 2 || shops[0].Where != "machine shop" || shops[1].Where != "pump shop" {
		t.Fatalf("orders to %+v", shops)
	}
	shop := shops[0]
	if len(shop.Jobs) != 3 || shop.Days != 15 || shop.CostHours != 19 || shop.Guess == "" {
		t.Fatalf("machine shop: %d jobs, %v days, %v hours", len(shop.Jobs), shop.Days, shop.CostHours)
	}
	i := slices.IndexFunc(shop.Jobs, func(j ShopJob) bool { return j.Remedy == "rebore" })
	bore := append(slices.Clone(shop.Jobs[i].Surfaces), shop.Jobs[i+1].Surfaces...)
	if len(bore) != 2 || !near(bore[1].TargetMM, 90.25) || !near(bore[0].StepMM, 0.25) {
		t.Fatalf("bores: %+v", bore)
	}
	// By hand: the larger bore is read 90.06 and 90.17; 90 + 0.25 cleans it up.
	if b := bore[0]; !near(b.From.LeastMM, 90.06) || !near(b.From.MostMM, 90.17) || !b.From.Corrected || b.From.UMM <= 0 {
		t.Errorf("bore 1 as it is: %+v", b.From)
	}
	if want := "90.250 mm: 0.25 mm oversize of 90.000 mm (unworn, ring top)"; bore[0].To != want {
		t.Errorf("to %q, want %q", bore[0].To, want)
	}
	if want := "to be agreed; piston to bore, cylinder 1 wanted 0.05 to 0.09 mm (handbook, page 7) with new Piston, cylinder 1"; bore[0].Tolerance != want {
		t.Errorf("tolerance %q, want %q", bore[0].Tolerance, want)
	}
	if got := shop.Jobs[i].SendAlong; !slices.Equal(got, []string{"new Piston, cylinder 1"}) {
		t.Errorf("sent along: %v", got)
	}
	var back []string
	for _, b := range shop.Jobs[i].Back {
		back = append(back, b.String())
	}
	for _, want := range []string{"Squish, cylinder 1, when built: 0.6 to 1 mm (paperwork, sheet 2)", "Bore wear, cylinder 1, on arrival: up to 0.015 mm (common practice, no source)"} {
		if !slices.Contains(back, want) {
			t.Errorf("checks after lack %q: %q", want, back)
		}
	}
}

// A mating part that stays and was measured gives the size itself. By hand: the
// pin is 19.980 to 19.990, wanted is 0.010 to 0.040, so the bore lies between
// 19.990 + 0.010 and 19.980 + 0.040.
func TestWindow(t *testing.T) {
	shops, _ := engine().papers(t)
	i := slices.IndexFunc(shops[0].Jobs, func(j ShopJob) bool { return j.Remedy == "ream" })
	fit := shops[0].Jobs[i].Surfaces[0].Fits[0]
	if !near(fit.Low, 20.000) || !near(fit.High, 20.020) || fit.With != "Pin" {
		t.Errorf("window %v to %v with %q", fit.Low, fit.High, fit.With)
	}
	if !strings.HasPrefix(fit.Window, "20.000 to 20.020 mm for the mating part as measured (19.980 to 19.990 mm") {
		t.Errorf("window says %q", fit.Window)
	}
}

// The same fit with the journal as the surface worked, and one that no size
// suits: rows by hand.
func TestWindowOfJournal(t *testing.T) {
	rows := []struct {
		name        string
		sort        string
		least, most float64
		low, high   float64
	}{
		{"bore to a round pin", machine.Bore, 20, 20, 20.01, 20.04},
		{"journal in a round bush", machine.Shaft, 20, 20, 19.96, 19.99},
		{"journal in an oval bush", machine.Shaft, 20, 20.02, 19.98, 19.99},
		{"bush too oval for any journal", machine.Shaft, 20, 20.05, 0, 0},
	}
	for _, r := range rows {
		fit := Fit{}
		fit.window(&machine.Feature{Sort: r.sort}, Measured{LeastMM: r.least, MostMM: r.most}, judge.Bounds{NewLow: 0.01, NewHigh: 0.04})
		if !near(fit.Low, r.low) || !near(fit.High, r.high) || fit.Window == "" {
			t.Errorf("%s: %v to %v, want %v to %v (%s)", r.name, fit.Low, fit.High, r.low, r.high, fit.Window)
		}
	}
}

func find(l List, name string) *Item {
	for i := range l.Items {
		if l.Items[i].Name == name {
			return &l.Items[i]
		}
	}
	return nil
}

// What is renewed, what is used once, what is missing, and fasteners.
func TestBuyingList(t *testing.T) {
	l := engine()
	l.add(&machine.CallMade{Part: "bearing", Call: machine.Renew, Why: "rough"},
		&machine.PartIdentified{Part: "bearing", What: "ball bearing", Designation: "6205", Probability: 0.99, Equivalents: []string{"another of the size"}})
	_, list := l.papers(t)
	rows := []struct {
		name           string
		qty            int
		places, size   string
		why, by, thing string
	}{
		{"Piston", 2, "cylinder 1, 2", "0.25 mm oversize, to suit “Rebore”", "Rebore, for Bore wear.", "Bore wear: up to 0.1 mm (common practice, no source)", ""},
		{"Head gasket", 1, "", "", "It came off, and is used once only.", "used once only, by the kit", ""},
		{"Clip", 2, "", "", "4 of 6 found.", "counted at this machine", ""},
		{"Bearing", 1, "", "", "Called renew by fitter: rough.", "own decision", "6205"},
		{"M10x1.25x60", 2, "", "", "2 unfit or missing at Head.", "seen when it came out", ""},
	}
	for _, r := range rows {
		it := find(list, r.name)
		if it == nil {
			t.Errorf("%s is not on the list", r.name)
			continue
		}
		if it.Qty != r.qty || it.Places != r.places || it.Size != r.size || strings.Join(it.Why, "|") != r.why || strings.Join(it.Limits, "|") != r.by {
			t.Errorf("%s: %+v", r.name, it)
		}
		if (it.Standard != nil) != (r.thing != "") || it.Standard != nil && (it.Standard.Designation != r.thing || !it.Standard.Settled) {
			t.Errorf("%s: standard part %+v", r.name, it.Standard)
		}
	}
	if len(list.Items) != len(rows) {
		t.Errorf("%d items, want %d: %+v", len(list.Items), len(rows), list.Items)
	}
}

// The restorer's call rules, and says so.
func TestCallRules(t *testing.T) {
	l := engine()
	l.add(&machine.CallMade{Part: "piston.1", Call: machine.GoesBack, Why: "like new"}, &machine.CallMade{Part: "liner.2", Call: machine.Renew},
		&machine.Ordered{Order: "o1", What: "piston", Parts: []machine.PartID{"piston.2"}})
	shops, list := l.papers(t)
	it := find(list, "Piston")
	if it.Qty != 1 || it.Places != "cylinder 2" || it.OnOrder != "ordered, o1" {
		t.Errorf("piston: %+v", it)
	}
	if len(list.Notes) != 1 || !strings.Contains(list.Notes[0], `called "goes back"`) {
		t.Errorf("notes: %q", list.Notes)
	}
	i := slices.IndexFunc(shops[0].Jobs, func(j ShopJob) bool { return slices.Contains(j.Parts, "liner.2") })
	if notes := shops[0].Jobs[i].Notes; len(notes) != 1 || !strings.Contains(notes[0], `Liner, cylinder 2 is called "renew"`) {
		t.Errorf("notes of the rebore: %q", notes)
	}
}

// Text that a spreadsheet would run is made harmless; other text is untouched.
func TestHarmless(t *testing.T) {
	rows := map[string]string{
		"": "", "Liner": "Liner", "0.25 mm": "0.25 mm", "a=b": "a=b", "'x": "'x",
		"=1+1": "'=1+1", "+49": "'+49", "-0.25": "'-0.25", "@SUM(A1)": "'@SUM(A1)",
		" =1": "' =1", "\t=1": "'\t=1", "\r=1": "'\r=1", "\tx": "'\tx", "\u00a0=1": "'\u00a0=1", "\ufeff@x": "'\ufeff@x", "＝1": "'＝1",
	}
	for in, want := range rows {
		if got := harmless(in); got != want {
			t.Errorf("harmless(%q) = %q, want %q", in, got, want)
		}
	}
}

// A name that is a formula does not reach a cell as one.
func TestCSVIsHarmless(t *testing.T) {
	l := engine()
	l.add(&machine.PartAdded{ID: "evil", Name: "=HYPERLINK(\"x\")", Assembly: "engine", Material: "@m"}, &machine.CallMade{Part: "evil", Call: machine.Renew, Why: "+cmd"})
	_, list := l.papers(t)
	var b bytes.Buffer
	if err := WriteBuyingCSV(&b, list); err != nil {
		t.Fatal(err)
	}
	lines := cells(t, b.Bytes(), BuyingColumns())
	found := false
	for _, line := range lines {
		found = found || line["name"] == `'=HYPERLINK("x")` && line["material"] == "'@m"
		for name, v := range line {
			if v != "" && strings.ContainsRune("=+-@", rune(v[0])) {
				t.Errorf("cell %s begins like a formula: %q", name, v)
			}
		}
	}
	if !found {
		t.Errorf("the part is not in %v", lines)
	}
}

// cells reads a CSV back by the names of its columns.
func cells(t *testing.T, text []byte, columns []string) []map[string]string {
	t.Helper()
	all, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(all[0], columns) {
		t.Fatalf("columns %v, want %v", all[0], columns)
	}
	var out []map[string]string
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, v := range line {
			row[columns[i]] = v
		}
		out = append(out, row)
	}
	return out
}

// bound is a figure with a bound and its unit.
var bound = regexp.MustCompile(`(?:up to|at least|wanted) [0-9.−]+(?: to [0-9.−]+)?(?: [^ (;,]+)? ?`)

// On the demo machine every limit of every paper says where it comes from, none
// says that it is a maker's, and the same machine gives the same bytes. What the
// kit tells to mind is labelled as its advice, as a whole.
func TestProvenanceEverywhere(t *testing.T) {
	entries, err := demo.Entries()
	if err != nil {
		t.Fatal(err)
	}
	m := machine.Fold(entries)
	f := judge.All(m)
	seen := 0
	for _, aim := range remedy.Aims() {
		p := remedy.Decide(m, f, aim)
		shops, list := ShopOrder(m, f, p), BuyingList(m, f, p)
		if len(shops) == 0 || len(list.Items) == 0 {
			t.Fatalf("%s: %d orders, %d items", aim, len(shops), len(list.Items))
		}
		text := write(t, shops, list)
		var plain bytes.Buffer
		if err := errors.Join(WriteShopText(&plain, shops), WriteBuyingText(&plain, list)); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(plain.String()) {
			if strings.HasPrefix(line, "   "+mindLabel) {
				continue
			}
			for _, at := range bound.FindAllStringIndex(line, -1) {
				seen++
				if line[at[1]] != '(' {
					t.Errorf("%s: %q without its provenance in %q", aim, line[at[0]:at[1]], line)
				}
			}
		}
		if strings.Contains(strings.ToLower(text), "maker") {
			t.Errorf("%s: a paper speaks of a maker", aim)
		}
		for _, it := range list.Items {
			if len(it.Limits) == 0 || len(it.Why) == 0 || it.Qty < 1 {
				t.Errorf("%s: %s without a reason, limit or number: %+v", aim, it.Name, it)
			}
		}
		again := machine.Fold(entries)
		g := judge.All(again)
		q := remedy.Decide(again, g, aim)
		if write(t, ShopOrder(again, g, q), BuyingList(again, g, q)) != text {
			t.Errorf("%s: the same machine gives another paper", aim)
		}
	}
	if seen < 50 {
		t.Errorf("only %d limits seen: the test looks past them", seen)
	}
}

// write puts a set of papers down in all forms.
func write(t *testing.T, shops []Shop, list List) string {
	t.Helper()
	var b bytes.Buffer
	for _, err := range []error{WriteShopText(&b, shops), WriteBuyingText(&b, list), WriteShopCSV(&b, shops), WriteBuyingCSV(&b, list), json.NewEncoder(&b).Encode(shops), json.NewEncoder(&b).Encode(list)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return b.String()
}

// The first line of a job carries price and days, the others do not, so that a
// column adds up to the order.
func TestShopCSV(t *testing.T) {
	shops, _ := engine().papers(t)
	double := shops[0].Jobs[1]
	double.Surfaces = append(slices.Clone(double.Surfaces), shops[0].Jobs[2].Surfaces...)
	shops[0].Jobs = []ShopJob{shops[0].Jobs[0], double}
	var b bytes.Buffer
	if err := WriteShopCSV(&b, shops); err != nil {
		t.Fatal(err)
	}
	lines, costs := cells(t, b.Bytes(), ShopColumns()), 0
	for _, line := range lines {
		if line["cost_hours_guess"] != "" {
			costs++
		}
		if line["job"] == "Rebore" && (line["target_mm"] != "90.250" || line["nominal_from"] != "unworn, ring top") {
			t.Errorf("target %q from %q", line["target_mm"], line["nominal_from"])
		}
	}
	if len(lines) != 4 || costs != 3 {
		t.Errorf("%d lines, %d with a price: %v", len(lines), costs, lines)
	}
}

// An empty plan gives papers that say so.
func TestNothingToDo(t *testing.T) {
	m := machine.Fold(nil)
	f := judge.All(m)
	p := remedy.Decide(m, f, remedy.Cheapest)
	text := write(t, ShopOrder(m, f, p), BuyingList(m, f, p))
	for _, want := range []string{"Nothing goes out to a shop.", "Nothing to buy.", `"items":[]`} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %s", want, text)
		}
	}
}
