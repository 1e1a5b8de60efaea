package kit

import (
	"errors"
	"strings"

	"matchmark/internal/trade/quantity"
)

// unit refuses a unit nobody can type a reading in.
func (c *checker) unit(it item, field, unit string) {
	if knownUnit(unit) {
		return
	}
	_, err := quantity.Parse("1 "+unit, quantity.AnyDimension, "")
	cure := `write one such as "mm", "N·m", "V" or "bar"`
	var unknown quantity.UnknownUnitError
	first, rest, more := strings.Cut(unit, " ")
	switch {
	case more && knownUnit(first):
		cure = "write unit = " + quote(first) + " and says = " + quote(rest)
	case errors.As(err, &unknown) && len(unknown.Nearest) > 0:
		cure = "did you mean " + strings.Join(unknown.Nearest, ", ") + "?"
	}
	if unit == "" {
		c.fault(it, field, "it has no unit", cure+`; for a bare number write "ratio" or "count"`)
		return
	}
	c.fault(it, field, "unit "+quote(unit)+" is not known", cure)
}

// knownUnit tells units a reading can be typed in, and the two words that
// stand for a bare number.
func knownUnit(unit string) bool {
	if unit == "ratio" || unit == "count" {
		return true
	}
	_, err := quantity.Parse("1 "+unit, quantity.AnyDimension, "")
	return err == nil
}
