package catalogue

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
// names, nominals and spans. Tolerances do not count.
func (it Item) Twin(other Item) bool {
	if len(it.Dims) != len(other.Dims) {
		return false
	}
	for i, a := range it.Dims {
		b := other.Dims[i]
		if a.Name != b.Name || a.Range != b.Range || !same(a.Nominal, b.Nominal) {
			return false
		}
		if a.Range && (!same(a.Lo, b.Lo) || !same(a.Hi, b.Hi)) {
			return false
		}
	}
	return true
}

// same allows what four printed decimals lose, mm.
func same(a, b float64) bool { return a-b < 2e-4 && b-a < 2e-4 }
