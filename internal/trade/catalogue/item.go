package catalogue

import (
	"math"
	"strconv"
	"strings"
)

// Dim is one dimension of an item. A sound new part lies between Nominal+Lo and
// Nominal+Hi. Range marks a dimension that is only given as a span, such as the
// shafts that take one key: any value of it is as likely as another.
type Dim struct {
	Name    string
	Nominal float64
	Lo, Hi  float64
	Wears   Wear
	Range   bool
}

// Item is a standard part. Dims are in the order of Specs; a dimension the
// table does not give is left out. Equivalents are other designations for the
// same envelope.
type Item struct {
	Kind        Kind
	Designation string
	Series      string
	Dims        []Dim
	Equivalents []string
	Source      string

	envelope string
}

// Dim finds a dimension by name; false where the item has none of that name.
func (it Item) Dim(name string) (Dim, bool) {
	for _, d := range it.Dims {
		if d.Name == name {
			return d, true
		}
	}
	return Dim{}, false
}

// Twin says whether two items cannot be told apart by any dimension: the same
// names, nominals and spans to the thousandth. Tolerances do not count.
func (it Item) Twin(other Item) bool { return it.Envelope() == other.Envelope() }

// Envelope is the dimensions as one text, such as "d 25 D 52 B 15": equal for
// twins and for them only. Items of the catalogue carry it ready made.
func (it Item) Envelope() string {
	if it.envelope != "" {
		return it.envelope
	}
	parts := make([]string, 0, len(it.Dims))
	for _, d := range it.Dims {
		size := short(d.Nominal)
		if d.Range {
			size = short(d.Nominal+d.Lo) + " to " + short(d.Nominal+d.Hi)
		}
		parts = append(parts, d.Name+" "+size)
	}
	return strings.Join(parts, " ")
}

// short prints three decimals without trailing noughts.
func short(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
}
