package catalogue

import (
	"fmt"
	"math"
	"strconv"

	"matchmark/reference"
)

// band is one step of a tolerance: for nominal sizes of dimension by over Over
// up to and including Upto.
type band struct {
	by         string
	over, upto float64
	lo, hi     float64
}

type bandKey struct{ kind, dim string }

const toleranceFile = "size_tolerance.csv"

// readBands reads the tolerance table. Errors name file and line.
func readBands() (map[bandKey][]band, error) {
	tab, err := reference.Read(toleranceFile)
	if err != nil {
		return nil, err
	}
	all := map[bandKey][]band{}
	for _, row := range tab.Rows {
		b := band{by: row.Text("by")}
		for _, c := range []struct {
			name string
			into *float64
		}{{"over", &b.over}, {"upto", &b.upto}, {"lo", &b.lo}, {"hi", &b.hi}} {
			if *c.into, err = number(row, c.name); err != nil {
				return nil, err
			}
		}
		if b.lo > b.hi || b.over >= b.upto {
			return nil, fmt.Errorf("catalogue: %s: band %g to %g for sizes over %g to %g is upside down", row.Where(), b.lo, b.hi, b.over, b.upto)
		}
		key := bandKey{row.Text("kind"), row.Text("dim")}
		all[key] = append(all[key], b)
	}
	return all, nil
}

// number reads a cell. Errors name file, line, column and cell.
func number(row reference.Row, column string) (float64, error) {
	v, err := strconv.ParseFloat(row.Text(column), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("catalogue: %s: column %s is %q, want a number", row.Where(), column, row.Text(column))
	}
	return v, nil
}

// allow sets Lo and Hi of every dimension of an item that has none yet, from
// the tolerance table. A dimension without a band keeps 0.
func allow(it *Item, bands map[bandKey][]band) {
	for i := range it.Dims {
		d := &it.Dims[i]
		if d.Range || d.Lo != 0 || d.Hi != 0 {
			continue
		}
		for _, b := range bands[bandKey{string(it.Kind), d.Name}] {
			by, ok := it.Dim(b.by)
			if ok && by.Nominal > b.over && by.Nominal <= b.upto {
				d.Lo, d.Hi = b.lo, b.hi
				break
			}
		}
	}
}
