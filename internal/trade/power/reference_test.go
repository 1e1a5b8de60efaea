package power

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"matchmark/internal/reftest"
	"matchmark/internal/trade/quantity"
)

func id(n int) string { return fmt.Sprintf("PWR%03d", n) }

// TestSharedPower walks 15_power_tests.csv. The stopping formulas (PWR084,
// 085) and the reference state (098-100) were read; the shaft types (039-041)
// are from memory in that file; the rest is arithmetic redone there, a second
// route.
func TestSharedPower(t *testing.T) {
	tab := reftest.Load(t, "reference/15_power_tests.csv")
	sharedCorrection(t, tab)
	sharedTorque(t, tab)
	sharedRoad(t, tab)
	sharedEngine(t, tab)
	sharedBrakes(t, tab)
	tab.List(t, "factors for spark ignition, which must never touch a diesel: not built", "PWR018", "PWR019", "PWR020", "PWR021")
	for n := 50; n <= 62; n++ {
		tab.List(t, "of package hydraulic", id(n))
	}
	for n := 63; n <= 70; n++ {
		tab.List(t, "timing at the rim and in time: of package engine", id(n))
	}
	for n := 77; n <= 80; n++ {
		tab.List(t, "compression and displacement: of package engine", id(n))
	}
	tab.Report(t)
}

func sharedCorrection(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for row, in := range map[int]struct {
		kPa, c float64
		in     Intake
	}{1: {99, 25, Natural}, 2: {95, 30, Natural}, 3: {85, 15, Natural}, 4: {101.3, 10, Natural}, 5: {97, 35, Natural}, 6: {95, 30, Turbo}} {
		tab.Compare(t, id(row), f(AirFactor(in.kPa, in.c, in.in)))
	}
	for row, qc := range map[int]float64{7: 40, 8: 50, 9: 65, 10: 30, 11: 70} {
		tab.Compare(t, id(row), f(EngineFactor(qc, Bounds40)))
	}
	for row, in := range map[int]Test{12: {KW: 20, DryKPa: 95, Celsius: 30, QC: 50}, 13: {KW: 14.5, DryKPa: 97, Celsius: 35, QC: 60},
		14: {KW: 28, DryKPa: 100, Celsius: 18, QC: 45}} {
		in.Intake, in.Edition = Natural, Bounds40
		c := reftest.Must[Corrected](t)(in.Correct())
		tab.Compare(t, id(row), c.KW)
		var alpha float64
		if _, err := fmt.Sscanf(tab.Row(t, id(row))["note"], "alpha_c=%g", &alpha); err != nil || !reftest.Near(c.Factor, alpha, 6e-6) || len(c.Doubts) > 0 {
			tab.Fail(t, id(row), fmt.Sprintf("%+v", c))
		}
	}
	tab.Compare(t, "PWR015", f(FuelPerCycle(1.6, 1.8, 2000)))
	tab.Compare(t, "PWR016", f(Air{101.3, 25, 50}.Dry()))
	tab.Compare(t, "PWR017", f(Air{98, 30, 70}.Dry()))
	for i, h := range []float64{0, 500, 1000, 1500} {
		tab.Compare(t, id(22+i), f(Thinner(h)))
	}
	// 25 °C is 298.15 K, which the regulation prints to a tenth.
	tab.Compare(t, "PWR098", math.Round(10*(ReferenceC+273.15))/10)
	tab.Compare(t, "PWR099", ReferenceKPa)
	tab.Compare(t, "PWR100", ReferenceVapour)
}

