package cleaning

import (
	"fmt"
	"slices"
	"sync"

	"matchmark/reference"
)

// Leave says whether a way of cleaning may be used.
type Leave string

// What the table says of a way of cleaning, and Unlisted where it is silent.
const (
	Yes      Leave = "yes"
	WithCare Leave = "with care"
	No       Leave = "no"
	Unlisted Leave = "not listed"
)

// Ruling is what the table says of one method on one material. Why is the reason
// of a No, what care is meant by WithCare, and may say how for a Yes.
type Ruling struct {
	Material, Method string
	May              Leave
	Why, Source      string
}

// table is the embedded one, read once and the same for everyone.
var table = sync.OnceValues(func() ([]Ruling, error) {
	tab, err := reference.Read("cleaning.csv")
	if err != nil {
		return nil, err
	}
	return read(tab)
})

// read gives the rulings of a table in its order. Errors, with file and line: no
// material or method, a pair twice, another word than yes, with care or no, and
// a no or with care that does not say why.
func read(tab reference.Table) ([]Ruling, error) {
	var out []Ruling
	for _, row := range tab.Rows {
		r := Ruling{Material: row.Text("material"), Method: row.Text("method"), May: Leave(row.Text("may")), Why: row.Text("why"), Source: row.Text("source")}
		same := func(o Ruling) bool { return o.Material == r.Material && o.Method == r.Method }
		switch {
		case r.Material == "" || r.Method == "":
			return nil, fmt.Errorf("%s: material is %q and method %q; both were wanted", row.Where(), r.Material, r.Method)
		case !slices.Contains([]Leave{Yes, WithCare, No}, r.May):
			return nil, fmt.Errorf("%s: may is %q; %s, %s or %s was wanted", row.Where(), r.May, Yes, WithCare, No)
		case r.May != Yes && r.Why == "":
			return nil, fmt.Errorf("%s: why is empty; a reason was wanted for %q", row.Where(), r.May)
		case slices.ContainsFunc(out, same):
			return nil, fmt.Errorf("%s: %s on %s is there twice; once was wanted", row.Where(), r.Method, r.Material)
		}
		out = append(out, r)
	}
	return out, nil
}
