package reckon

import (
	"strings"

	"matchmark/internal/trade/quantity"
	"matchmark/internal/trade/spelling"
)

// read turns key=value texts into Values.
// Errors: UnknownError for a key, InputError for a text without a key, a key
// given twice and a value that cannot be read; MissingError with all that is
// needed and was left out.
func (t Topic) read(given []string) (Values, error) {
	typed := map[string]string{}
	for _, text := range given {
		key, value, found := strings.Cut(text, "=")
		key, value = tidy(key), strings.TrimSpace(value)
		if !found || key == "" || value == "" {
			return Values{}, InputError{Topic: t.Name, Typed: text, Want: "key=value was wanted, such as " + t.Example[0]}
		}
		if _, ok := t.input(key); !ok {
			return Values{}, UnknownError{What: t.Name + " input", Got: key, Near: spelling.Nearest(key, t.keys())}
		}
		if _, twice := typed[key]; twice {
			return Values{}, InputError{Topic: t.Name, Key: key, Typed: value, Want: "it is given twice; once was wanted"}
		}
		typed[key] = value
	}
	if missing := t.missing(typed); len(missing) > 0 {
		return Values{}, MissingError{Topic: t.Name, Inputs: missing}
	}
	v := Values{Topic: t.Name}
	for _, in := range t.Inputs {
		text, ok := typed[in.Key]
		if !ok && in.Default == "" {
			continue
		}
		g := Given{Key: in.Key, Typed: text, Assumed: !ok, Many: in.Many}
		if !ok {
			g.Typed = in.Default
		}
		var err error
		if g.Items, err = t.items(in, g.Typed); err != nil {
			return Values{}, err
		}
		v.Given = append(v.Given, g)
	}
	return v, nil
}

func (t Topic) keys() []string {
	var out []string
	for _, in := range t.Inputs {
		out = append(out, in.Key)
	}
	return out
}

func (t Topic) missing(typed map[string]string) []Input {
	var out []Input
	for _, in := range t.Inputs {
		if _, ok := typed[in.Key]; in.Needed && !ok {
			out = append(out, in)
		}
	}
	return out
}

// items reads one value, or a list parted by semicolons.
func (t Topic) items(in Input, text string) ([]Item, error) {
	texts := []string{text}
	if in.Many {
		texts = strings.Split(strings.Trim(text, "; "), ";")
	}
	var out []Item
	for _, one := range texts {
		item, err := t.item(in, strings.TrimSpace(one))
		if err != nil {
			return nil, err
		}
		out = append(out, item)
	}
	return out, nil
}

func (t Topic) item(in Input, text string) (Item, error) {
	wrong := InputError{Topic: t.Name, Key: in.Key, Typed: text, Want: in.Ask + ": " + in.Wanted()}
	switch {
	case text == "":
		return Item{}, wrong
	case len(in.Choices) > 0:
		word, ok := chosen(text, in.Choices)
		if !ok {
			return Item{}, wrong
		}
		return Item{Typed: text, Word: word}, nil
	case in.Dim == quantity.AnyDimension:
		return Item{Typed: text, Word: text}, nil
	}
	bare, unit := text, in.Unit
	if in.Dim == quantity.Number {
		bare, unit = withoutUnit(text, in.Unit), ""
	}
	q, err := quantity.Parse(bare, in.Dim, unit)
	if err != nil {
		wrong.Why = err
		return Item{}, wrong
	}
	inside := quantity.Inside(in.Dim)
	if in.Dim == quantity.Number {
		inside = in.Unit
	}
	return Item{Typed: text, Value: q.Value, Unit: inside, Number: true}, nil
}

// withoutUnit takes a unit off the end of a text, however it is spelled.
func withoutUnit(text, unit string) string {
	if plain := plainUnit(text); unit != "" && strings.HasSuffix(plain, plainUnit(unit)) {
		return strings.TrimSuffix(plain, plainUnit(unit))
	}
	return text
}

func plainUnit(text string) string {
	return strings.NewReplacer("²", "2", "³", "3", "·", ".", "⁻", "-", " ", "").Replace(text)
}

// chosen finds the choice that is meant: the same words, or the only one that
// begins with them. Case, hyphens and underscores do not matter.
func chosen(text string, choices []string) (string, bool) {
	want := spaced(text)
	begins, n := "", 0
	for _, c := range choices {
		if spaced(c) == want {
			return c, true
		}
		if strings.HasPrefix(spaced(c), want) {
			begins, n = c, n+1
		}
	}
	return begins, n == 1
}

func tidy(text string) string { return strings.ToLower(strings.TrimSpace(text)) }

func spaced(text string) string {
	return strings.Join(strings.Fields(strings.NewReplacer("-", " ", "_", " ", ",", " ").Replace(tidy(text))), " ")
}
