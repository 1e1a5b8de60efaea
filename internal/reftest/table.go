package reftest

import (
	"encoding/csv"
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Record is one line of a reference file: column name to text.
type Record map[string]string

// Table is a reference file keyed by row id. It keeps count of the rows that
// a test used and of those that passed.
type Table struct {
	Name   string
	IDs    []string // file order
	rows   map[string]Record
	used   map[string]bool
	failed map[string]bool
	listed map[string]string // row id to the reason why it is not used
}

// Load reads a CSV file of the shared reference folder; see Shared for when
// it skips. The file must have a column "id" without repeats and a column
// "source" that is nowhere empty.
func Load(t testing.TB, name string) *Table {
	t.Helper()
	f, err := os.Open(Shared(t, name))
	if err != nil {
		t.Fatalf("reference file %s: %v", name, err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatalf("reference file %s: %v", name, err)
	}
	tab, err := tableFrom(name, lines)
	if err != nil {
		t.Fatal(err)
	}
	return tab
}

// tableFrom keys the lines of a file by their id; the first line is the head.
func tableFrom(name string, lines [][]string) (*Table, error) {
	if len(lines) == 0 || !slices.Contains(lines[0], "id") {
		return nil, fmt.Errorf("reference file %s: no column id", name)
	}
	tab := &Table{Name: name, rows: map[string]Record{}, used: map[string]bool{}, failed: map[string]bool{}, listed: map[string]string{}}
	for _, line := range lines[1:] {
		rec := Record{}
		for i, col := range lines[0] {
			rec[col] = line[i]
		}
		id := rec["id"]
		if _, twice := tab.rows[id]; twice || id == "" {
			return nil, fmt.Errorf("reference file %s: id %q is empty or used twice", name, id)
		}
		if strings.TrimSpace(rec["source"]) == "" {
			return nil, fmt.Errorf("reference file %s: row %s has no source", name, id)
		}
		tab.rows[id] = rec
		tab.IDs = append(tab.IDs, id)
	}
	return tab, nil
}

// Row returns the record of an id and counts it as used; a missing id ends
// the test.
func (tab *Table) Row(t testing.TB, id string) Record {
	t.Helper()
	rec, ok := tab.rows[id]
	if !ok {
		t.Fatalf("reference file %s has no row %s", tab.Name, id)
	}
	tab.used[id] = true
	return rec
}

// Compare checks a result against a row's expected value with the row's own
// tolerance and records the outcome.
func (tab *Table) Compare(t testing.TB, id string, got float64) {
	t.Helper()
	rec := tab.Row(t, id)
	want, err := rec.Want()
	if err != nil {
		tab.Fail(t, id, err.Error())
		return
	}
	tol, err := rec.Tol()
	if err != nil {
		tab.Fail(t, id, err.Error())
		return
	}
	if !Near(got, want, tol) {
		tab.Fail(t, id, fmt.Sprintf("got %.15g, want %.15g within %.3g", got, want, tol))
	}
}

// Corrected checks a result against a value that replaces a wrong or too
// coarsely printed figure of a row; reason says why and is required.
func (tab *Table) Corrected(t testing.TB, id string, got, want, tol float64, reason string) {
	t.Helper()
	if strings.TrimSpace(reason) == "" {
		t.Fatalf("row %s is corrected without a reason", id)
	}
	t.Logf("row %s corrected: %s", id, reason)
	if !Near(got, want, tol) {
		tab.Fail(t, id, fmt.Sprintf("got %.15g, corrected want %.15g within %.3g (%s)", got, want, tol, reason))
		return
	}
	tab.Row(t, id)
}

// Fail records a row as not passed and prints all of it.
func (tab *Table) Fail(t testing.TB, id, what string) {
	t.Helper()
	rec := tab.Row(t, id)
	tab.failed[id] = true
	t.Errorf("row %s (%s; inputs %s): %s [%s; %s; %s]", id, rec["quantity"], rec["inputs"], what,
		rec["source"], rec["provenance"], rec["note"])
}

// List names rows that a test leaves alone, and why; a reason is required.
func (tab *Table) List(t testing.TB, reason string, ids ...string) {
	t.Helper()
	if strings.TrimSpace(reason) == "" {
		t.Fatalf("rows %v are listed without a reason", ids)
	}
	for _, id := range ids {
		if _, ok := tab.rows[id]; !ok {
			t.Fatalf("reference file %s has no row %s", tab.Name, id)
		}
		tab.listed[id] = reason
	}
}

// Report logs how many rows were used and passed, how their values are known,
// and names the rest with the reasons given.
func (tab *Table) Report(t testing.TB) {
	t.Helper()
	var left []string
	reasons := map[string][]string{}
	for _, id := range tab.IDs {
		switch reason, listed := tab.listed[id]; {
		case tab.used[id]:
		case listed:
			reasons[reason] = append(reasons[reason], id)
		default:
			left = append(left, id)
		}
	}
	t.Logf("%s: %d rows listed, %d used, %d passed; not used: %s", tab.Name, len(tab.IDs),
		len(tab.used), len(tab.used)-len(tab.failed), strings.Join(left, " "))
	t.Logf("%s: used by provenance: %s", tab.Name, tab.provenance())
	for _, reason := range slices.Sorted(maps.Keys(reasons)) {
		t.Logf("%s: left alone, %s: %s", tab.Name, reason, strings.Join(reasons[reason], " "))
	}
}

// provenance counts the rows used by how their values are known.
func (tab *Table) provenance() string {
	count := map[string]int{}
	for id := range tab.used {
		word, _, _ := strings.Cut(strings.TrimSpace(tab.rows[id]["provenance"]), " ")
		count[word]++
	}
	var out []string
	for _, word := range slices.Sorted(maps.Keys(count)) {
		out = append(out, fmt.Sprintf("%s %d", word, count[word]))
	}
	return strings.Join(out, ", ")
}

// Want is the number in the column "expected".
func (rec Record) Want() (float64, error) {
	text := rec["expected"]
	if v, err := strconv.ParseFloat(text, 64); err == nil {
		return v, nil
	}
	return 0, fmt.Errorf("row %s: expected value %q is not one number", rec["id"], text)
}

// Tol is the absolute tolerance of a row: a leading number, taken as relative
// where the word "rel" or the sign % follows. "exact" allows four steps of a float64; where
// the expected value is printed with twelve or more digits it was rounded
// there, and half its last digit is allowed.
func (rec Record) Tol() (float64, error) {
	want, err := rec.Want()
	if err != nil {
		return 0, err
	}
	text := strings.TrimSpace(rec["tolerance"])
	if strings.HasPrefix(text, "exact") {
		tol := 4 * (math.Nextafter(math.Abs(want), math.Inf(1)) - math.Abs(want))
		return max(tol, roundedAt(rec["expected"])), nil
	}
	fields := strings.Fields(text)
	if len(fields) == 0 {
		return 0, fmt.Errorf("row %s has no tolerance", rec["id"])
	}
	tol, err := strconv.ParseFloat(fields[0], 64)
	if err != nil {
		return 0, fmt.Errorf("row %s: tolerance %q is not a number", rec["id"], text)
	}
	if len(fields) > 1 {
		switch fields[1] {
		case "rel":
			tol *= math.Abs(want)
		case "%":
			tol *= math.Abs(want) / 100
		}
	}
	return tol, nil
}

// roundedAt is half the last printed digit of a long decimal, 0 of a short one.
func roundedAt(text string) float64 {
	_, decimals, found := strings.Cut(text, ".")
	digits := strings.TrimLeft(strings.ReplaceAll(strings.TrimPrefix(text, "-"), ".", ""), "0")
	if !found || len(digits) < 12 {
		return 0
	}
	return 0.5 * math.Pow(10, -float64(len(decimals)))
}
