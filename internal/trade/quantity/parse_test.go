package quantity

import (
	"errors"
	"strings"
	"testing"
)

// Wanted values worked by hand from the exact factors named in the unit files.
func TestTyped(t *testing.T) {
	for _, c := range []struct {
		typed       string
		want        Dimension
		deflt       string
		value, step float64
		unit        string
	}{
		{"52.013", Length, "mm", 52.013, 0.001, "mm"},
		{"52,013", Length, "mm", 52.013, 0.001, "mm"},
		{"2.0477 in", Length, "", 52.01158, 0.00254, "in"},
		{"3 thou", Length, "", 0.0762, 0.0254, "thou"},
		{"1 1/2 in", Length, "", 38.1, 12.7, "in"},
		{"1-1/2\"", Length, "", 38.1, 12.7, "in"},
		{"1½ in", Length, "", 38.1, 12.7, "in"},
		{`3/8"`, Length, "", 9.525, 3.175, "in"},
		{"3⁄8″", Length, "", 9.525, 3.175, "in"},
		{"2.0477''", Length, "", 52.01158, 0.00254, "in"},
		{"12 μm", Length, "", 0.012, 0.001, "µm"},
		{"12 um", Length, "", 0.012, 0.001, "µm"},
		{"50 MM", Length, "", 50, 1, "mm"},
		{"\u22120.02", Length, "mm", -0.02, 0.01, "mm"},
		{"+0.02", Length, "mm", 0.02, 0.01, "mm"},
		{".5", Length, "mm", 0.5, 0.1, "mm"},
		{"1,234.5", Length, "mm", 1234.5, 0.1, "mm"},
		{"1.234,5", Length, "mm", 1234.5, 0.1, "mm"},
		{"1,234", Length, "mm", 1.234, 0.001, "mm"},
		{"1,234,567", Length, "mm", 1234567, 1, "mm"},
		{"1\u202f234.5 mm", Length, "", 1234.5, 0.1, "mm"},
		{"5\u00a0kgf·m", Torque, "", 49.03325, 9.80665, "kgf·m"},
		{"5 kgf-m", Torque, "", 49.03325, 9.80665, "kgf·m"},
		{"5 kgf*m", Torque, "", 49.03325, 9.80665, "kgf·m"},
		{"5kgfm", Torque, "", 49.03325, 9.80665, "kgf·m"},
		{"5 KGFM", Torque, "", 49.03325, 9.80665, "kgf·m"},
		{"5 kgm", Torque, "", 49.03325, 9.80665, "kgf·m"},
		{"40 N m", Torque, "", 40, 1, "N·m"},
		{"40 nm", Torque, "", 40, 1, "N·m"},
		{"28 kgf/cm²", Pressure, "", 2.745862, 0.0980665, "kgf/cm²"},
		{"28 kg/cm2", Pressure, "", 2.745862, 0.0980665, "kgf/cm²"},
		{"250 mbar", Pressure, "", 0.025, 0.0001, "mbar"},
		{"0.3 mpa", Pressure, "", 0.3, 0.1, "MPa"},
		{"30 KPa", Pressure, "", 0.03, 0.001, "kPa"},
		{"15 PS", Power, "", 11032.48125, 735.49875, "PS"},
		{"15 ps", Power, "", 11032.48125, 735.49875, "PS"},
		{"-40 °F", Temperature, "", -40, 5. / 9, "°F"},
		{"20 C", Temperature, "", 20, 1, "°C"},
		{"20 ℃", Temperature, "", 20, 1, "°C"},
		{"18 F", TempDifference, "", 10, 5. / 9, "°F"},
		{"5 mV", Voltage, "", 0.005, 0.001, "mV"},
		{"5 mΩ", Resistance, "", 0.005, 0.001, "mΩ"},
		{"5 MΩ", Resistance, "", 5e6, 1e6, "MΩ"},
		{"5 \u2126", Resistance, "", 5, 1, "Ω"},
		{"5 kn", Force, "", 5000, 1000, "kN"},
		{"5 kg", Force, "", 49.03325, 9.80665, "kgf"},
		{"2 600 1/min", AnyDimension, "", 0, 0, "two numbers"},
		{"2600 1/min", Speed, "", 2600, 1, "rpm"},
		{"2600 min⁻¹", Speed, "", 2600, 1, "rpm"},
		{"17.5°", Angle, "", 17.5, 0.1, "deg"},
		{"350 cc", Volume, "", 0.35, 0.001, "cm³"},
		{"1/2 imp gal", Volume, "", 2.273045, 2.273045, "imp gal"},
		{"Ra 0.4", Roughness, "", 0.4, 0.1, "µm"},
		{"Ra = 0,4 µm", AnyDimension, "", 0.4, 0.1, "µm"},
		{"0.8 Ra", Roughness, "", 0.8, 0.1, "µm"},
		{"22:1", Ratio, "", 22, 1, ""},
		{"5 %", Ratio, "", 0.05, 0.01, "%"},
		{"1/50", Ratio, "", 0.02, 0.02, ""},
		{"24", Count, "", 24, 1, ""},
		{"1.5e-3 mm", Length, "", 0.0015, 0.0001, "mm"},
		{"1.25 mm", Pitch, "", 1.25, 0.01, "mm"},
		{"16 tpi", Pitch, "", 1.5875, 25.4 / 256, "TPI"},
	} {
		q, err := Parse(c.typed, c.want, c.deflt)
		if c.unit == "two numbers" {
			if err == nil {
				t.Errorf("%q: read as %v, want a refusal", c.typed, q)
			}
			continue
		}
		if err != nil {
			t.Errorf("%q as %s: %v", c.typed, c.want, err)
			continue
		}
		if !same(q.Value, c.value) || !same(q.Step, c.step) || q.Unit != c.unit || q.Typed != c.typed {
			t.Errorf("%q: got %+v, want value %v, step %v, unit %q", c.typed, q, c.value, c.step, c.unit)
		}
	}
}

