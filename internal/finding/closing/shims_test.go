package closing

import (
	"math"
	"strings"
	"testing"

	"matchmark/internal/machine"
)

// floating is a shaft with shims that set its float, built dry with a pack, and
// the float read.
func floating(thicker string, out, in []machine.Shim, read float64, extra ...machine.Body) []machine.Body {
	bodies := []machine.Body{
		&machine.PartAdded{ID: "shaft", Name: "Shaft", Qty: 1, Material: "steel"},
		&machine.PartAdded{ID: "case", Name: "Case", Qty: 1, Material: "cast iron"},
		&machine.JointAdded{ID: "shaft-fit", Name: "Shaft in case", Sort: "adjusted", Parts: []machine.PartID{"shaft", "case"}, Shims: "under the cover", Thicker: thicker, Dry: true},
		&machine.CheckAdded{ID: "float", Name: "End float", Joints: []machine.JointID{"shaft-fit"}, When: machine.Made, Dry: true, By: machine.ByReading, Unit: "mm",
			Limits: []machine.Limit{{NewLow: "0.05", NewHigh: "0.15", High: "0.30", From: machine.CommonPractice}}},
	}
	bodies = append(bodies, extra...)
	bodies = append(bodies, &machine.JointOpened{Joint: "shaft-fit", Off: []machine.PartID{"shaft"}, Shims: out},
		&machine.JointClosed{Joint: "shaft-fit", As: machine.Trial, Shims: in})
	if read >= 0 {
		bodies = append(bodies, &machine.ReadingTaken{Check: "float", Tool: "dial-0.01", Amount: machine.Amount{Value: read, Unit: "mm", Typed: "x", Step: 0.01}})
	}
	return bodies
}

func pile(mm ...float64) []machine.Shim {
	var out []machine.Shim
	for _, v := range mm {
		out = append(out, machine.Shim{ThicknessMM: v, Count: 1})
	}
	return out
}

// TestShims: fitted + read − wanted where a thicker pack closes the float,
// fitted − read + wanted where it opens it; wanted is 0.05 to 0.15, middle 0.10.
func TestShims(t *testing.T) {
	for _, c := range []struct {
		name    string
		thicker string
		out, in []machine.Shim
		read    float64
		want    float64 // pack; below zero: none
		says    string  // of Want, Why or the packs
	}{
		{"closes, too slack", machine.Closes, pile(0.5, 0.2, 0.1), pile(0.5), 0.32, 0.72, "0.22 mm thicker"},
		{"opens, too slack", machine.Opens, pile(0.5, 0.2, 0.1, 0.1), pile(0.5), 0.32, 0.28, "0.22 mm thinner"},
		{"packs of what came out", machine.Closes, pile(0.5, 0.2, 0.1), pile(0.5), 0.32, 0.72, "0.500 + 0.200"},
		{"none of what came out", machine.Closes, pile(0.5), pile(0.5), 0.32, 0.72, "get 0.72 mm"},
		{"may stay", machine.Closes, pile(0.5), pile(0.5), 0.12, 0.52, "may stay"},
		{"not written dry", machine.Closes, pile(0.5, 0.2), nil, 0.32, 0.92, "what came out is taken"},
		{"nobody knows the pack", machine.Opens, nil, nil, 0.32, 0, "0.22 mm thinner in all"},
		{"nobody knows, and it may stay", machine.Opens, nil, nil, 0.12, 0, "What was in the dry build may stay"},
		{"not read", machine.Closes, pile(0.5), pile(0.5), -1, -1, "has not been read since the dry build"},
		{"not plain", "", pile(0.5), pile(0.5), 0.32, -1, "not plain"},
		{"no shims can do it", machine.Opens, pile(0.1), pile(0.1), 0.9, -1, "even without shims"},
	} {
		m := machine.Fold(log(floating(c.thicker, c.out, c.in, c.read)...))
		for _, q := range m.Questions {
			t.Errorf("%s: question: %s", c.name, q.Text)
		}
		s := Of(m, m.Joint("shaft-fit")).Shims
		if s == nil {
			t.Errorf("%s: no shims", c.name)
			continue
		}
		said := s.Why + strings.Join(s.Packs, "; ")
		if s.Want != nil {
			said += s.Want.Say + strings.Join(s.Want.Working, " ")
		}
		if (s.Want == nil) != (c.want < 0) || s.Want != nil && math.Abs(s.Want.MM-c.want) > 1e-9 || !strings.Contains(said, c.says) {
			t.Errorf("%s: %+v, %+v; want %.2f mm, %q", c.name, *s, s.Want, c.want, c.says)
		}
	}
}

