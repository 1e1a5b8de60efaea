package web

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/watch"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// unknownOf is the chapter of what nobody knows: checks not made, limits not
// known, parts without a word, figures not entered.
func unknownOf(v *bench.View) []bookGroup {
	m := v.Machine
	var unread, limitless, doubtful, missing, data []bookLine
	perAssembly := map[machine.AssemblyID]int{}
	for _, f := range v.Judged().List {
		switch f.Verdict {
		case judge.NotRead:
			perAssembly[f.Check.Assembly]++
		case judge.NoLimit:
			limitless = append(limitless, bookLine{"", f.Check.Name + behind(". ", f.Limit.Missing)})
		case judge.Doubtful:
			doubtful = append(doubtful, bookLine{"", f.Sentence + behind(" ", f.Settle)})
		}
	}
	for _, a := range m.Assemblies {
		if n := perAssembly[a.ID]; n > 0 {
			unread = append(unread, bookLine{"", a.Name + ": " + plural(n, "check", "checks") + " not made"})
		}
	}
	for _, p := range m.Parts {
		if p.Found != nil && *p.Found < p.Qty {
			missing = append(missing, bookLine{"", fmt.Sprintf("%s: %d of %d found", p.Name, *p.Found, p.Qty) + behind(", ", p.FoundNote)})
		}
	}
	for _, d := range m.Data {
		if d.Value == nil {
			data = append(data, bookLine{"", d.Name + behind(", in ", d.Unit)})
		}
	}
	var out []bookGroup
	for _, g := range []bookGroup{{"Not measured or looked at", unread}, {"Measured, but no limit is known", limitless},
		{"Doubtful", doubtful}, {"Missing pieces", missing}, {"Figures nobody entered", data}} {
		if len(g.Lines) > 0 {
			out = append(out, g)
		}
	}
	return out
}

// watchWords says what the next owner should look at first.
func watchWords(items []watch.Item) []string {
	var out []string
	for _, it := range items {
		text := it.Finding.Sentence
		switch {
		case it.Passed != nil && it.Finding.Verdict != judge.Sound:
			text = it.Finding.Check.Name + ": passed by hand, " + it.Passed.Initials + ", " + it.Passed.Why + ". " + text
		case it.Used >= watch.Half:
			text += " " + percent(min(it.Used, 1)) + " of its wear is used."
		}
		out = append(out, text)
	}
	return out
}

// settingsOf lists figures of the machine and what its joints were closed
// with.
func settingsOf(m *machine.Machine) []fact {
	var out []fact
	for _, d := range m.Data {
		if d.Value != nil {
			out = append(out, fact{d.Name, withUnit(*d.Value, d.Unit) + ", " + sourceWords(d.From, d.Source)})
		}
	}
	for _, j := range m.Joints {
		if j.State != machine.Closed || len(j.Closings) == 0 {
			continue
		}
		c := j.Closings[len(j.Closings)-1]
		words := nonEmpty(amountWords(c.Torque), c.Sealant)
		for _, s := range c.Shims {
			words = append(words, "shims "+shimWords(s))
		}
		if len(words) > 0 {
			out = append(out, fact{j.Name, strings.Join(words, ", ")})
		}
	}
	return out
}

// sourcesOf counts the limits in use by where they come from.
func sourcesOf(v *bench.View) []fact {
	count := map[machine.Provenance]int{}
	for _, f := range v.Judged().List {
		if f.Verdict != judge.NotRead && f.Limit.From != "" {
			count[f.Limit.From]++
		}
	}
	var out []fact
	for _, p := range machine.Provenances() {
		if n := count[p]; n > 0 {
			out = append(out, fact{spelling.Head(string(p)), plural(n, "limit", "limits") + " that a reading was judged by"})
		}
	}
	return out
}

// allOrders lists every order with its dates.
func allOrders(v *bench.View) []orderRow {
	var out []orderRow
	for _, o := range v.Machine.Orders {
		words := "ordered " + day(o.Stamp.At) + behind(", from ", o.From)
		if o.Received != nil {
			words += ", here " + day(o.Received.At)
		} else if due := o.DueBy(); !due.IsZero() {
			words += ", promised for " + day(due)
		} else {
			words += ", no date given"
		}
		out = append(out, orderRow{spelling.Head(o.What), words, string(o.Order)})
	}
	return out
}

// sortedKeys lists the keys of a map in order.
func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }
