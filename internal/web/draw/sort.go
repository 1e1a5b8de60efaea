package draw

import (
	"regexp"
	"strings"
)

// stops end the naming part of a name: what follows says where or with what.
var stops = []string{",", ";", " with ", " of ", " behind ", " to ", " at ", " for ", " in "}

// bracketed are words in brackets, which say more of the same.
var bracketed = regexp.MustCompile(`\([^)]*\)`)

// joins part what a name offers as either or both.
var joins = strings.NewReplacer("/", "|", " or ", "|", " and ", "|")

// SortOf finds the symbol for a part: by its name, and where no word of it is
// known by what is measured on it, what it is made of and what it weighs.
func SortOf(it Item) string {
	name := bracketed.ReplaceAllString(strings.ToLower(it.Kind), " ")
	if s := fastening(name); s != "" {
		return s
	}
	for _, s := range stops {
		if at := strings.Index(name, s); at > 0 {
			name = name[:at]
		}
	}
	for part := range strings.SplitSeq(joins.Replace(name), "|") {
		if s := lastKnown(strings.Fields(part)); s != "" {
			return s
		}
	}
	return guessed(it)
}

// fastening is the symbol of a name that says what it joins to what: "rim to
// disc bolt".
func fastening(name string) string {
	_, after, found := strings.Cut(name, " to ")
	switch last := after[strings.LastIndexByte(after, ' ')+1:]; {
	case !found:
	case last == "strap":
		return "wire"
	case last == "bolt" || last == "stud" || last == "screw" || last == "pin":
		return words[last]
	}
	return ""
}

// lastKnown is the symbol of the last word known, three words and two before
// one.
func lastKnown(name []string) string {
	for end := len(name); end > 0; end-- {
		for many := min(3, end); many > 0; many-- {
			if s := known(strings.Join(name[end-many:end], " ")); s != "" {
				return s
			}
		}
	}
	return ""
}

// known looks a word up, in the singular too.
func known(word string) string {
	if s, ok := words[word]; ok {
		return s
	}
	return words[strings.TrimSuffix(word, "s")]
}

// guessed is the symbol for a part whose name says nothing.
func guessed(it Item) string {
	material := strings.ToLower(it.Material)
	switch {
	case it.Journals > 0:
		return "shaft"
	case it.Bores > 0 && it.MassKg > 3:
		return "housing"
	case it.Bores > 0:
		return "bush"
	case strings.Contains(material, "paper") || strings.Contains(material, "cork"):
		return "gasket"
	case strings.Contains(material, "rubber") || strings.Contains(material, "nitrile"):
		return "mount"
	case it.MassKg >= 8:
		return "housing"
	}
	return "block-plain"
}
