package hydraulic

import (
	"fmt"
	"testing"

	"matchmark/internal/reftest"
)

func id(n int) string { return fmt.Sprintf("PWR%03d", n) }

// TestSharedHydraulics walks the hydraulic rows of 15_power_tests.csv, PWR050
// to PWR062: arithmetic redone there, a second route. The other rows of that
// file belong to the packages power and engine.
func TestSharedHydraulics(t *testing.T) {
	tab := reftest.Load(t, "reference/15_power_tests.csv")
	f := reftest.Must[float64](t)
	for row, in := range map[int][3]float64{50: {8, 1500, 0.92}, 51: {11, 2000, 0.9}, 52: {6, 1800, 0.95}} {
		tab.Compare(t, id(row), f(Flow(in[0], in[1], in[2])))
	}
	for row, in := range map[int][3]float64{53: {150, 20, 1}, 54: {175, 18, 0.85}, 55: {120, 25, 0.8}} {
		tab.Compare(t, id(row), f(Power(in[0], in[1], in[2])))
	}
	tab.Compare(t, "PWR056", f(Torque(8, 150, 0.9)))
	tab.Compare(t, "PWR057", f(Force(80, 150)))
	tab.Compare(t, "PWR058", f(Force(63, 175)))
	tab.Compare(t, "PWR059", f(Pull(80, 40, 150)))
	tab.Compare(t, "PWR060", f(Speed(80, 20)))
	tab.Compare(t, "PWR061", f(Volumetric(19.6, 16.2)))
	tab.Compare(t, "PWR062", f(Leak(80, 9)))
	for _, row := range tab.IDs {
		if row < "PWR050" || row > "PWR062" {
			tab.List(t, "of the packages power and engine", row)
		}
	}
	tab.Report(t)
}
