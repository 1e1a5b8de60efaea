package cleaning

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/trade/spelling"
)

// May says whether a method may be used on a material. Case and hyphens do not
// matter. A pair that the table does not hold is Unlisted, with why it is better
// left. Errors: NameError for a material or method that is nowhere in the table.
func May(material, method string) (Ruling, error) {
	all, err := table()
	if err != nil {
		return Ruling{}, err
	}
	mat, err := named("material", material, Materials())
	if err != nil {
		return Ruling{}, err
	}
	met, err := named("method", method, Methods())
	if err != nil {
		return Ruling{}, err
	}
	for _, r := range all {
		if r.Material == mat && r.Method == met {
			return r, nil
		}
	}
	return Ruling{Material: mat, Method: met, May: Unlisted,
		Why: "the table is silent; leave it until the product's safety data sheet and somebody who has done it say otherwise", Source: "none"}, nil
}

// For gives all that the table says of a material, in its order; nil for a
// material that it does not know.
func For(material string) []Ruling {
	all, _ := table() // a test holds the embedded table to be readable
	var out []Ruling
	for _, r := range all {
		if plain(r.Material) == plain(material) {
			out = append(out, r)
		}
	}
	return out
}

// Materials lists the materials in the order of the table.
func Materials() []string { return column(func(r Ruling) string { return r.Material }) }

// Methods lists the ways of cleaning by name.
func Methods() []string {
	out := column(func(r Ruling) string { return r.Method })
	slices.Sort(out)
	return out
}

// column is the different texts of a column in the order of the table.
func column(of func(Ruling) string) []string {
	all, _ := table()
	var out []string
	for _, r := range all {
		if !slices.Contains(out, of(r)) {
			out = append(out, of(r))
		}
	}
	return out
}

// named finds a name as the table spells it.
func named(what, typed string, names []string) (string, error) {
	for _, n := range names {
		if plain(n) == plain(typed) {
			return n, nil
		}
	}
	return "", NameError{What: what, Got: typed, Near: spelling.Nearest(typed, names)}
}

// plain is a name without case, hyphens and doubled blanks.
func plain(name string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(strings.ToLower(name), "-", " ")), " ")
}

// NameError says that a material or method is nowhere in the table.
type NameError struct {
	What, Got string
	Near      []string
}

func (e NameError) Error() string {
	text := fmt.Sprintf("%s is %q; one of the table of cleaning was wanted", e.What, e.Got)
	if len(e.Near) > 0 {
		text += "; nearest: " + strings.Join(e.Near, ", ")
	}
	return text
}
