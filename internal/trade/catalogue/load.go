package catalogue

import (
	"fmt"
	"strings"

	"matchmark/reference"
)

// readItems turns the table of a kind into items. Errors name file and line.
func readItems(f family, tab reference.Table, bands map[bandKey][]band) ([]Item, error) {
	items := make([]Item, 0, len(tab.Rows))
	seen := make(map[string]int, len(tab.Rows))
	for _, row := range tab.Rows {
		it, err := itemOf(f, row)
		if err != nil {
			return nil, err
		}
		if line, twice := seen[it.Designation]; twice {
			return nil, fmt.Errorf("catalogue: %s: designation %q was used on line %d", row.Where(), it.Designation, line)
		}
		seen[it.Designation] = row.Line
		allow(&it, bands)
		items = append(items, it)
	}
	return items, nil
}

func itemOf(f family, row reference.Row) (Item, error) {
	it := Item{Kind: f.kind, Designation: row.Text("designation"), Series: row.Text("series"), Source: row.Text("source")}
	if it.Designation == "" {
		return Item{}, fmt.Errorf("catalogue: %s: no designation", row.Where())
	}
	if eq := row.Text("equivalents"); eq != "" {
		it.Equivalents = strings.Split(eq, ";")
	}
	for _, s := range f.specs {
		d, given, err := dimOf(s, row)
		if err != nil {
			return Item{}, err
		}
		if given {
			it.Dims = append(it.Dims, d)
		}
	}
	if got, want := Impossible(it.Kind, func(name string) (float64, bool) { d, ok := it.Dim(name); return d.Nominal, ok }); want != "" {
		return Item{}, fmt.Errorf("catalogue: %s: %s: %s, want %s", row.Where(), it.Designation, got, want)
	}
	it.envelope = it.Envelope()
	return it, nil
}

// dimOf reads a dimension: a column of its name with optional columns _lo and
// _hi for the tolerance, or columns _over and _upto for a span.
func dimOf(s Spec, row reference.Row) (Dim, bool, error) {
	d := Dim{Name: s.Name, Wears: s.Wears}
	if row.Text(s.Name+"_over") != "" {
		return spanOf(d, row)
	}
	if row.Text(s.Name) == "" {
		return d, false, nil
	}
	var err error
	if d.Nominal, err = number(row, s.Name); err != nil {
		return d, false, err
	}
	if row.Text(s.Name+"_lo") == "" {
		return d, true, nil
	}
	if d.Lo, err = number(row, s.Name+"_lo"); err != nil {
		return d, false, err
	}
	if d.Hi, err = number(row, s.Name+"_hi"); err != nil {
		return d, false, err
	}
	if d.Lo > d.Hi {
		return d, false, fmt.Errorf("catalogue: %s: %s runs from %g to %g, want the lower first", row.Where(), s.Name, d.Lo, d.Hi)
	}
	return d, true, nil
}

func spanOf(d Dim, row reference.Row) (Dim, bool, error) {
	over, err := number(row, d.Name+"_over")
	if err != nil {
		return d, false, err
	}
	upto, err := number(row, d.Name+"_upto")
	if err != nil {
		return d, false, err
	}
	if over >= upto {
		return d, false, fmt.Errorf("catalogue: %s: %s over %g up to %g is empty", row.Where(), d.Name, over, upto)
	}
	d.Nominal, d.Range = (over+upto)/2, true
	d.Lo, d.Hi = over-d.Nominal, upto-d.Nominal
	return d, true, nil
}
