package cli

import (
	"strconv"

	"matchmark/internal/trade/quantity"
	"matchmark/internal/trade/reckon"
)

type topicJSON struct {
	Topic   string      `json:"topic"`
	Title   string      `json:"title"`
	Group   string      `json:"group"`
	Inputs  []inputJSON `json:"inputs"`
	Source  string      `json:"source"`
	Sure    string      `json:"sure"`
	Example []string    `json:"example"`
}

type inputJSON struct {
	Key       string             `json:"key"`
	Ask       string             `json:"ask"`
	Dimension quantity.Dimension `json:"dimension,omitempty"`
	Unit      string             `json:"unit,omitempty"`
	Default   string             `json:"default,omitempty"`
	Choices   []string           `json:"choices,omitempty"`
	List      bool               `json:"list,omitempty"`
	Needed    bool               `json:"needed,omitempty"`
}

func topicJSONOf(t reckon.Topic) topicJSON {
	out := topicJSON{Topic: t.Name, Title: t.Title, Group: t.Group, Inputs: []inputJSON{}, Source: t.Source, Sure: t.Sure, Example: t.Example}
	for _, in := range t.Inputs {
		out.Inputs = append(out.Inputs, inputJSON{in.Key, in.Ask, in.Dim, in.Unit, in.Default, in.Choices, in.Many, in.Needed})
	}
	return out
}

type reckonedJSON struct {
	Topic    string               `json:"topic"`
	Inputs   map[string]givenJSON `json:"inputs"`
	Lines    []lineJSON           `json:"lines"`
	Working  []string             `json:"working"`
	Source   string               `json:"source"`
	Sure     string               `json:"sure"`
	Cautions []string             `json:"cautions"`
	Marked   []string             `json:"marked"`
}

// givenJSON has a number, a text or a list of either as its value.
type givenJSON struct {
	Typed   string `json:"typed"`
	Value   any    `json:"value"`
	Unit    string `json:"unit,omitempty"`
	Assumed bool   `json:"assumed,omitempty"`
}

type lineJSON struct {
	Name  string   `json:"name"`
	Value *float64 `json:"value,omitempty"`
	Low   *float64 `json:"low,omitempty"`
	High  *float64 `json:"high,omitempty"`
	Unit  string   `json:"unit,omitempty"`
	Words string   `json:"words,omitempty"`
	Basis string   `json:"basis,omitempty"`
}

func reckonedJSONOf(t reckon.Topic, v reckon.Values, a reckon.Answer) reckonedJSON {
	out := reckonedJSON{Topic: t.Name, Inputs: map[string]givenJSON{}, Lines: []lineJSON{}, Working: listed(a.Working),
		Source: a.Source, Sure: a.Sure, Cautions: listed(a.Cautions), Marked: listed(a.Marked)}
	for _, g := range v.Given {
		out.Inputs[g.Key] = givenJSONOf(g)
	}
	for _, l := range a.Lines {
		line := lineJSON{Name: l.Name, Words: l.Words, Basis: l.Basis, Unit: l.Unit}
		switch l.Form {
		case reckon.Figure:
			line.Value = ninth(l.Value)
		case reckon.Range:
			line.Low, line.High = ninth(l.Low), ninth(l.High)
		}
		out.Lines = append(out.Lines, line)
	}
	return out
}

func givenJSONOf(g reckon.Given) givenJSON {
	out := givenJSON{Typed: g.Typed, Assumed: g.Assumed, Unit: g.Items[0].Unit}
	var values []any
	for _, item := range g.Items {
		if item.Number {
			values = append(values, *ninth(item.Value))
		} else {
			values = append(values, item.Word)
		}
	}
	out.Value = values
	if !g.Many {
		out.Value = values[0]
	}
	return out
}

// ninth rounds to nine figures, so that the last bits of a machine's
// arithmetic do not show.
func ninth(v float64) *float64 {
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'e', 8, 64), 64)
	return &v
}

func listed(texts []string) []string {
	if texts == nil {
		return []string{}
	}
	return texts
}
