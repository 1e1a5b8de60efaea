package kit

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/reckon"
)

// reckonings looks at what an item has worked out: that the topic is there and
// gets each input it needs, from something that is there, in its dimension.
func (c *checker) reckonings(it item, list []Reckoning) {
	for i, r := range list {
		one := it.within("reckon", i, fmt.Sprintf("reckoning %d", i+1))
		c.named(one, "title", r.Title)
		c.only(one, r.Only)
		t, ok := c.topic(r.Topic)
		if !ok {
			c.fault(one, "topic", "there is no topic "+quote(r.Topic), meant(r.Topic, slices.Sorted(maps.Keys(c.topics)), "matchmark reckon lists them"))
			continue
		}
		c.inputs(one, t, r.With)
	}
}

// topic finds a topic of the trade's arithmetic, all of them listed once.
func (c *checker) topic(name string) (reckon.Topic, bool) {
	if c.topics == nil {
		c.topics = map[string]reckon.Topic{}
		for _, t := range reckon.Topics() {
			c.topics[t.Name] = t
		}
	}
	t, ok := c.topics[name]
	return t, ok
}

func (c *checker) inputs(one item, t reckon.Topic, with map[string]string) {
	var keys []string
	for _, in := range t.Inputs {
		keys = append(keys, in.Key)
		if _, given := with[in.Key]; in.Needed && !given {
			c.fault(one, "with", t.Name+" needs "+quote(in.Key)+": "+in.Ask, `give it a value, or a source such as "datum:…"`)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(with)) {
		field := "with." + key
		if !slices.Contains(keys, key) {
			c.fault(one, field, t.Name+" has no input "+quote(key), meant(key, keys, oneOf(keys)))
			continue
		}
		sample, ok := c.sample(one, field, with[key])
		if !ok {
			continue
		}
		var wrong reckon.InputError
		if err := t.Takes(key, sample); errors.As(err, &wrong) {
			c.fault(one, field, quote(with[key])+" does not fit: "+wrong.Want, "give what is wanted, or a source of that kind")
		}
	}
}

// sample is what an input could read like once its sources are filled in. ok
// is false where one of them is not there, which is a fault of its own.
func (c *checker) sample(one item, field, text string) (string, bool) {
	var b strings.Builder
	for _, p := range machine.Pieces(text) {
		words, ok := c.sampleOf(one, field, p)
		if !ok {
			return "", false
		}
		b.WriteString(words)
	}
	return b.String(), true
}

func (c *checker) sampleOf(one item, field string, p machine.Piece) (string, bool) {
	switch p.Kind {
	case machine.FromDatum:
		d, ok := c.known(one, field, aDatum, p.ID)
		if !ok {
			return "", false
		}
		datum := d.sheet.Data[d.at]
		if datum.Value != nil {
			return inUnit(*datum.Value, datum.Unit), true
		}
		return inUnit(9, datum.Unit), true
	case machine.FromReading, machine.FromRepeats, machine.FromEvery, machine.FromLess, machine.FromTight:
		k, ok := c.known(one, field, aCheck, p.ID)
		if !ok {
			return "", false
		}
		check := k.sheet.Checks[k.at]
		if p.Kind == machine.FromTight && check.By != machine.ByClearance {
			c.fault(one, field, "check "+quote(p.ID)+" is no clearance, so it cannot be tight", "name a clearance, or write reading:"+p.ID)
			return "", false
		}
		if check.Unit == "" {
			c.fault(one, field, "check "+quote(p.ID)+" has no figure to take", "name a check that is read in a unit")
			return "", false
		}
		return inUnit(9, check.Unit), true
	case machine.FromFeature, machine.FromMade:
		_, _, ok := c.surface(one, field, p.ID)
		return "50 mm", ok
	case machine.FromEach:
		_, _, ok := c.surface(one, field, p.ID)
		return "50 mm; 50 mm", ok
	case machine.FromCount:
		_, ok := c.known(one, field, aFamily, p.ID)
		return "9", ok
	case machine.FromThread, machine.FromGrade, machine.FromShims, machine.FromPack:
		_, ok := c.known(one, field, aJoint, p.ID)
		return map[string]string{machine.FromThread: "M10", machine.FromGrade: "8.8", machine.FromShims: "0.1 mm x 2",
			machine.FromPack: "1 mm"}[p.Kind], ok
	}
	return p.Text, true
}

// inUnit writes a figure with its unit; a bare number has none.
func inUnit(v float64, unit string) string {
	text := strconv.FormatFloat(v, 'f', -1, 64)
	if unit == "ratio" || unit == "count" {
		return text
	}
	return text + " " + unit
}
