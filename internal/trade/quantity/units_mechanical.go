package quantity

// Sources of the factors, all exact unless said:
//
//	mm, m, N, Pa, W, s, V, A, Ω, L, min, h, °: SI Brochure, 9th edition (2019), tables 2, 4, 7 and 8.
//	inch 25.4 mm, foot 304.8 mm, mile 1609.344 m, pound 0.453 592 37 kg, standard gravity
//	9.806 65 m/s², horsepower 550 ft·lbf/s, metric horsepower 75 kgf·m/s, electric horsepower
//	746 W, gallons, mmHg, mmH2O, atmosphere: NIST SP 811 (2008), appendix B.8.
const (
	inch    = "25.4"       // mm
	gravity = "9.80665"    // m/s²
	pound   = "0.45359237" // kg
)

// lengthUnits and pitchUnits: inside unit mm.
var lengthUnits = []unit{
	{dim: Length, symbol: "mm", mul: exact("1"), names: []string{"millimetre", "millimetres", "millimeter", "millimeters"}},
	{dim: Length, symbol: "cm", mul: exact("10"), names: []string{"centimetre", "centimetres", "centimeter", "centimeters"}},
	{dim: Length, symbol: "m", mul: exact("1000"), strict: true, names: []string{"metre", "metres", "meter", "meters"}},
	{dim: Length, symbol: "km", mul: exact("1000000")},
	{dim: Length, symbol: "µm", mul: exact("0.001"), names: []string{"um", "micron", "microns", "micrometre", "micrometres"}},
	{dim: Length, symbol: "in", mul: exact(inch), binary: true, names: []string{`"`, "inch", "inches", "ins"}},
	{dim: Length, symbol: "thou", mul: exact(inch, "0.001"), names: []string{"thous", "mil", "mils"}},
	{dim: Length, symbol: "ft", mul: exact(inch, "12"), binary: true, names: []string{"'", "foot", "feet"}},
	{dim: Length, symbol: "mi", mul: exact(inch, "63360"), names: []string{"mile", "miles"}},
	{dim: Pitch, symbol: "mm", mul: exact("1")},
	{dim: Pitch, symbol: "TPI", mul: exact(inch), inverse: true, names: []string{"threads per inch", "threads/inch", "threads/in"}},
	{dim: Roughness, symbol: "µm", mul: exact("1"), names: []string{"um", "micron", "microns", "µm Ra", "um Ra", "Ra"}},
	{dim: Roughness, symbol: "µin", mul: exact(inch, "0.001"), names: []string{"uin", "microinch", "microinches", "µin Ra", "uin Ra"}},
}

// torqueUnits: inside unit N·m.
var torqueUnits = []unit{
	{dim: Torque, symbol: "N·m", mul: exact("1"), names: []string{"newton metre", "newton metres"}},
	{dim: Torque, symbol: "kgf·m", mul: exact(gravity), names: []string{"m·kgf", "kp·m", "m·kp"}},
	{dim: Torque, symbol: "kgf·cm", mul: exact(gravity, "0.01"), names: []string{"cm·kgf", "kp·cm"}},
	{dim: Torque, symbol: "ft·lbf", mul: exact(pound, gravity, inch, "0.012"), names: []string{"lbf·ft", "ft·lb", "lb·ft", "ft·lbs", "lbs·ft", "foot pound", "foot pounds", "pound foot"}},
	{dim: Torque, symbol: "in·lbf", mul: exact(pound, gravity, inch, "0.001"), names: []string{"lbf·in", "in·lb", "lb·in", "in·lbs", "lbs·in", "inch pound", "inch pounds"}},
	{dim: Torque, symbol: "in·ozf", mul: exact(pound, gravity, inch, "0.0000625"), names: []string{"ozf·in", "in·oz", "oz·in"}},
	{dim: Torque, symbol: "kN·m", mul: exact("1000"), strict: true},
}

