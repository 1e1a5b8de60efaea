package reckon

import (
	"fmt"
	"strings"
)

// InputError says which input could not be taken, and what was wanted.
type InputError struct {
	Topic, Key, Typed string
	Want              string
	Why               error // may be nil
}

func (e InputError) Error() string {
	text := e.Topic + ": "
	if e.Key != "" {
		text += e.Key + " "
	}
	text += fmt.Sprintf("%q: ", e.Typed)
	if e.Why != nil {
		text += e.Why.Error() + "; "
	}
	return text + e.Want
}

func (e InputError) Unwrap() error { return e.Why }

// MissingError lists all inputs that are needed and were left out.
type MissingError struct {
	Topic  string
	Inputs []Input
}

func (e MissingError) Error() string {
	var asks []string
	for _, in := range e.Inputs {
		asks = append(asks, fmt.Sprintf("%s (%s)", in.Key, in.Ask))
	}
	return e.Topic + ": still wanted: " + strings.Join(asks, "; ")
}

// UnknownError is a topic or key that is not there, with the nearest ones.
type UnknownError struct {
	What, Got string
	Near      []string
}

func (e UnknownError) Error() string {
	text := fmt.Sprintf("there is no %s %q", e.What, e.Got)
	if len(e.Near) > 0 {
		text += "; nearest: " + strings.Join(e.Near, ", ")
	}
	return text
}
