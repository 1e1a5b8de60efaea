package electric

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/reftest"
)

func id(n int) string { return fmt.Sprintf("ELE%03d", n) }

// TestSharedElectric walks 13_electric.csv. Conductors (ELE001-030) and two of
// the battery tables (129-137) were read; the first battery table, the fuse
// colours and times and the copper coefficient are from memory in that file.
func TestSharedElectric(t *testing.T) {
	tab := reftest.Load(t, "reference/13_electric.csv")
	sharedConductors(t, tab)
	sharedDrops(t, tab)
	sharedBattery(t, tab)
	sharedStarter(t, tab)
	sharedPulleys(t, tab)
	sharedFuses(t, tab)
	sharedGlow(t, tab)
	tab.Report(t)
}

func sharedConductors(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for i, mm2 := range Sizes() {
		for k, class := range []Class{Stiff, Flexible} {
			row := id(1 + 2*i + k)
			if tab.Row(t, row)["inputs"] != fmt.Sprintf("%g mm2", mm2) {
				tab.Fail(t, row, fmt.Sprintf("got %g mm²", mm2))
			}
			tab.Compare(t, row, f(PerKm(mm2, class)))
		}
	}
	for i, n := range []int{-3, -1, 0, 2, 6, 8, 10, 14, 16} {
		g := reftest.Must[Gauge](t)(AWG(n))
		tab.Compare(t, id(31+3*i), g.MM)
		tab.Compare(t, id(32+3*i), g.MM2)
		tab.Compare(t, id(33+3*i), g.OhmKm)
	}
	tab.Compare(t, "ELE058", CopperPerK)
	for row, in := range map[int][2]float64{59: {0.272, 60}, 60: {1.21, -10}, 61: {13.3, 80}} {
		tab.Compare(t, id(row), f(Warm(in[0], in[1])))
		// Second route: the table form (234.5 + t)/254.5 agrees within 0.1 %.
		if k := f(ToTwenty(in[1])); !reftest.Near(in[0]/k, f(Warm(in[0], in[1])), 0.001*in[0]*2) {
			tab.Fail(t, id(row), fmt.Sprintf("by the other form %g", in[0]/k))
		}
	}
	tab.Compare(t, "ELE062", f(ToTwenty(50)))
}

func sharedDrops(t *testing.T, tab *reftest.Table) {
	for row, in := range map[int][4]float64{63: {10, 5, 1.5, 12}, 64: {10, 5, 2.5, 12}, 65: {5, 4, 0.75, 12}, 66: {20, 3, 4, 12},
		67: {300, 1.2, 35, 12}, 68: {300, 1.2, 50, 12}, 69: {8, 6, 1, 6}, 70: {400, 1, 70, 12}} {
		d := reftest.Must[Drop](t)(Run{Amps: in[0], OneWay: in[1]}.Lost(in[2], in[3]))
		var volts, percent float64
		if _, err := fmt.Sscanf(tab.Row(t, id(row))["expected"], "%g V (%g %%)", &volts, &percent); err != nil {
			t.Fatal(err)
		}
		if !reftest.Near(d.Volts, volts, 0.005*volts) || !reftest.Near(100*d.Share, percent, 0.005*percent) {
			tab.Fail(t, id(row), fmt.Sprintf("got %+v", d))
		}
	}
	for row, in := range map[int][3]float64{71: {10, 5, 0.36}, 72: {20, 3, 0.36}, 73: {300, 1.2, 0.5}, 74: {4.6, 6, 0.3}} {
		tab.Compare(t, id(row), reftest.Must[float64](t)(Run{Amps: in[0], OneWay: in[1]}.Smallest(in[2])))
	}
	// A joint by itself: no cable to speak of.
	d := reftest.Must[Drop](t)(Run{Amps: 300, OneWay: 1e-9, Frame: true, Joint: 0.002}.Lost(120, 12))
	if got := fmt.Sprintf("%.3g V, %.3g W", d.Volts, d.Watts); got != tab.Row(t, "ELE075")["expected"] {
		tab.Fail(t, "ELE075", got)
	}
}

func sharedBattery(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	tables := RestTables()
	for i, line := range tables[0].Lines { // values from memory
		var volts, gravity float64
		if _, err := fmt.Sscanf(tab.Row(t, id(76+i))["expected"], "%g V; %g", &volts, &gravity); err != nil {
			t.Fatal(err)
		}
		if line.Volts != volts || !reftest.Near(f(OpenVolts(gravity, 6)), volts, 0.2) {
			tab.Fail(t, id(76+i), fmt.Sprintf("got %+v, by gravity %g", line, f(OpenVolts(gravity, 6))))
		}
	}
	for k, first := range map[int]int{1: 129, 2: 133} {
		for i, line := range tables[k].Lines {
			tab.Compare(t, id(first+i), line.Volts)
			if tab.Row(t, id(first+i))["inputs"] != fmt.Sprintf("%g %%", line.Percent) {
				tab.Fail(t, id(first+i), fmt.Sprintf("got %+v", line))
			}
			// What any table says must lie in the range that is shown.
			c := reftest.Must[Charge](t)(StateOf(line.Volts, 12))
			if line.Percent < c.Low-1e-9 || line.Percent > c.High+1e-9 {
				tab.Fail(t, id(first+i), fmt.Sprintf("range %+v leaves the table out", c))
			}
		}
	}
	for row, volts := range map[int]float64{84: 12.5, 85: 12.3, 86: 12.15} {
		p, ok := tables[0].at(volts)
		if !ok {
			t.Fatal(volts)
		}
		tab.Compare(t, id(row), p)
	}
	for row, gravity := range map[int]float64{81: 1.265, 82: 1.225, 83: 1.15} {
		tab.Compare(t, id(row), f(OpenVolts(gravity, 6)))
	}
	for row, c := range map[int]float64{87: 5, 88: 40} {
		tab.Compare(t, id(row), f(GravityAt25(1.25, c)))
	}
	// Ten degrees Fahrenheit are 5.56 K; the row is printed to three decimals.
	step := f(GravityAt25(1.25, 25+50.0/9)) - 1.25
	tab.Compare(t, "ELE138", math.Round(step*1000)/1000)
	tab.Compare(t, "ELE093", f(Inner(12.6, 10.1, 250)))
	tab.Compare(t, "ELE127", f(ChargeHours(60, 0.5, 6, 0.85)))
}

