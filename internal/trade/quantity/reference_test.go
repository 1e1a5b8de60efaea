package quantity

import (
	"math"
	"testing"

	"matchmark/internal/reftest"
)

// sharedRow says how a row of the shared table is asked: the text typed, the
// dimension, and the unit in which the row states its answer ("" = inside).
type sharedRow struct {
	id    string
	typed string
	dim   Dimension
	out   string
}

// sharedRows covers the rows of 16_units.csv that are conversions of a
// dimension this package knows. All are "computed from standard formula".
var sharedRows = []sharedRow{
	{"UNI002", "1 kgf", Force, "N"}, {"UNI003", "1 kgf.m", Torque, "N.m"}, {"UNI004", "1 kgf.cm", Torque, "N.m"},
	{"UNI005", "1 kgf/cm2", Pressure, "Pa"}, {"UNI006", "1 kgf/cm²", Pressure, "bar"},
	{"UNI007", "1 kgf/mm2", Pressure, "MPa"}, {"UNI008", "1 gf/cm2", Pressure, "Pa"},
	{"UNI009", "1 PS", Power, "W"}, {"UNI010", "1 hp", Power, "W"}, {"UNI011", "1 electric hp", Power, "W"},
	{"UNI012", "1 hp", Power, "PS"}, {"UNI013", "1 kW", Power, "PS"}, {"UNI014", "1 kW", Power, "hp"},
	{"UNI015", "1 in", Length, "mm"}, {"UNI016", "0.001 in", Length, "mm"}, {"UNI017", "1 thou", Length, "um"},
	{"UNI018", "1 ft", Length, "m"}, {"UNI019", "1 mi", Length, "km"}, {"UNI020", "1 lb", Mass, "kg"},
	{"UNI021", "1 oz", Mass, "g"}, {"UNI022", "1 cwt", Mass, "kg"}, {"UNI023", "1 short ton", Mass, "kg"},
	{"UNI024", "1 long ton", Mass, "kg"}, {"UNI025", "1 lbf", Force, "N"}, {"UNI026", "1 ft.lbf", Torque, "N.m"},
	{"UNI027", "1 in.lbf", Torque, "N.m"}, {"UNI028", "1 ozf.in", Torque, "N.m"}, {"UNI029", "1 ft·lbf", Torque, "kgf.m"},
	{"UNI030", "1 kgf m", Torque, "ft.lbf"}, {"UNI031", "1 N m", Torque, "ft.lbf"}, {"UNI032", "1 Nm", Torque, "kgf.m"},
	{"UNI033", "1 lbf/in2", Pressure, "Pa"}, {"UNI034", "1 bar", Pressure, "psi"}, {"UNI035", "1 kgf/cm2", Pressure, "psi"},
	{"UNI036", "1 ksi", Pressure, "MPa"}, {"UNI037", "1 atm", Pressure, "Pa"}, {"UNI038", "1 atm", Pressure, "kgf/cm2"},
	{"UNI039", "1 atm", Pressure, "psi"}, {"UNI040", "1 torr", Pressure, "Pa"}, {"UNI041", "1 mmHg", Pressure, "Pa"},
	{"UNI042", "1 mmAq", Pressure, "Pa"}, {"UNI043", "1 inHg", Pressure, "Pa"}, {"UNI044", "1 inH2O", Pressure, "Pa"},
	{"UNI045", "1 US gal", Volume, "L"}, {"UNI046", "1 imp gal", Volume, "L"}, {"UNI047", "1 imp gal", Volume, "US gal"},
	{"UNI048", "1 US qt", Volume, "L"}, {"UNI049", "1 imp qt", Volume, "L"}, {"UNI050", "1 US pt", Volume, "L"},
	{"UNI051", "1 imp pt", Volume, "L"}, {"UNI052", "1 US fl oz", Volume, "mL"}, {"UNI053", "1 imp fl oz", Volume, "mL"},
	{"UNI054", "1 in3", Volume, "cm3"}, {"UNI055", "0 degF", Temperature, "°C"}, {"UNI056", "32 °F", Temperature, "°C"},
	{"UNI057", "212 F", Temperature, "°C"}, {"UNI058", "68 degF", Temperature, "°C"}, {"UNI059", "180 °F", Temperature, "°C"},
	{"UNI060", "\u221240 °F", Temperature, "°C"}, {"UNI061", "18 °F", TempDifference, "K"}, {"UNI062", "0 °C", Temperature, "K"},
	{"UNI067", "1 mph", RoadSpeed, "km/h"}, {"UNI068", "1 knot", RoadSpeed, "km/h"}, {"UNI070", "1 cSt", Viscosity, "mm²/s"},
	{"UNI075", "1 grad", Angle, "deg"}, {"UNI076", "1 rpm", Speed, "rad/s"}, {"UNI079", "14 kgf.m", Torque, "N.m"},
	{"UNI080", "45 ft.lbf", Torque, "N.m"}, {"UNI081", "95 in.lbf", Torque, "N.m"}, {"UNI082", "68 N.m", Torque, "kgf.m"},
	{"UNI083", "110 ft.lbf", Torque, "kgf.m"}, {"UNI084", "120 kgf/cm2", Pressure, "MPa"}, {"UNI085", "35 psi", Pressure, "bar"},
	{"UNI086", "2.5 kgf/cm2", Pressure, "psi"}, {"UNI087", "240 mmHg", Pressure, "kPa"}, {"UNI088", "300 mmAq", Pressure, "kPa"},
	{"UNI089", "18 PS", Power, "kW"}, {"UNI090", "25 hp", Power, "kW"}, {"UNI091", "20 kW", Power, "PS"},
	{"UNI092", "3 7/16 in", Length, "mm"}, {"UNI093", "0.004 in", Length, "mm"}, {"UNI094", "0.05 mm", Length, "thou"},
	{"UNI095", "2.5 imperial gal", Volume, "L"}, {"UNI096", "2.5 US gal", Volume, "L"}, {"UNI097", "9 imperial pt", Volume, "L"},
	{"UNI098", "95 in3", Volume, "cm3"}, {"UNI099", "185 degF", Temperature, "°C"}, {"UNI100", "120 lbf/in", SpringRate, "N/mm"},
	{"UNI101", "8 kgf/mm", SpringRate, "N/mm"}, {"UNI102", "16 TPI", Pitch, "mm"},
}

