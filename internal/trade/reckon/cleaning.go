package reckon

import (
	"slices"

	"matchmark/internal/trade/cleaning"
)

func cleaningTopics() []Topic {
	return []Topic{
		{Name: "cleaning", Title: "what may touch what: how a material may be cleaned, and how never", Group: "Cleaning", Do: clean, Example: []string{"material=aluminium", "method=caustic soda"},
			Inputs: []Input{choice("material", "what the part is made of, or what it is", cleaning.Materials()...).need(), choice("method", "one way of cleaning; leave it out for all", cleaning.Methods()...)},
			Source: "common practice, no source", Sure: "as sure as what the part is made of; the product's safety data sheet goes before it"},
	}
}

func clean(v Values) (Answer, error) {
	material, method := v.word("material"), v.word("method")
	if method == "" {
		return cleanAll(material), nil
	}
	r, err := cleaning.May(material, method)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Lines: []Line{ruled(r)}, Source: r.Source, Cautions: cleaning.Cautions(material, method)}
	if r.May == cleaning.Unlisted {
		a.Marked = []string{"the table says nothing of " + method + " on " + material}
	}
	return a, nil
}

// cleanAll says all of a material: what may be used, then what never, with the
// cautions of what may be used.
func cleanAll(material string) Answer {
	var a Answer
	var sources []string
	add := func(words []string, more ...string) []string {
		for _, w := range more {
			if !slices.Contains(words, w) {
				words = append(words, w)
			}
		}
		return words
	}
	for _, may := range []cleaning.Leave{cleaning.Yes, cleaning.WithCare, cleaning.No} {
		for _, r := range cleaning.For(material) {
			if r.May != may {
				continue
			}
			a.Lines, sources = append(a.Lines, ruled(r)), add(sources, r.Source)
			if may != cleaning.No {
				a.Cautions = add(a.Cautions, cleaning.Cautions(material, r.Method)...)
			}
		}
	}
	a.Source = join(sources, "; ")
	return a
}

// ruled is one ruling as a line of words.
func ruled(r cleaning.Ruling) Line {
	words := map[cleaning.Leave]string{cleaning.Yes: "may be used", cleaning.WithCare: "with care", cleaning.No: "never", cleaning.Unlisted: "not listed"}[r.May]
	if r.Why != "" {
		words += ": " + r.Why
	}
	return say(r.Method, words)
}