// TestShimsNotForTwo: a pack that two readings hang on is not chosen here, nor
// shims that sat in two places.
func TestShimsNotForTwo(t *testing.T) {
	second := &machine.CheckAdded{ID: "backlash", Name: "Backlash", Joints: []machine.JointID{"shaft-fit"}, When: machine.Made, Dry: true, By: machine.ByReading, Unit: "mm",
		Limits: []machine.Limit{{High: "0.3", From: machine.CommonPractice}}}
	m := machine.Fold(log(floating(machine.Closes, pile(0.5), pile(0.5), 0.32, second)...))
	if s := Of(m, m.Joint("shaft-fit")).Shims; s.Want != nil || !strings.Contains(s.Why, "More than one reading") {
		t.Errorf("two readings: %+v", s)
	}
	sides := []machine.Shim{{ThicknessMM: 2, Count: 1, Where: "front"}, {ThicknessMM: 2.5, Count: 1, Where: "rear"}}
	m = machine.Fold(log(floating(machine.Closes, sides, sides, 0.32)...))
	if s := Of(m, m.Joint("shaft-fit")).Shims; s.Want == nil || len(s.Packs) > 0 || !strings.Contains(s.Why, "more than one place") {
		t.Errorf("two sides: %+v", s)
	}
}

// TestHeat: ring gear of the textbook rule: 0.30 tight on 280 wants about
// 105 K (common practice, no source: (0.30 + 0.05)/(11.5e-6·280) is 109 K); a
// bearing stays below 110 °C; what is slack is not heated.
func TestHeat(t *testing.T) {
	for _, c := range []struct {
		ring, material string
		hole, shaft    float64
		celsius        float64 // 0: none
		topic          string
	}{
		{"Ring gear", "induction hardened steel", 279.70, 280.00, 20 + 0.35/(11.5e-6*280), "shrink"},
		{"Ball bearing", "ball bearing", 60.000, 60.012, 20 + 0.022/(11.5e-6*60.012), "bearing-heat"},
		{"Hub", "aluminium", 39.97, 40.00, 20 + 0.08/(23e-6*40), "shrink"},
		{"Slack hub", "steel", 40.02, 40.00, 0, ""},
	} {
		read := func(id machine.FeatureID, mm float64) machine.Body {
			return &machine.ReadingTaken{Feature: id, Tool: "micrometer-25", Amount: machine.Amount{Value: mm, Unit: "mm", Typed: "x", Step: 0.001}}
		}
		m := machine.Fold(log(
			&machine.PartAdded{ID: "ring", Name: c.ring, Qty: 1, Material: c.material},
			&machine.PartAdded{ID: "shaft", Name: "Shaft", Qty: 1, Material: "steel"},
			&machine.FeatureAdded{Part: "ring", Feature: "bore", Name: "bore", Sort: machine.Bore},
			&machine.FeatureAdded{Part: "shaft", Feature: "seat", Name: "seat", Sort: machine.Shaft},
			&machine.JointAdded{ID: "on", Name: "Ring on shaft", Sort: "press", Parts: []machine.PartID{"ring", "shaft"}},
			&machine.CheckAdded{ID: "fit", Name: "Fit", Parts: []machine.PartID{"ring"}, When: machine.Apart, By: machine.ByClearance, Outer: "ring/bore", Inner: "shaft/seat", Unit: "mm",
				Limits: []machine.Limit{{High: "0", From: machine.CommonPractice}}},
			read("ring/bore", c.hole), read("shaft/seat", c.shaft)))
		s := Of(m, m.Joint("on"))
		switch {
		case c.celsius == 0:
			if len(s.Heat) > 0 {
				t.Errorf("%s: %+v", c.ring, s.Heat)
			}
			continue
		case len(s.Heat) != 1:
			t.Errorf("%s: %d to heat", c.ring, len(s.Heat))
			continue
		}
		h := s.Heat[0]
		// the uncertainty of the fit is added: some µm, below a kelvin in ten
		if h.Celsius < c.celsius-0.5 || h.Celsius > c.celsius+25 || h.TightMM < c.shaft-c.hole-1e-9 || h.TightMM > c.shaft-c.hole+0.02 {
			t.Errorf("%s: %.1f °C for %.3f mm; want about %.1f for %.3f", c.ring, h.Celsius, h.TightMM, c.celsius, c.shaft-c.hole)
		}
		if len(s.Given[c.topic]) < 2 {
			t.Errorf("%s: given %v for %s", c.ring, s.Given, c.topic)
		}
	}
}
