package machine

import (
	"maps"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

func TestPieces(t *testing.T) {
	for _, c := range []struct {
		text string
		want []Piece
	}{
		{"22 °C", []Piece{{Text: "22 °C"}}},
		{"", []Piece{{}}},
		{"datum:stroke", []Piece{{Kind: FromDatum, ID: "stroke"}}},
		{"feature:liner/bore", []Piece{{Kind: FromFeature, ID: "liner/bore"}}},
		{"{datum:a}/{datum:b}i; 17/43", []Piece{{Kind: FromDatum, ID: "a"}, {Text: "/"}, {Kind: FromDatum, ID: "b"}, {Text: "i; 17/43"}}},
		{"1st: 15/45", []Piece{{Text: "1st: 15/45"}}},
		{"{no source:x} {", []Piece{{Text: "{no source:x} {"}}},
		{"datum:a?", []Piece{{Kind: FromDatum, ID: "a", Maybe: true}}},
		{"datum:", []Piece{{Text: "datum:"}}},
	} {
		if got := Pieces(c.text); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%q parts into %+v, want %+v", c.text, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`([{}:/ a]|datum:a[?]?|\{feature:p/f\}){0,8}`).Draw(t, "text")
		again := Written(Pieces(text))
		if !reflect.DeepEqual(Pieces(again), Pieces(text)) {
			t.Fatalf("%q is written as %q, which parts otherwise", text, again)
		}
	})
}

// A reckoning speaks of types; the folded one of the instances of its place,
// and the fact it came from is left as it was.
func TestReckoningsStandAtTheirPlace(t *testing.T) {
	with := map[string]string{"bore": "feature:liner/bore", "n": "count:cylinder", "t": "22 °C", "play": "{reading:side-play}/{thread:big-end}",
		"stroke": "datum:stroke"}
	fact := &CheckAdded{ID: "squish", Name: "Squish", Assembly: "engine", Places: "valve", Joints: []JointID{"seat"}, When: Made, By: ByEye,
		Reckon: []Reckoning{{Topic: "x", Title: "x", With: maps.Clone(with)}}}
	test := &TestAdded{ID: "start", Name: "Start", System: "engine", From: CommonPractice, Reckon: []Reckoning{{Topic: "y", With: maps.Clone(with)}}}
	b := engine()
	b.say(&DatumSet{Datum{ID: "stroke", Name: "Stroke", Unit: "mm"}}, fact, test)
	m := Fold(b.entries)
	questions(t, m)
	want := map[string]string{"bore": "feature:liner.2/bore", "n": "count:cylinder", "t": "22 °C", "play": "{reading:side-play.2}/{thread:big-end.2}", "stroke": "datum:stroke"}
	if got := m.Check("squish.ex-2").Reckon[0].With; !maps.Equal(got, want) {
		t.Errorf("at ex-2: %v", got)
	}
	if got := m.Test("start").Reckon[0].With["bore"]; got != "feature:liner.1/bore" {
		t.Errorf("a test takes the first of several: %q", got)
	}
	if !maps.Equal(fact.Reckon[0].With, with) || !maps.Equal(test.Reckon[0].With, with) {
		t.Error("the fact was changed by the fold")
	}
}

// A surface that one piece carries at several places is the one of the place,
// and what is not on the machine is asked about, not lost in silence.
func TestReckoningsOfSpreadSurfacesAndOfNothing(t *testing.T) {
	b := engine()
	b.say(&PartAdded{ID: "crank", Name: "Crank", Assembly: "engine"},
		&FeatureAdded{Part: "crank", Feature: "pin-1", Name: "pin 1", Sort: Shaft}, &FeatureAdded{Part: "crank", Feature: "pin-2", Name: "pin 2", Sort: Shaft},
		&JointAdded{ID: "rod-fit", Name: "Rod", Assembly: "engine", Sort: "slip", Places: "cylinder", Parts: []PartID{"rod", "crank"},
			Reckon: []Reckoning{{Topic: "x", With: map[string]string{"d": "feature:crank/pin", "no": "datum:nothing"}}}})
	m := Fold(b.entries)
	questions(t, m, "datum:nothing", "datum:nothing")
	if got := m.Joint("rod-fit.2").Reckon[0].With; !maps.Equal(got, map[string]string{"d": "feature:crank/pin-2"}) {
		t.Errorf("at cylinder 2: %v", got)
	}
}