func same(a, b float64) bool { return a == b || abs(a-b) <= 1e-15*abs(b) }

func abs(x float64) float64 { return max(x, -x) }

func TestRefused(t *testing.T) {
	for _, c := range []struct {
		typed string
		want  Dimension
		text  string // part of the error
	}{
		{"", Length, "nothing was typed"},
		{" \u00a0 ", Length, "nothing was typed"},
		{"5 kgf·m", Length, `"5 kgf·m" is a torque; a length was wanted (mm, in, thou)`},
		{"5 mm", Torque, "is a length; a torque was wanted (N·m, kgf·m, ft·lbf)"},
		{"5 ps", Time, "is a power; a time was wanted"},
		{"5 mm", Roughness, "is a length; a roughness was wanted"},
		{"Ra 0.4", Length, "is a roughness; a length was wanted"},
		{"5", Length, "has no unit: a length was wanted (mm, in, thou)"},
		{"5 gal", Volume, "US gal or imp gal"},
		{"5 gallons", AnyDimension, "US gal or imp gal"},
		{"5 pt", Volume, "US pt or imp pt"},
		{"5 tons", Mass, "short ton"},
		{"5 MV", Voltage, "near it: "},
		{"5 MA", Current, "near it: "},
		{"5 MOHM", Resistance, "near it: "},
		{"5 M", Length, "not known"},
		{"5 mPa", Pressure, "near it: "},
		{"5 kfg·m", Torque, "kgf·m"},
		{"5 thuo", Length, "thou"},
		{"0.4 Rz", Roughness, "not known"},
		{"0.3 0.05", Length, "more than one number"},
		{"0.3-0.5 mm", Length, "more than one number"},
		{"0.3 ± 0.05 mm", Length, "more than one number"},
		{"12/24 V", Voltage, "is a fraction"},
		{"1 3/2 in", Length, "proper fraction"},
		{"1/0 in", Length, "divides by zero"},
		{"0 TPI", Pitch, "must not be zero"},
		{"22:1 mm", Length, "is a proportion"},
		{"2.5", Count, "whole number"},
		{"-2", Count, "whole number"},
		{"-300 °C", Temperature, "absolute zero"},
		{"1e999 mm", Length, "out of range"},
		{"1e-999 mm", Length, "out of range"},
		{"1e99999 mm", Length, "out of range"},
		{"NaN mm", Length, "does not start with a number"},
		{"Inf mm", Length, "does not start with a number"},
		{"1,23,456 mm", Length, "groups of three"},
		{"1.2.3,4,5 mm", Length, "cannot be read"},
		{"about 5 mm", Length, "does not start with a number"},
		{strings.Repeat("9", 60), Length, "too many digits"},
		{strings.Repeat("9 ", 100), Length, "is not one quantity"},
	} {
		q, err := Parse(c.typed, c.want, "")
		if err == nil {
			t.Errorf("%q as %s: read as %+v, want a refusal", c.typed, c.want, q)
		} else if !strings.Contains(err.Error(), c.text) {
			t.Errorf("%q as %s: got %q, want %q in it", c.typed, c.want, err, c.text)
		}
	}
}

