package kit

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/trade/fastener"
	"matchmark/internal/trade/reckon"
)

// Inspect says what does not make sense in the kits given, taken together: the
// ids that one names in another are looked up, so a kit is checked with all
// kits it uses. The same faults come out in the same order whatever the order
// of the sheets.
//
// What it cannot detect: whether a figure is right, or whether a layout is that
// of a real machine.
// Cost: linear in the items, but for circles in `behind` through choices: then
// once more for each combination of the answers concerned, up to 4096.
func Inspect(sheets ...*Sheet) Faults {
	sheets = slices.Clone(sheets)
	slices.SortStableFunc(sheets, func(a, b *Sheet) int { return strings.Compare(a.Name, b.Name) })
	c := &checker{sheets: sheets, index: newIndex(sheets), samples: map[*Sheet]map[string]int{}}
	c.spread = spreads(sheets, c.index)
	c.ids()
	for _, s := range sheets {
		c.samples[s] = c.countsSeen(s, func(n Count) int { return n.Default })
		c.head(s)
		c.counts(s)
		c.choices(s)
		c.families(s)
		c.data(s)
		c.assemblies(s)
		c.parts(s)
		c.joints(s)
		c.checks(s)
		c.tests(s)
		c.cleaning(s)
		c.symptoms(s)
	}
	c.looseParts()
	c.circles()
	c.testCircles()
	return c.faults.sorted()
}

// checker gathers the faults.
type checker struct {
	sheets  []*Sheet
	index   *index
	samples map[*Sheet]map[string]int  // counts a sheet may name, at their defaults
	spread  map[string][]string        // see spreads
	inFront map[string]map[string]bool // see beyond
	faults  Faults

	threadList fastener.List           // read at the first joint that names a thread
	topics     map[string]reckon.Topic // listed at the first reckoning
}

// fault adds one fault of an item; field is the path below the item.
func (c *checker) fault(it item, field, problem, cure string) {
	c.faults = append(c.faults, Fault{it.sheet.Name, it.sheet.Lines.Of(join(it.path, field)), it.name, problem, cure})
}

// within is an item below another: the second limit of a check.
func (it item) within(field string, i int, words string) item {
	it.path = fmt.Sprintf("%s.%s.%d", it.path, field, i)
	it.name += ", " + words
	return it
}

// at names one member of a list field.
func at(field string, i int) string { return fmt.Sprintf("%s.%d", field, i) }

// item is the i-th thing of a noun in a sheet.
func (c *checker) item(s *Sheet, n noun, i int, id string) item {
	return item{s, n, id, fmt.Sprintf("%s.%d", n, i), string(n) + " " + quote(id), i, 0}
}

// ids looks at the ids themselves: their letters, and that each is used once.
func (c *checker) ids() {
	for _, s := range c.sheets {
		for _, it := range items(s) {
			_, own, _ := strings.Cut("/"+it.id, "/")
			if it.noun == aFeature {
				_, own, _ = strings.Cut(it.id, "/")
			}
			c.letters(it, idField(it.noun), own)
		}
	}
	for _, it := range c.index.again {
		first := c.index.first[it.noun][it.key()]
		if it.id == "" || (it.noun == aFamily || it.noun == aDatum) && it.sheet != first.sheet {
			continue // compared with the first by families and data
		}
		where := fmt.Sprintf("line %d", first.sheet.Lines.Of(join(first.path, idField(first.noun))))
		if first.sheet != it.sheet {
			where = first.sheet.Name + ", " + where
		}
		c.fault(it, idField(it.noun), "this id is used twice; it stands first in "+where, "give one of them another id, or take one out")
	}
}

// idField is the field that holds a noun's id.
func idField(n noun) string {
	if n == aFamily {
		return "family"
	}
	return "id"
}

// letters refuses an id that is empty or has other signs than a-z, 0-9 and -.
func (c *checker) letters(it item, field, id string) {
	if id == "" {
		c.fault(it, field, "it has no "+field, "write "+field+` = "a-short-word"`)
		return
	}
	clean := cleanID(id)
	if clean != id {
		cure := "use a to z, 0 to 9 and hyphens only"
		if clean != "" {
			cure += ": " + quote(clean)
		}
		c.fault(it, field, "the id "+quote(id)+" has signs that an id cannot have", cure)
	}
}

// cleanID is the nearest id that has only the signs allowed.
func cleanID(id string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(id) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		default:
			if b.Len() > 0 && !strings.HasSuffix(b.String(), "-") {
				b.WriteByte('-')
			}
		}
	}
	if id == b.String() {
		return id
	}
	return strings.Trim(b.String(), "-")
}

// named asks for the words that the person at the bench will read.
func (c *checker) named(it item, field, text string) {
	if strings.TrimSpace(text) == "" {
		c.fault(it, field, "it has no "+field, "write "+field+` = "…" in plain words`)
	}
}

// word refuses a word that is not in a list. Empty words are refused too.
func (c *checker) word(it item, field, word string, list []string) {
	if slices.Contains(list, word) {
		return
	}
	if word == "" {
		c.fault(it, field, "it has no "+field, oneOf(list))
		return
	}
	c.fault(it, field, field+" "+quote(word)+" is not known", meant(word, list, oneOf(list)))
}

// notBelow refuses a negative figure.
func (c *checker) notBelow(it item, field string, v float64) {
	if v < 0 {
		c.fault(it, field, fmt.Sprintf("%s is %g, below nothing", field, v), "write 0 or more")
	}
}