func sharedTorque(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for row, b := range map[int]Brake{26: {196.2, 0, 0.6, 1500}, 27: {250, 0, 0.9549, 2000}, 28: {98.1, 0, 1, 540},
		29: {32 * gravity, 2 * gravity, 0.716, 1800}} {
		tab.Compare(t, id(row), f(b.KW()))
	}
	tab.Compare(t, "PWR030", f(KW(100, 2000)))
	tab.Compare(t, "PWR031", f(KW(250, 540)))
	torque := reftest.Must[quantity.Quantity](t)(quantity.Parse("100 ft·lbf", quantity.Torque, ""))
	nm := f(torque.In("N·m"))
	hp := f(quantity.Convert(f(KW(nm, 2000)), quantity.Power, "kW", "hp"))
	tab.Compare(t, "PWR032", hp)
	tab.Compare(t, "PWR033", f(Torque(15, 540)))
	tab.Compare(t, "PWR034", f(Torque(15, 1000)))
	tab.Compare(t, "PWR035", f(Ratio(1800, 540)))
	tab.Compare(t, "PWR036", f(Ratio(2100, 540)))
	tab.Compare(t, "PWR037", f(Ratio(2200, 1000)))
	tab.Compare(t, "PWR038", f(ShaftSpeed(1650, 3.5)))
	for i, s := range Shafts() { // values from memory
		if got := fmt.Sprintf("%g rpm, %g mm, %d %s splines", s.Rpm, s.Diameter, s.Splines, s.Form); got != tab.Row(t, id(39+i))["expected"] {
			tab.Fail(t, id(39+i), got)
		}
	}
	tab.Compare(t, "PWR042", f(Ratio(1000, 540)))
}

func sharedRoad(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for row, in := range map[int][3]float64{43: {2000, 80, 1.2}, 44: {1800, 120, 1.1}, 45: {2200, 25, 1.4}} {
		tab.Compare(t, id(row), f(RoadSpeed(in[0], in[1], f(Rolling(in[2])))))
	}
	tab.Compare(t, "PWR046", f(RollingByPull(37.2, 10)))
	tab.Compare(t, "PWR047", f(Slip(37.2, 41)))
	tab.Compare(t, "PWR048", f(Slip(50, 56)))
	tab.Compare(t, "PWR049", f(Drawbar(8000, 5)))
}

func sharedEngine(t *testing.T, tab *reftest.Table) {
	f := reftest.Must[float64](t)
	for row, in := range map[int][2]float64{71: {80, 72}, 72: {80, 60}, 73: {100, 85}, 74: {6, 5.1}} {
		tab.Compare(t, id(row), f(LeakDown(in[0], in[1])))
	}
	for row, in := range map[int][]float64{75: {24, 25, 23.5, 24.5}, 76: {26, 25.5, 19, 26}} {
		s := reftest.Must[Spread](t)(SpreadOf(in))
		if got := fmt.Sprintf("max-min %g bar; lowest %.2f %% of highest", s.Range, s.Lowest); got != tab.Row(t, id(row))["expected"] {
			tab.Fail(t, id(row), got)
		}
	}
	tab.Compare(t, "PWR081", f(MeanPressure(14, 1.1, 2200)))
	tab.Compare(t, "PWR082", f(FuelUse(320, 300, 0.84, 14)))
	tab.Compare(t, "PWR083", f(Thermal(230.4, 42.7)))
}

func sharedBrakes(t *testing.T, tab *reftest.Table) {
	f, limit := reftest.Must[float64](t), reftest.Must[StopLimit](t)
	for row, design := range map[int]float64{84: 30, 85: 40} {
		l := limit(LimitOf(20, design))
		if got := fmt.Sprintf("0.15 v + v^2/%g; dm>=%g", l.K, l.Deceleration); got != tab.Row(t, id(row))["expected"] || !strings.Contains(l.Law, "place") {
			tab.Fail(t, id(row), got)
		}
	}
	for row, in := range map[int][2]float64{86: {30, 30}, 87: {15, 30}, 88: {20, 30}, 89: {40, 40}} {
		tab.Compare(t, id(row), limit(LimitOf(in[0], in[1])).Metres)
	}
	for row, k := range map[int]float64{90: 92, 91: 130} {
		tab.Compare(t, id(row), f(Deceleration(30, 900/k)))
	}
	tab.Compare(t, "PWR092", f(Deceleration(20, 6.5)))
	tab.Compare(t, "PWR093", f(Deceleration(25, 9)))
	tab.Compare(t, "PWR094", f(FullyDeveloped(24, 3, 4.1, 9)))
	tab.Compare(t, "PWR095", f(Balance(2100, 1750)))
	tab.Compare(t, "PWR096", f(SlopeDegrees(18)))
	tab.Compare(t, "PWR097", f(Holding(1500, 18)))
}
