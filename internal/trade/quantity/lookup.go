package quantity

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"matchmark/internal/trade/spelling"
)

// units is the whole table; it is never changed.
var units = slices.Concat(lengthUnits, torqueUnits, forceUnits, pressureUnits, powerUnits,
	thermalUnits, motionUnits, electricUnits, volumeUnits)

// found is one meaning of a spelling.
type found struct {
	unit    unit
	note    string
	choices []string // not empty: the name is ambiguous
}

// exactIndex and foldIndex find the meanings of a spelling, as listed and
// in lower case; they are never changed.
var exactIndex, foldIndex = buildIndex()

func buildIndex() (exactly, folded map[string][]found) {
	exactly, folded = map[string][]found{}, map[string][]found{}
	for _, u := range units {
		for _, name := range u.spellings() {
			f := found{unit: u, note: u.note}
			exactly[name] = append(exactly[name], f)
			if low := strings.ToLower(name); !u.strict {
				folded[low] = append(folded[low], f)
			}
		}
	}
	add := func(name string, f found) {
		for _, k := range (unit{symbol: name}).spellings() {
			exactly[k] = append(exactly[k], f)
			folded[strings.ToLower(k)] = append(folded[strings.ToLower(k)], f)
		}
	}
	for _, alias := range readAs {
		target, _ := bySymbol(alias.dim, alias.sym)
		add(alias.typed, found{unit: target, note: alias.typed + " read as " + alias.sym})
	}
	for _, a := range ambiguous {
		for _, name := range a.names {
			add(name, found{unit: unit{dim: a.dim}, choices: a.choices})
		}
	}
	return exactly, folded
}

// bySymbol finds a unit by dimension and canonical symbol.
func bySymbol(dim Dimension, symbol string) (unit, bool) {
	for _, u := range units {
		if u.dim == dim && u.symbol == symbol {
			return u, true
		}
	}
	return unit{}, false
}

// IsUnit tells whether a name is a unit as listed, whatever its dimension.
func IsUnit(name string) bool { return name != "" && exactIndex[key(name)] != nil }

// lookup finds the meaning of a unit name: in the wanted dimension first, as
// listed and then without regard to case, then in the others.
// Errors: DimensionError, AmbiguousError, UnknownUnitError.
func lookup(typed, name string, want Dimension) (found, error) {
	k := key(name)
	listed := exactIndex[k]
	candidates := append(slices.Clone(listed), foldedMeanings(k)...)
	for _, f := range candidates {
		if f.unit.dim != want {
			continue
		}
		if f.choices != nil {
			return found{}, AmbiguousError{Typed: typed, Unit: name, Choices: f.choices}
		}
		return f, nil
	}
	if len(candidates) == 0 {
		return found{}, UnknownUnitError{Typed: typed, Unit: name, Nearest: nearest(k, want)}
	}
	if len(listed) == 0 {
		listed = candidates
	}
	best := earliest(listed)
	switch {
	case want != AnyDimension:
		return found{}, DimensionError{Typed: typed, Got: best.unit.dim, Want: want}
	case best.choices != nil:
		return found{}, AmbiguousError{Typed: typed, Unit: name, Choices: best.choices}
	}
	return best, nil
}

// earliest picks the meaning whose dimension stands first in the list.
func earliest(list []found) found {
	for _, d := range dimensions {
		for _, f := range list {
			if f.unit.dim == d.dim {
				return f
			}
		}
	}
	return list[0]
}

// foldedMeanings looks a key up without case where its case says nothing:
// all small, all capital, or one leading capital of a longer word.
func foldedMeanings(k string) []found {
	low := strings.ToLower(k)
	plain := k
	if strings.HasPrefix(k, "K") { // K has no meaning of its own before a unit
		plain = "k" + k[1:]
	}
	first, size := utf8.DecodeRuneInString(k)
	isTitle := len(k) > 2 && k[size:] == strings.ToLower(k[size:]) && unicode.IsUpper(first)
	if k != low && k != strings.ToUpper(k) && !isTitle && plain == k {
		return nil
	}
	if exactly := exactIndex[plain]; plain != k && exactly != nil {
		return exactly
	}
	if plain != k && k != strings.ToUpper(k) && !isTitle {
		return nil
	}
	return foldIndex[low]
}

// nearest names up to four units whose spelling is at most two changes away,
// or else the usual units of the wanted dimension.
func nearest(k string, want Dimension) []string {
	var list []string
	for limit := 1; limit <= 2; limit++ {
		for _, u := range units {
			if want != AnyDimension && u.dim != want || u.symbol == "" || slices.Contains(list, u.symbol) {
				continue
			}
			for _, name := range u.spellings() {
				if len(list) < 4 && len([]rune(name)) > limit && spelling.Distance(k, name) <= limit {
					list = append(list, u.symbol)
					break
				}
			}
		}
	}
	if len(list) == 0 && want != AnyDimension {
		if entry, ok := info(want); ok {
			return strings.Split(entry.common, ", ")
		}
	}
	return list
}
