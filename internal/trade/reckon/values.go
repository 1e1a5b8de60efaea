package reckon

import (
	"fmt"

	"matchmark/internal/trade/quantity"
)

// Values is what a topic was given, read and in inside units.
type Values struct {
	Topic string
	Given []Given // in the order of the topic's inputs
}

// Given is one input as it was read.
type Given struct {
	Key     string
	Typed   string
	Assumed bool // left out, and taken from the Default
	Many    bool
	Items   []Item
}

// Item is one value of an input. Word is filled where it is text.
type Item struct {
	Typed  string
	Word   string
	Value  float64
	Unit   string // inside unit of Value
	Number bool
}

func (v Values) get(key string) (Given, bool) {
	for _, g := range v.Given {
		if g.Key == key {
			return g, true
		}
	}
	return Given{}, false
}

// has tells whether an input was given, or has a default.
func (v Values) has(key string) bool { _, ok := v.get(key); return ok }

// typed tells whether an input was given by hand.
func (v Values) typed(key string) bool { g, ok := v.get(key); return ok && !g.Assumed }

// num is a figure in its inside unit, 0 where it was left out.
func (v Values) num(key string) float64 {
	if g, ok := v.get(key); ok {
		return g.Items[0].Value
	}
	return 0
}

// count is a whole number.
func (v Values) count(key string) int { return int(v.num(key)) }

// nums is a list of figures.
func (v Values) nums(key string) []float64 {
	g, _ := v.get(key)
	out := make([]float64, len(g.Items))
	for i, item := range g.Items {
		out[i] = item.Value
	}
	return out
}

// word is a text or choice, empty where it was left out.
func (v Values) word(key string) string {
	if g, ok := v.get(key); ok {
		return g.Items[0].Word
	}
	return ""
}

// words is a list of texts.
func (v Values) words(key string) []string {
	g, _ := v.get(key)
	var out []string
	for _, item := range g.Items {
		out = append(out, item.Word)
	}
	return out
}

// is tells whether a yes-or-no input is yes.
func (v Values) is(key string) bool { return v.word(key) == "yes" }

// wrong is an InputError about a value that was typed.
func (v Values) wrong(key, want string) error {
	g, _ := v.get(key)
	return InputError{Topic: v.Topic, Key: key, Typed: g.Typed, Want: want}
}

// part reads a figure that is part of a text, such as the length in "12 x 3".
func (v Values) part(key, text string, dim quantity.Dimension, unit, want string) (float64, error) {
	q, err := quantity.Parse(text, dim, unit)
	if err != nil {
		g, _ := v.get(key)
		return 0, InputError{Topic: v.Topic, Key: key, Typed: g.Typed, Want: want, Why: err}
	}
	return q.Value, nil
}

// either gives the one input, of those of which exactly one is wanted, that was
// given. Errors: none or several.
func (v Values) either(keys ...string) (string, error) {
	var given []string
	for _, k := range keys {
		if v.typed(k) {
			given = append(given, k)
		}
	}
	if len(given) == 1 {
		return given[0], nil
	}
	if len(given) == 0 {
		return "", fmt.Errorf("exactly one of %s was wanted, and none was given", join(keys, ", "))
	}
	return "", fmt.Errorf("exactly one of %s was wanted, and %s were given", join(keys, ", "), join(given, " and "))
}
