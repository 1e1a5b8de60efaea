package coating

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"matchmark/internal/reftest"
)

func id(n int) string { return fmt.Sprintf("COA%03d", n) }

// TestSharedCoating walks 14_coating.csv. The chart and glossary dew points
// (COA060-066) were read; acceptance and grades (056-059) are from memory in
// that file; the rest is arithmetic redone there, a second route.
func TestSharedCoating(t *testing.T) {
	tab := reftest.Load(t, "reference/14_coating.csv")
	sharedFilms(t, tab)
	sharedDew(t, tab)
	sharedAreas(t, tab)
	sharedParts(t, tab)
	sharedAccept(t, tab)
	tab.Report(t)
}

func sharedFilms(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for row, in := range map[int][3]float64{1: {60, 50, 0}, 2: {75, 60, 10}, 3: {40, 35, 20}, 4: {100, 80, 5}} {
		tab.Compare(t, id(row), f(Wet(in[0], in[1], in[2])))
	}
	for row, in := range map[int][3]float64{5: {120, 50, 0}, 6: {150, 55, 10}} {
		tab.Compare(t, id(row), f(Dry(in[0], in[1], in[2])))
	}
	for row, in := range map[int][2]float64{7: {50, 50}, 8: {75, 60}, 9: {40, 35}} {
		tab.Compare(t, id(row), f(Coverage(in[0], in[1])))
	}
	// ft² from a US gallon: 1 m² is 10.7639104 ft², 1 gallon 3.785411784 L.
	us := 10.763910416709722 * 3.785411784
	tab.Compare(t, "COA010", us*f(Coverage(25.4, 100)))
	tab.Compare(t, "COA011", us*f(Coverage(50.8, 50)))
	for row, j := range map[int]Job{12: {8, 50, 45, 0.3, 1}, 13: {12, 60, 50, 0.4, 2}, 14: {3.5, 40, 35, 0.5, 2}} {
		tab.Compare(t, id(row), f(j.Litres()))
	}
	tab.Compare(t, "COA015", f(ProfileLitres(50, 8, 50)))
}

func sharedDew(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for i, in := range [][2]float64{{20, 50}, {20, 60}, {20, 70}, {20, 80}, {25, 60}, {10, 80}, {30, 50}, {15, 85}, {5, 90}, {35, 40}, {23, 50}, {20, 100}} {
		tab.Compare(t, id(16+i), f(DewPoint(in[0], in[1])))
	}
	for i, c := range []float64{0, 10, 20, 30} {
		tab.Compare(t, id(28+i), f(Vapour(c)))
	}
	for row, in := range map[int][2]float64{32: {20, 15}, 33: {25, 20}} {
		rh := f(FromWetBulb(in[0], in[1], 1013.25))
		tab.Compare(t, id(row), rh)
		var dew float64
		if _, err := fmt.Sscanf(tab.Row(t, id(row))["note"], "dew point %g", &dew); err != nil || !reftest.Near(f(DewPoint(in[0], rh)), dew, 0.02) {
			tab.Fail(t, id(row), fmt.Sprintf("dew point %g", f(DewPoint(in[0], rh))))
		}
	}
	for i, in := range [][3]float64{{20, 70, 18}, {20, 70, 17}, {25, 60, 19.8}, {10, 85, 10}, {15, 85, 15}, {20, 85, 20}} {
		w := reftest.Must[Weather](t)(MayPaint(in[0], in[1], in[2]))
		verdict := "paint"
		if !w.May {
			verdict = "do not paint"
		}
		var dew, margin float64
		want := tab.Row(t, id(34+i))["expected"]
		if _, err := fmt.Sscanf(want, "dew %g, margin %g,", &dew, &margin); err != nil {
			t.Fatal(err)
		}
		if !strings.HasSuffix(want, ", "+verdict) || !reftest.Near(w.DewC, dew, 0.1) || !reftest.Near(w.Margin, margin, 0.1) {
			tab.Fail(t, id(34+i), fmt.Sprintf("got %+v", w))
		}
	}
	tab.Compare(t, "COA040", f(DampestAir(10)))
	tab.Compare(t, "COA041", f(DampestAir(20)))
	tab.Compare(t, "COA060", f(DewPoint(21, f(FromWetBulb(21, 17, 1013.25)))))
	for row, in := range map[int][2]float64{61: {16, 71}, 62: {30, 55}, 63: {24, 35}} {
		tab.Compare(t, id(row), f(DewPoint(in[0], in[1])))
	}
	if w := reftest.Must[Weather](t)(MayPaint(16, 71, 13)); w.May { // verdict of COA061
		tab.Fail(t, "COA061", "painted")
	}
	for row, in := range map[int][2]float64{64: {70, 65}, 65: {50, 80}, 66: {80, 50}} {
		tab.Compare(t, id(row), 32+1.8*f(DewPoint((in[0]-32)/1.8, in[1])))
	}
}

