package formula

import "fmt"

// FaultError says where a formula cannot be read. Column counts characters
// from 1; one past the end means that something is missing there.
type FaultError struct {
	Text   string
	Column int
	Why    string
}

func (e FaultError) Error() string {
	return fmt.Sprintf("formula %q, column %d: %s", e.Text, e.Column, e.Why)
}

// MissingError says that a name has no value.
type MissingError struct {
	Text string
	Name string
}

func (e MissingError) Error() string {
	return fmt.Sprintf("formula %q: no value for %s", e.Text, e.Name)
}

// ValueError says why a formula has no finite value.
type ValueError struct {
	Text string
	Why  string
}

func (e ValueError) Error() string { return fmt.Sprintf("formula %q: %s", e.Text, e.Why) }
