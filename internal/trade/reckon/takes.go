package reckon

import "matchmark/internal/trade/spelling"

// Takes tells whether a text could stand for an input, without reckoning.
// Errors: UnknownError for the key, InputError for the text.
func (t Topic) Takes(key, text string) error {
	in, ok := t.input(key)
	if !ok {
		return UnknownError{What: t.Name + " input", Got: key, Near: spelling.Nearest(key, t.keys())}
	}
	_, err := t.items(in, text)
	return err
}
