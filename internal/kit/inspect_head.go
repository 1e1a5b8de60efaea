package kit

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
)

// head looks at the kit's own name and at the kits it uses.
func (c *checker) head(s *Sheet) {
	it := item{sheet: s, noun: aKit, path: "kit", name: "kit " + quote(s.Kit.ID)}
	c.named(it, "title", s.Kit.Title)
	c.named(it, "edition", s.Kit.Edition)
	for i, id := range s.Kit.Uses {
		switch _, ok := c.index.first[aKit][id]; {
		case id == s.Kit.ID:
			c.fault(it, at("uses", i), "the kit uses itself", "take it out")
		case !ok:
			c.fault(it, at("uses", i), "there is no kit "+quote(id)+" among the files given",
				meant(id, c.kitIDs(s), "give its file as well, or take it out"))
		case slices.Index(s.Kit.Uses, id) < i:
			c.fault(it, at("uses", i), quote(id)+" is named twice here", "take one out")
		}
	}
}

func (c *checker) kitIDs(but *Sheet) []string {
	var out []string
	for _, s := range c.sheets {
		if s != but {
			out = append(out, s.Kit.ID)
		}
	}
	return out
}

// counts looks at the numbers that are asked for.
func (c *checker) counts(s *Sheet) {
	for i, n := range s.Counts {
		it := c.item(s, aCount, i, n.ID)
		c.named(it, "ask", n.Ask)
		switch {
		case n.Least < 0:
			c.fault(it, "least", fmt.Sprintf("least is %d, below nothing", n.Least), "write 0 or more")
		case n.Most < n.Least:
			c.fault(it, "most", fmt.Sprintf("most is %d, below least %d", n.Most, n.Least), "exchange them")
		case n.Most > mostPlaces:
			c.fault(it, "most", fmt.Sprintf("most is %d", n.Most), fmt.Sprintf("write %d or less", mostPlaces))
		case n.Default < n.Least || n.Default > n.Most:
			c.fault(it, "default", fmt.Sprintf("default %d is not within %d to %d", n.Default, n.Least, n.Most), "choose a default between them")
		}
	}
}

// choices looks at the questions with words for answers.
func (c *checker) choices(s *Sheet) {
	for i, v := range s.Choices {
		it := c.item(s, aChoice, i, v.ID)
		c.named(it, "ask", v.Ask)
		for k, a := range v.Answers {
			c.letters(it, at("answers", k), a)
			if slices.Index(v.Answers, a) < k {
				c.fault(it, at("answers", k), "the answer "+quote(a)+" stands twice", "take one out")
			}
		}
		if len(v.Answers) < 2 {
			c.fault(it, "answers", "a choice needs at least two answers", "add an answer, or take the choice out")
		}
		if !slices.Contains(v.Answers, v.Default) {
			c.word(it, "default", v.Default, v.Answers)
		}
	}
}

// countsSeen gives the counts a sheet may name, its own and those of the kits
// it uses, each as pick says.
func (c *checker) countsSeen(s *Sheet, pick func(Count) int) map[string]int {
	out := map[string]int{}
	for _, other := range c.sheets {
		if other != s && visible(s, other) {
			for _, n := range other.Counts {
				out[n.ID] = pick(n)
			}
		}
	}
	for _, n := range s.Counts {
		out[n.ID] = pick(n)
	}
	return out
}

// formula looks at a count formula at the least, usual and most counts.
func (c *checker) formula(it item, field, text string, most int) {
	usual := c.samples[it.sheet]
	expr, _, err := counting(text, usual)
	if err != nil {
		c.fault(it, field, err.Error(), `write a formula such as "2*cylinders + 2"`)
		return
	}
	for _, name := range countNames(expr, usual) {
		if _, ok := usual[name]; !ok {
			c.fault(it, field, "there is no count "+quote(name), meant(name, slices.Sorted(maps.Keys(usual)), "declare it with [[count]], or write a figure"))
			return
		}
	}
	for _, pick := range []func(Count) int{func(n Count) int { return n.Least }, func(n Count) int { return n.Default }, func(n Count) int { return n.Most }} {
		counts := c.countsSeen(it.sheet, pick)
		n, err := whole(text, counts)
		if err == nil && n > most {
			err = fmt.Errorf("it comes to %d, which is too many", n)
		}
		if err != nil {
			c.fault(it, field, quote(text)+" does not work out: "+err.Error(), fmt.Sprintf("let it come to a whole number from 0 to %d at every count allowed", most))
			return
		}
	}
}

// only looks at the choices and answers of a condition.
func (c *checker) only(it item, text string) {
	list, err := conditions(text)
	if err != nil {
		c.fault(it, "only", err.Error(), `write it as only = "choice=answer"; part answers by | and conditions by a comma`)
		return
	}
	for _, cond := range list {
		choice, ok := c.choiceSeen(it.sheet, cond.Choice)
		if !ok {
			c.fault(it, "only", "there is no choice "+quote(cond.Choice), meant(cond.Choice, c.choiceIDs(it.sheet), "declare it with [[choice]]"))
			continue
		}
		for _, a := range cond.Answers {
			if !slices.Contains(choice.Answers, a) {
				c.fault(it, "only", "choice "+quote(cond.Choice)+" has no answer "+quote(a), meant(a, choice.Answers, oneOf(choice.Answers)))
			}
		}
	}
}

// choiceSeen finds a choice of the sheet, or else of a kit it uses.
func (c *checker) choiceSeen(s *Sheet, id string) (Choice, bool) {
	for _, v := range s.Choices {
		if v.ID == id {
			return v, true
		}
	}
	for _, other := range c.sheets {
		if other == s || !visible(s, other) {
			continue
		}
		for _, v := range other.Choices {
			if v.ID == id {
				return v, true
			}
		}
	}
	return Choice{}, false
}

func (c *checker) choiceIDs(s *Sheet) []string {
	var out []string
	for _, other := range c.sheets {
		if visible(s, other) {
			for _, v := range other.Choices {
				out = append(out, v.ID)
			}
		}
	}
	return out
}

// assemblies looks at the groups and their hours.
func (c *checker) assemblies(s *Sheet) {
	for i, a := range s.Assemblies {
		it := c.item(s, anAssem, i, a.ID)
		c.named(it, "name", a.Name)
		c.named(it, "system", a.System)
		c.only(it, a.Only)
		c.hours(it, "strip_hours", a.Strip)
		c.hours(it, "clean_hours", a.Clean)
		c.hours(it, "measure_hours", a.Measure)
		c.hours(it, "build_hours", a.Build)
	}
}

// hours wants none, or three in rising order.
func (c *checker) hours(it item, field string, h []float64) {
	if len(h) == 0 {
		return
	}
	if len(h) != 3 {
		c.fault(it, field, strconv.Itoa(len(h))+" figures stand here", "write three: at the least, likely, at the most")
		return
	}
	if h[0] < 0 || h[0] > h[1] || h[1] > h[2] {
		c.fault(it, field, fmt.Sprintf("%g, %g, %g do not rise", h[0], h[1], h[2]), "write them in order: at the least, likely, at the most")
	}
}