func TestSharedUnits(t *testing.T) {
	tab := reftest.Load(t, "reference/16_units.csv")
	for _, row := range sharedRows {
		q, err := Parse(row.typed, row.dim, "")
		if err != nil {
			tab.Fail(t, row.id, err.Error())
			continue
		}
		got, err := q.In(row.out)
		if err != nil {
			tab.Fail(t, row.id, err.Error())
			continue
		}
		if row.id == "UNI076" {
			tab.Corrected(t, row.id, got, math.Pi/30, 1e-16,
				"0.10471976 is printed to 8 digits, so its tolerance of 1e-9 relative cannot hold; π/30 is exact (SI Brochure 9th ed. table 8)")
			continue
		}
		tab.Compare(t, row.id, got)
	}
	tab.Report(t)
}

// nistRow is typed text in a dimension; the wanted value is inside.
type nistRow struct {
	Typed string
	Dim   Dimension
}

// Printed factors of NIST SP 811 (2008) appendix B.8, from memory, to the
// seven digits printed there; the tolerance is half the last printed digit.
func TestPrintedFactors(t *testing.T) {
	const source = "NIST SP 811 (2008) appendix B.8, seven printed digits, value from memory"
	rows := []struct {
		typed     string
		dim       Dimension
		want, tol float64
	}{
		{"1 ft·lbf", Torque, 1.355818, 5e-7}, {"1 lbf·in", Torque, 0.1129848, 5e-8},
		{"1 ozf·in", Torque, 7.061552e-3, 5e-10}, {"1 kgf·m", Torque, 9.80665, 0},
		{"1 psi", Pressure, 6.894757e-3, 5e-10}, {"1 atm", Pressure, 0.101325, 0},
		{"1 kgf/cm2", Pressure, 9.80665e-2, 1e-17}, {"1 mmHg", Pressure, 1.333224e-4, 5e-11},
		{"1 inHg", Pressure, 3.386389e-3, 5e-10}, {"1 inH2O", Pressure, 2.490889e-4, 5e-11},
		{"1 metric hp", Power, 735.4988, 5e-5}, {"1 hp", Power, 745.6999, 5e-5},
		{"1 lbf", Force, 4.448222, 5e-7}, {"1 lb", Mass, 0.4535924, 5e-8}, {"1 oz", Mass, 0.02834952, 5e-9},
		{"1 US gal", Volume, 3.785412, 5e-7}, {"1 imp gal", Volume, 4.54609, 0},
		{"1 in³", Volume, 0.01638706, 5e-9}, {"1 lbf/in", SpringRate, 0.1751268, 5e-8},
		{"1 rad", Angle, 57.29578, 5e-6}, {"1 mph", RoadSpeed, 1.609344, 0}, {"1 µin", Roughness, 0.0254, 0},
	}
	var list []reftest.Row[nistRow]
	for _, r := range rows {
		list = append(list, reftest.Row[nistRow]{ID: r.typed, In: nistRow{r.typed, r.dim}, Want: r.want, Tol: r.tol,
			Source: source, Kind: reftest.Memory})
	}
	reftest.Run(t, list, func(in nistRow) (float64, error) {
		q, err := Parse(in.Typed, in.Dim, "")
		return q.Value, err
	})
}