// forceUnits, massUnits and spring rates: inside units N, kg, N/mm.
var forceUnits = []unit{
	{dim: Force, symbol: "N", mul: exact("1"), names: []string{"newton", "newtons"}},
	{dim: Force, symbol: "kN", mul: exact("1000")},
	{dim: Force, symbol: "kgf", mul: exact(gravity), names: []string{"kp", "kilopond"}},
	{dim: Force, symbol: "gf", mul: exact(gravity, "0.001"), names: []string{"pond"}},
	{dim: Force, symbol: "lbf", mul: exact(pound, gravity)},
	{dim: Mass, symbol: "kg", mul: exact("1"), names: []string{"kgs", "kilogram", "kilograms"}},
	{dim: Mass, symbol: "g", mul: exact("0.001"), names: []string{"gram", "grams"}},
	{dim: Mass, symbol: "t", mul: exact("1000"), names: []string{"tonne", "tonnes", "metric ton"}},
	{dim: Mass, symbol: "lb", mul: exact(pound), binary: true, names: []string{"lbs", "pound", "pounds"}},
	{dim: Mass, symbol: "oz", mul: exact(pound, "0.0625"), binary: true, names: []string{"ounce", "ounces"}},
	{dim: Mass, symbol: "cwt", mul: exact(pound, "112"), binary: true, names: []string{"hundredweight"}, note: "cwt read as the long hundredweight of 112 lb"},
	{dim: Mass, symbol: "short ton", mul: exact(pound, "2000"), names: []string{"US ton"}},
	{dim: Mass, symbol: "long ton", mul: exact(pound, "2240"), names: []string{"imp ton", "UK ton"}},
	{dim: SpringRate, symbol: "N/mm", mul: exact("1"), names: []string{"kN/m"}},
	{dim: SpringRate, symbol: "N/m", mul: exact("0.001")},
	{dim: SpringRate, symbol: "kgf/mm", mul: exact(gravity), names: []string{"kp/mm"}},
	{dim: SpringRate, symbol: "kgf/cm", mul: exact(gravity, "0.1")},
	{dim: SpringRate, symbol: "lbf/in", mul: over(exact(pound, gravity), exact(inch)), names: []string{"lb/in", "lbs/in"}},
}

// pressureUnits: inside unit MPa.
var pressureUnits = []unit{
	{dim: Pressure, symbol: "MPa", mul: exact("1"), names: []string{"N/mm2"}},
	{dim: Pressure, symbol: "kPa", mul: exact("0.001")},
	{dim: Pressure, symbol: "hPa", mul: exact("0.0001")},
	{dim: Pressure, symbol: "Pa", mul: exact("0.000001")},
	{dim: Pressure, symbol: "bar", mul: exact("0.1"), names: []string{"bars"}},
	{dim: Pressure, symbol: "mbar", mul: exact("0.0001"), strict: true},
	{dim: Pressure, symbol: "psi", mul: over(exact(pound, gravity), exact(inch, inch)), names: []string{"lbf/in2", "lb/in2", "lbs/in2", "lbf/sq in", "lb/sq in"}},
	{dim: Pressure, symbol: "ksi", mul: over(exact(pound, gravity, "1000"), exact(inch, inch))},
	{dim: Pressure, symbol: "kgf/cm²", mul: exact(gravity, "0.01"), names: []string{"kp/cm2", "at"}},
	{dim: Pressure, symbol: "kgf/mm²", mul: exact(gravity), names: []string{"kp/mm2"}},
	{dim: Pressure, symbol: "gf/cm²", mul: exact(gravity, "0.00001")},
	{dim: Pressure, symbol: "atm", mul: exact("0.101325")},
	{dim: Pressure, symbol: "mmHg", mul: exact("13.5951", gravity, "0.000001"), names: []string{"mm Hg"}},
	{dim: Pressure, symbol: "torr", mul: over(exact("0.101325"), exact("760"))},
	{dim: Pressure, symbol: "inHg", mul: exact("13.5951", gravity, inch, "0.000001"), names: []string{"in Hg"}},
	{dim: Pressure, symbol: "mmH2O", mul: exact(gravity, "0.000001"), names: []string{"mm H2O", "mmAq", "mm Aq", "mm water"}},
	{dim: Pressure, symbol: "inH2O", mul: exact(gravity, inch, "0.000001"), names: []string{"in H2O", "inAq", "in water"}},
}

// powerUnits: inside unit W.
var powerUnits = []unit{
	{dim: Power, symbol: "kW", mul: exact("1000")},
	{dim: Power, symbol: "W", mul: exact("1"), names: []string{"watt", "watts"}},
	{dim: Power, symbol: "PS", mul: exact(gravity, "75"), names: []string{"Ps", "metric hp", "metric horsepower"}},
	{dim: Power, symbol: "hp", mul: exact(pound, gravity, inch, "0.001", "12", "550"), names: []string{"Hp", "bhp", "horsepower"},
		note: "hp read as 550 ft·lbf/s; PS is 1.4 % smaller"},
	{dim: Power, symbol: "electric hp", mul: exact("746"), names: []string{"hp(E)"}},
}