func sharedAreas(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for i, got := range []float64{f(Tube(700, 250)), f(Disc(600, 100)), f(Drum(350, 700)), f(Box(900, 500, 300)),
		f(Cone(300, 150, 200)), f(Fender(650, 120, 350)), f(Tube(60, 1200)), f(Dome(200)), f(Sheet(1200, 600)), f(Ring(210, 12))} {
		tab.Compare(t, id(42+i), got)
	}
}

func sharedParts(t *testing.T, tab *reftest.Table) {
	parts := reftest.Must[[]float64](t)
	for row, got := range map[int][]float64{52: parts(Parts(500, 4, 1)), 53: parts(Thinned(660, 10, 2, 1)), 54: parts(Parts(900, 4, 1, 1))} {
		var words []string
		for _, p := range got {
			words = append(words, fmt.Sprintf("%.6g", p))
		}
		if text := strings.Join(words, " + "); text != tab.Row(t, id(row))["expected"] {
			tab.Fail(t, id(row), text)
		}
	}
	if got := fmt.Sprintf("100 g : %.5g g", reftest.Must[float64](t)(HardenerGrams(100, 5, 1, 1.35, 1.05))); got != tab.Row(t, "COA055")["expected"] {
		tab.Fail(t, "COA055", got)
	}
}

func sharedAccept(t *testing.T, tab *reftest.Table) {
	// COA056 gives the rule only: both edges, and a hair past each.
	tab.Row(t, "COA056")
	for _, c := range []struct {
		spots [][3]float64
		pass  bool
	}{
		{[][3]float64{{80, 80, 80}, {100, 110, 130}, {110, 110, 110}}, true}, {[][3]float64{{79, 79, 79}, {130, 130, 130}}, false},
		{[][3]float64{{144, 144, 144}, {100, 90, 95}}, true}, {[][3]float64{{145, 145, 145}, {80, 80, 80}}, false},
		{[][3]float64{{85, 85, 85}, {90, 90, 90}}, false},
	} {
		if a := reftest.Must[Accepted](t)(BySpots(c.spots, 100, 120)); a.Pass != c.pass {
			tab.Fail(t, "COA056", fmt.Sprintf("%v: %+v", c.spots, a))
		}
	}
	a := reftest.Must[Accepted](t)(ByNominal([]float64{85, 95, 105, 110, 112}, 100))
	if tab.Row(t, "COA057"); a.Pass || !strings.HasPrefix(a.Why, "40 %") {
		tab.Fail(t, "COA057", fmt.Sprintf("%+v", a))
	}
	for row, grade := range map[int]string{58: "Sa 2.5", 59: "St 3"} {
		for _, p := range Preparations() {
			if p.Grade == grade && tab.Row(t, id(row))["expected"] != p.Meaning {
				tab.Fail(t, id(row), p.Meaning)
			}
		}
	}
}

// TestOtherMagnus: the constants 17.27 and 237.7 give dew points within
// 0.04 °C from 5 to 35 °C (notes of COA016 to COA027).
func TestOtherMagnus(t *testing.T) {
	for c := 5.0; c <= 35; c += 5 {
		for rh := 40.0; rh <= 100; rh += 10 {
			g := math.Log(rh/100) + 17.27*c/(237.7+c)
			if d := reftest.Must[float64](t)(DewPoint(c, rh)); !reftest.Near(d, 237.7*g/(17.27-g), 0.04) {
				t.Errorf("%g °C, %g %%: %g and %g", c, rh, d, 237.7*g/(17.27-g))
			}
		}
	}
}
