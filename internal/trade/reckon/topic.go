package reckon

import (
	"fmt"
	"math"

	"matchmark/internal/trade/quantity"
	"matchmark/internal/trade/spelling"
)

// Topic is one question that can be asked alone.
type Topic struct {
	Name    string
	Title   string
	Group   string
	Inputs  []Input
	Source  string   // what the answer rests on, where the answer says no more
	Sure    string   // how sure the answer is, in words
	Example []string // key=value that runs as it stands
	Do      func(Values) (Answer, error)
}

// Input is one thing that a topic asks for.
//
// Dim AnyDimension is text: one of Choices where there are any, else free.
// Dim Number with a Unit is a number in that unit, typed with or without it.
type Input struct {
	Key     string
	Ask     string
	Dim     quantity.Dimension
	Unit    string   // taken when none is typed
	Default string   // taken when the input is left out; shown
	Choices []string // words to choose from
	Many    bool     // a list, parted by semicolons
	Needed  bool
}

// Find gives a topic by its name, in any case.
// Errors: UnknownError with the nearest names.
func Find(name string) (Topic, error) {
	var names []string
	for _, t := range Topics() {
		if t.Name == tidy(name) {
			return t, nil
		}
		names = append(names, t.Name)
	}
	return Topic{}, UnknownError{What: "topic", Got: name, Near: spelling.Nearest(name, names)}
}

// Reckon reads what is given as key=value and answers.
// Errors: UnknownError, InputError, MissingError with all that is missing;
// what the arithmetic refuses, after the topic's name.
func (t Topic) Reckon(given []string) (Values, Answer, error) {
	v, err := t.read(given)
	if err != nil {
		return Values{}, Answer{}, err
	}
	a, err := t.Do(v)
	if err != nil {
		return Values{}, Answer{}, fmt.Errorf("%s: %w", t.Name, err)
	}
	if a.Source == "" {
		a.Source = t.Source
	}
	if a.Sure == "" {
		a.Sure = t.Sure
	}
	for _, l := range a.Lines {
		if !l.finite() {
			return Values{}, Answer{}, fmt.Errorf("%s: %s comes to no figure with these inputs; check their units", t.Name, l.Name)
		}
	}
	return v, a, nil
}

// input finds an input by its key.
func (t Topic) input(key string) (Input, bool) {
	for _, in := range t.Inputs {
		if in.Key == key {
			return in, true
		}
	}
	return Input{}, false
}

// Wanted says in one phrase what an input takes.
func (in Input) Wanted() string {
	switch {
	case len(in.Choices) > 0:
		return "one of: " + join(in.Choices, "; ")
	case in.Dim == quantity.AnyDimension:
		return "words"
	case in.Dim == quantity.Count:
		return "a whole number"
	case in.Unit != "":
		return "a figure, in " + in.Unit + " if no unit is typed"
	}
	return "a number"
}

func (l Line) finite() bool {
	for _, v := range []float64{l.Low, l.High, l.Value} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
