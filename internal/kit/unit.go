package kit

import (
	"errors"
	"slices"
	"strings"

	"matchmark/internal/trade/quantity"
)

// unit refuses a unit nobody can type a reading in.
func (c *checker) unit(it item, field, unit string) {
	if plainUnit(unit) {
		return
	}
	_, err := quantity.Parse("1 "+unit, quantity.AnyDimension, "")
	if err == nil {
		return
	}
	cure := `write one such as "mm", "N·m", "V" or "bar"`
	var unknown quantity.UnknownUnitError
	if errors.As(err, &unknown) && len(unknown.Nearest) > 0 {
		cure = "did you mean " + strings.Join(unknown.Nearest, ", ") + "?"
	}
	if unit == "" {
		c.fault(it, field, "it has no unit", cure+`; for a plain number write "ratio"`)
		return
	}
	c.fault(it, field, "unit "+quote(unit)+" is not known", cure)
}

// plainUnit tells the words that stand for a bare number.
func plainUnit(unit string) bool {
	return slices.Contains([]string{"ratio", "count", "teeth", "turns", "threads", "leaves", "drops/min"}, unit)
}
