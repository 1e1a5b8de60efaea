package quantity

import (
	"math"
	"math/big"
	"strconv"
)

// Convert changes a value of dim from one unit to another; "" is the inside
// unit. The result is the nearest float to the exact answer.
// Errors: UnknownUnitError, DimensionError, AmbiguousError for a unit name;
// NumberError for a value that is not finite or leaves the range.
func Convert(v float64, dim Dimension, from, to string) (float64, error) {
	typed := strconv.FormatFloat(v, 'g', -1, 64)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, NumberError{Typed: typed, Why: "is not a finite number"}
	}
	source, err := unitNamed(dim, from)
	if err != nil {
		return 0, err
	}
	target, err := unitNamed(dim, to)
	if err != nil {
		return 0, err
	}
	result, ok := source.toInside(new(big.Rat).SetFloat64(v))
	if ok {
		result, ok = target.fromInside(result)
	}
	if !ok {
		return 0, NumberError{Typed: typed, Why: "must not be zero"}
	}
	value, _ := result.Float64()
	if math.IsInf(value, 0) {
		return 0, NumberError{Typed: typed, Why: "is out of range"}
	}
	return value, nil
}

// unitNamed finds a unit of dim by any spelling; "" is the inside unit.
func unitNamed(dim Dimension, name string) (unit, error) {
	if name == "" || name == Inside(dim) {
		if u, ok := bySymbol(dim, Inside(dim)); ok {
			return u, nil
		}
	}
	f, err := lookup(name, name, dim)
	return f.unit, err
}

// In gives the value in another unit of its dimension.
// Errors: as Convert.
func (q Quantity) In(unit string) (float64, error) { return Convert(q.Value, q.Dim, "", unit) }

// Format prints an inside value in a unit with a fixed number of decimals,
// rounded half away from zero; digits < 0 prints as many as tell the float
// apart. "" and an unknown unit print the inside unit, a value that is not
// finite prints as "—". Parse reads back what Format prints.
func Format(v float64, dim Dimension, unit string, digits int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "—"
	}
	u, err := unitNamed(dim, unit)
	if err != nil {
		if u, err = unitNamed(dim, ""); err != nil {
			return decimalText(new(big.Rat).SetFloat64(v), digits)
		}
	}
	typed, ok := u.fromInside(new(big.Rat).SetFloat64(v))
	if !ok {
		return "—"
	}
	text := decimalText(typed, digits)
	if dim == Roughness {
		return text + " " + u.symbol + " Ra"
	}
	if u.symbol == "" {
		return text
	}
	return text + " " + u.symbol
}

// decimalText prints a fraction with a decimal point and never "-0".
func decimalText(r *big.Rat, digits int) string {
	if digits < 0 {
		v, _ := r.Float64()
		size := math.Abs(v)
		if size != 0 && (size >= 1e15 || size < 1e-6) {
			return strconv.FormatFloat(v, 'e', -1, 64)
		}
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	text := r.FloatString(digits)
	if text[0] == '-' && isZero(text[1:]) {
		return text[1:]
	}
	return text
}

// isZero reports whether a printed number has no digit but 0.
func isZero(text string) bool {
	for _, r := range text {
		if r != '0' && r != '.' {
			return false
		}
	}
	return true
}
