package quantity

import (
	"fmt"
	"strings"
)

// NumberError says that no single finite number could be read.
type NumberError struct {
	Typed string
	Why   string
}

func (e NumberError) Error() string {
	if strings.TrimSpace(e.Typed) == "" {
		return "nothing was typed: a number was wanted"
	}
	return fmt.Sprintf("%q %s", e.Typed, e.Why)
}

// NoUnitError says that a number came without a unit where none may be guessed.
type NoUnitError struct {
	Typed string
	Want  Dimension
}

func (e NoUnitError) Error() string {
	if e.Want == AnyDimension {
		return fmt.Sprintf("%q has no unit: write one behind the number", e.Typed)
	}
	entry, _ := info(e.Want)
	return fmt.Sprintf("%q has no unit: %s %s was wanted (%s)", e.Typed, entry.article, e.Want, entry.common)
}

// DimensionError says that a good quantity measures the wrong kind of thing.
type DimensionError struct {
	Typed     string
	Got, Want Dimension
}

func (e DimensionError) Error() string {
	got, _ := info(e.Got)
	want, _ := info(e.Want)
	return fmt.Sprintf("%q is %s %s; %s %s was wanted (%s)", e.Typed, got.article, e.Got,
		want.article, e.Want, want.common)
}

// AmbiguousError says that a unit has several sizes and asks which is meant.
type AmbiguousError struct {
	Typed   string
	Unit    string
	Choices []string
}

func (e AmbiguousError) Error() string {
	return fmt.Sprintf("%q: %q may mean %s; write which", e.Typed, e.Unit, strings.Join(e.Choices, " or "))
}

// UnknownUnitError says that a unit is not known and names the nearest ones.
type UnknownUnitError struct {
	Typed   string
	Unit    string
	Nearest []string
}

func (e UnknownUnitError) Error() string {
	text := fmt.Sprintf("%q: unit %q is not known", e.Typed, e.Unit)
	if len(e.Nearest) > 0 {
		text += "; near it: " + strings.Join(e.Nearest, ", ")
	}
	return text
}