func TestErrorKinds(t *testing.T) {
	_, err := Parse("5 kgf·m", Length, "")
	var d DimensionError
	if !errors.As(err, &d) || d.Got != Torque || d.Want != Length {
		t.Errorf("got %#v", err)
	}
	_, err = Parse("5 gal", Volume, "")
	var a AmbiguousError
	if !errors.As(err, &a) || len(a.Choices) != 2 {
		t.Errorf("got %#v", err)
	}
}

func TestNotes(t *testing.T) {
	for typed, want := range map[string]string{
		"5 kg·m": "kg·m read as kgf·m", "5 kgm": "kg·m read as kgf·m", "15 hp": "hp read as 550 ft·lbf/s; PS is 1.4 % smaller", "5 N·m": "",
	} {
		q, err := Parse(typed, AnyDimension, "")
		if err != nil || q.Note != want {
			t.Errorf("%q: note %q, %v; want %q", typed, q.Note, err, want)
		}
	}
}

// Every listed symbol and spelling must be read as itself.
func TestEverySpelling(t *testing.T) {
	for _, u := range units {
		for _, name := range u.spellings() {
			if u.symbol == "" {
				continue
			}
			q, err := Parse("2 "+name, u.dim, "")
			if err != nil || q.Unit != u.symbol || q.Dim != u.dim {
				t.Errorf("%q as %s: got %+v, %v; want unit %s", name, u.dim, q, err, u.symbol)
			}
		}
	}
}

func TestDimensionsComplete(t *testing.T) {
	for _, dim := range Dimensions() {
		u, ok := bySymbol(dim, Inside(dim))
		one := exact("1")
		if !ok || u.mul.Cmp(one) != 0 || u.add != nil || u.inverse {
			t.Errorf("%s: inside unit %q is not a plain 1", dim, Inside(dim))
		}
		if _, known := info(dim); !known {
			t.Errorf("%s is not listed", dim)
		}
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		v      float64
		dim    Dimension
		unit   string
		digits int
		want   string
	}{
		{52.0125, Length, "", 3, "52.013 mm"}, // the float lies above the tie
		{52.01158, Length, "in", 4, "2.0477 in"},
		{-0.0001, Length, "mm", 2, "0.00 mm"},
		{49.03325, Torque, "kgfm", 1, "5.0 kgf·m"},
		{0.4, Roughness, "", 1, "0.4 µm Ra"},
		{0.05, Ratio, "%", 0, "5 %"},
		{24, Count, "", 0, "24"},
		{1.5875, Pitch, "TPI", 0, "16 TPI"},
		{20, Temperature, "°F", 0, "68 °F"},
		{1, Length, "nonsense", 0, "1 mm"},
	} {
		if got := Format(c.v, c.dim, c.unit, c.digits); got != c.want {
			t.Errorf("Format(%v, %s, %q, %d) = %q, want %q", c.v, c.dim, c.unit, c.digits, got, c.want)
		}
	}
}

func TestIsUnit(t *testing.T) {
	for name, want := range map[string]bool{"mm": true, "N·m": true, "thou": true, "µm": true, "furlong": false, "": false, "Keep": false} {
		if got := IsUnit(name); got != want {
			t.Errorf("%q: %v", name, got)
		}
	}
}
