package cli

import (
	"fmt"
	"strings"

	"matchmark/internal/trade/reckon"
)

type reckonCmd struct {
	Topic string   `arg:"" optional:"" help:"What to reckon; left out, all topics are listed."`
	Given []string `arg:"" optional:"" sep:"none" name:"key=value" help:"What is known, such as thread=M10x1.25. Left out, the topic says what it wants."`
}

func (c *reckonCmd) Run(r *run) error {
	if c.Topic == "" {
		return listTopics(r)
	}
	t, err := reckon.Find(c.Topic)
	if err != nil {
		return fmt.Errorf("%w; `matchmark reckon` lists them", err)
	}
	if len(c.Given) == 0 {
		return showTopic(r, t)
	}
	v, a, err := t.Reckon(c.Given)
	if err != nil {
		return fmt.Errorf("%w. `matchmark reckon %s` says what is wanted", err, t.Name)
	}
	if r.json {
		return r.print(reckonedJSONOf(t, v, a))
	}
	writeAnswer(r, t, v, a)
	return nil
}

func listTopics(r *run) error {
	topics := reckon.Topics()
	if r.json {
		out := []topicJSON{}
		for _, t := range topics {
			out = append(out, topicJSONOf(t))
		}
		return r.print(out)
	}
	group := ""
	for _, t := range topics {
		if t.Group != group {
			group = t.Group
			fmt.Fprintf(r.Out, "%s\n", group)
		}
		fmt.Fprintf(r.Out, "  %-18s %s\n", t.Name, t.Title)
		for _, in := range t.Inputs {
			fmt.Fprintf(r.Out, "      %s\n", shortInput(in))
		}
		fmt.Fprintf(r.Out, "      source: %s\n", t.Source)
	}
	fmt.Fprintln(r.Out, "* must be given. `matchmark reckon TOPIC` says what each input means.")
	return nil
}

// shortInput is key, unit and what is taken when it is left out.
func shortInput(in reckon.Input) string {
	text := in.Key
	if in.Needed {
		text += "*"
	}
	if in.Unit != "" {
		text += ", " + in.Unit
	}
	if in.Many {
		text += ", a list"
	}
	if in.Default != "" {
		text += " (" + in.Default + ")"
	}
	return text
}

func showTopic(r *run, t reckon.Topic) error {
	if r.json {
		return r.print(topicJSONOf(t))
	}
	fmt.Fprintf(r.Out, "%s: %s\n", t.Name, t.Title)
	for _, in := range t.Inputs {
		fmt.Fprintf(r.Out, "  %-14s %s\n", in.Key+mark(in), in.Ask)
		wanted := in.Wanted()
		if in.Many {
			wanted += "; a list, parted by semicolons"
		}
		if in.Default != "" {
			wanted += "; left out: " + in.Default
		}
		fmt.Fprintf(r.Out, "  %-14s   %s\n", "", wanted)
	}
	fmt.Fprintf(r.Out, "* must be given.\nsource: %s\nhow sure: %s\nexample: matchmark reckon %s", t.Source, t.Sure, t.Name)
	for _, e := range t.Example {
		fmt.Fprintf(r.Out, " %s", quoted(e))
	}
	fmt.Fprintln(r.Out)
	return nil
}

func mark(in reckon.Input) string {
	if in.Needed {
		return "*"
	}
	return ""
}

// quoted puts a shell's quotes round what needs them.
func quoted(text string) string {
	if strings.ContainsAny(text, " ;*()#&|<>'\"") {
		return `"` + text + `"`
	}
	return text
}

func writeAnswer(r *run, t reckon.Topic, v reckon.Values, a reckon.Answer) {
	fmt.Fprintf(r.Out, "%s\n", t.Title)
	for _, l := range a.Lines {
		fmt.Fprintf(r.Out, "  %-36s %s\n", l.Name, l)
		if l.Basis != "" {
			fmt.Fprintf(r.Out, "  %-36s   (%s)\n", "", l.Basis)
		}
	}
	var taken []string
	for _, g := range v.Given {
		if g.Assumed {
			taken = append(taken, g.Key+"="+g.Typed)
		}
	}
	if len(taken) > 0 {
		fmt.Fprintf(r.Out, "taken as left out: %s\n", strings.Join(taken, ", "))
	}
	each(r, "working: ", a.Working)
	each(r, "mark: ", a.Marked)
	each(r, "caution: ", a.Cautions)
	fmt.Fprintf(r.Out, "how sure: %s\nsource: %s\n", a.Sure, a.Source)
}

func each(r *run, before string, texts []string) {
	for _, text := range texts {
		fmt.Fprintf(r.Out, "%s%s\n", before, text)
	}
}
