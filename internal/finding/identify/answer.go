package identify

import "matchmark/internal/trade/catalogue"

// Candidate is one possible part with its probability. Equivalents are other
// designations of the same envelope: their probability is within P. Why sets
// the readings against the item, for the first few candidates. Found holds what
// followed from the match, such as the profile shift of a gear.
type Candidate struct {
	Item        catalogue.Item
	P           float64
	Equivalents []string
	Why         string
	Found       []Figure
}

// Figure is a value with its standard uncertainty.
type Figure struct {
	Name     string
	Value, U float64
}

// Answer ranks all candidates, the likeliest first. Probabilities and None sum
// to 1. Set95 is the smallest set of answers that holds 95 %, NoneName among
// them where it belongs. Next is the measurement that would tell most, with
// NextBits its expected gain; empty where nothing would tell anything.
type Answer struct {
	Kind     catalogue.Kind
	Ranked   []Candidate
	None     float64
	Set95    []string
	Settled  bool
	Next     string
	NextBits float64
	Sentence string
}

// NoneName is how "in no table" stands in a set.
const NoneName = "none of these"

// coverage is the share that Set95 holds, and what one answer needs to be
// called settled.
const coverage = 0.95

// smallestSet takes answers in falling order of probability, none of these
// included, until they hold the coverage. Equal probabilities keep rank order,
// with none after the parts.
func smallestSet(ranked []Candidate, none float64) []string {
	var set []string
	sum, noneIn := 0.0, false
	add := func(name string, p float64) { set, sum = append(set, name), sum+p }
	for _, c := range ranked {
		if !noneIn && none > c.P {
			add(NoneName, none)
			noneIn = true
			if sum >= coverage {
				return set
			}
		}
		add(c.Item.Designation, c.P)
		if sum >= coverage {
			return set
		}
	}
	if !noneIn {
		add(NoneName, none)
	}
	return set
}
