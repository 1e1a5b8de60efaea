package reftest

import (
	"math"
	"strings"
	"testing"
)

func TestRowCheckRefuses(t *testing.T) {
	good := Row[float64]{ID: "a", In: 1, Want: 1, Tol: 0, Source: "by hand: 1 = 1", Kind: ByHand}
	if err := good.Check(); err != nil {
		t.Fatal(err)
	}
	for what, spoil := range map[string]func(*Row[float64]){
		"no source":     func(r *Row[float64]) { r.Source = " " },
		"no id":         func(r *Row[float64]) { r.ID = "" },
		"unknown kind":  func(r *Row[float64]) { r.Kind = "X" },
		"bad tolerance": func(r *Row[float64]) { r.Tol = math.NaN() },
		"negative tol":  func(r *Row[float64]) { r.Tol = -1 },
		"bad want":      func(r *Row[float64]) { r.Want = math.Inf(1) },
	} {
		row := good
		spoil(&row)
		if row.Check() == nil {
			t.Errorf("%s: row was accepted", what)
		}
	}
}

func TestNearRefusesNaN(t *testing.T) {
	if Near(math.NaN(), 1, 10) {
		t.Error("not-a-number passed as near")
	}
}

func TestTolerances(t *testing.T) {
	for _, c := range []struct {
		want, tol string
		abs       float64
	}{
		{"100", "1e-11 rel", 1e-9},
		{"25", "0.05 (book 25)", 0.05},
		{"1.013869665424", "exact", 0.5e-12},
		{"0.25", "exact", 4 * 0x1p-54},
		{"200", "0.5 %", 1},
	} {
		got, err := Record{"id": "x", "expected": c.want, "tolerance": c.tol}.Tol()
		if err != nil || math.Abs(got-c.abs) > 1e-9*c.abs {
			t.Errorf("want %s, tolerance %q: got %g, %v; want %g", c.want, c.tol, got, err, c.abs)
		}
	}
}

func TestTableRefuses(t *testing.T) {
	head := []string{"id", "expected", "source"}
	for what, lines := range map[string][][]string{
		"no head":      {},
		"id twice":     {head, {"a", "1", "s"}, {"a", "1", "s"}},
		"empty id":     {head, {"", "1", "s"}},
		"empty source": {head, {"a", "1", " "}},
	} {
		if _, err := tableFrom("x.csv", lines); err == nil {
			t.Errorf("%s: file was accepted", what)
		}
	}
	tab, err := tableFrom("x.csv", [][]string{head, {"a", "1", "s"}})
	if err != nil || strings.Join(tab.IDs, "") != "a" {
		t.Errorf("good file: %v, %v", tab, err)
	}
}