func sharedStarter(t *testing.T, tab *reftest.Table) {
	for row, in := range map[int][2]float64{89: {9.6, 250}, 90: {10.2, 180}, 91: {4.8, 300}} {
		kw, _, err := StarterPower(in[0], in[1], 0.5)
		if err != nil {
			t.Fatal(err)
		}
		tab.Compare(t, id(row), kw)
	}
	_, out, err := StarterPower(10, 250, 0.55)
	if err != nil {
		t.Fatal(err)
	}
	tab.Compare(t, "ELE092", out)
	tab.Compare(t, "ELE094", reftest.Must[float64](t)(MostPowerAmps(12.6, 0.012)))
	tab.Compare(t, "ELE095", reftest.Must[float64](t)(CrankSpeed(2000, 9, 110)))
}

func sharedPulleys(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for row, in := range map[int][3]float64{96: {1500, 180, 72}, 97: {2000, 160, 65}, 98: {540, 300, 90}} {
		tab.Compare(t, id(row), f(Driven(in[0], in[1], in[2], 0)))
	}
	usual, exact, err := OpenBelt(180, 72, 320)
	if err != nil {
		t.Fatal(err)
	}
	tab.Compare(t, "ELE099", usual)
	if !reftest.Near(exact, 1044.975, 0.0005) { // note of ELE099
		tab.Fail(t, "ELE099", fmt.Sprintf("exactly %g", exact))
	}
	tab.Compare(t, "ELE100", f(LargestDriven(150, 700, 1200)))
	for row, in := range map[int][2]float64{122: {55, 12}, 123: {21, 12}, 124: {45, 6}} {
		tab.Compare(t, id(row), f(LampAmps(in[0], in[1])))
	}
	if got := fmt.Sprintf("%gx power", f(PowerTimes(6, 12))); got != tab.Row(t, "ELE128")["expected"] {
		tab.Fail(t, "ELE128", got)
	}
}

func sharedFuses(t *testing.T, tab *reftest.Table) {
	for row, load := range map[int]float64{101: 4, 102: 8, 103: 9.2, 104: 13, 105: 24} {
		tab.Compare(t, id(row), reftest.Must[Blade](t)(Fuse(load, 1000)).Amps)
	}
	var wire WireError
	if _, err := Fuse(13, 16); !errors.As(err, &wire) || !strings.Contains(err.Error(), "larger cable") {
		tab.Fail(t, "ELE106", fmt.Sprint(err))
	}
	tab.Row(t, "ELE106")
	tab.Compare(t, "ELE107", reftest.Must[Blade](t)(Fuse(13, 20)).Amps)
	for i, b := range Blades() { // colours from memory
		row := tab.Row(t, id(108+i))
		if row["inputs"] != fmt.Sprintf("%g A", b.Amps) || row["expected"] != b.Colour {
			tab.Fail(t, id(108+i), fmt.Sprintf("got %+v", b))
		}
	}
	for i, b := range Blows() { // values from memory
		row := tab.Row(t, id(117+i))
		got := fmt.Sprintf("%g..%g s", b.Low, b.High)
		if b.High == 0 {
			got = fmt.Sprintf(">= %g h", b.Low/3600)
		}
		if row["expected"] != got || !strings.HasPrefix(row["inputs"], fmt.Sprintf("%.0f %%", 100*b.Times)) {
			tab.Fail(t, id(117+i), got)
		}
	}
}

func sharedGlow(t *testing.T, tab *reftest.Table) {
	tab.Compare(t, "ELE125", reftest.Must[float64](t)(BankAmps(11, 0.8, 4)))
	r := reftest.Must[Resistor](t)(SeriesResistor(12, 1.7, 40, 4))
	if got := fmt.Sprintf("%.3g V over resistor, 40 A, %.3g ohm", r.Volts, r.Ohm); got != tab.Row(t, "ELE126")["expected"] {
		tab.Fail(t, "ELE126", got)
	}
}

// TestTablesDisagree: the range must show what the tables do, about 0.1 V at
// low charge (note of ELE129): never narrower than ten per cent there.
func TestTablesDisagree(t *testing.T) {
	c := reftest.Must[Charge](t)(StateOf(12.1, 12))
	if c.High-c.Low < 10 {
		t.Errorf("at 12.1 V: %+v", c)
	}
	full := reftest.Must[Charge](t)(StateOf(12.7, 12))
	if full.Low != 100 || full.High != 100 {
		t.Errorf("at 12.7 V: %+v", full)
	}
	var volts []float64
	for _, table := range RestTables() {
		for _, l := range table.Lines {
			if l.Percent == 25 {
				volts = append(volts, l.Volts)
			}
		}
	}
	if d := slices.Max(volts) - slices.Min(volts); !reftest.Near(d, 0.15, 1e-9) {
		t.Errorf("at a quarter the tables part by %g V", d)
	}
}
