package quantity

// perRadian is 180/π to 40 digits, rounded; every other factor is exact.
const perRadian = "57.29577951308232087679815481410517033241"

// thermalUnits: inside unit °C. A difference has no offset.
// Source: SI Brochure 9th ed. 2.3.1 (273.15); NIST SP 811 B.8 (5/9, 32).
var thermalUnits = []unit{
	{dim: Temperature, symbol: "°C", mul: exact("1"), names: []string{"C", "deg C", "degC", "celsius"}},
	{dim: Temperature, symbol: "°F", mul: exact("5/9"), add: exact("-160/9"), names: []string{"F", "deg F", "degF", "fahrenheit"}},
	{dim: Temperature, symbol: "K", mul: exact("1"), add: exact("-273.15"), strict: true, names: []string{"kelvin"}},
	{dim: TempDifference, symbol: "°C", mul: exact("1"), names: []string{"C", "deg C", "degC"}},
	{dim: TempDifference, symbol: "K", mul: exact("1"), strict: true, names: []string{"kelvin"}},
	{dim: TempDifference, symbol: "°F", mul: exact("5/9"), names: []string{"F", "deg F", "degF"}},
}

// motionUnits: inside units rpm, km/h, deg, s, mm²/s.
// Source: SI Brochure 9th ed. table 8; NIST SP 811 B.8 for mile, knot, grad, stokes.
var motionUnits = []unit{
	{dim: Speed, symbol: "rpm", mul: exact("1"), names: []string{"1/min", "/min", "min-1", "r/min", "rev/min", "r.p.m", "revs"}},
	{dim: Speed, symbol: "rps", mul: exact("60"), names: []string{"r/s", "rev/s"}},
	{dim: Speed, symbol: "rad/s", mul: over(exact(perRadian), exact("6"))},
	{dim: RoadSpeed, symbol: "km/h", mul: exact("1"), names: []string{"kph", "kmh"}},
	{dim: RoadSpeed, symbol: "mph", mul: exact("1.609344"), names: []string{"mi/h"}},
	{dim: RoadSpeed, symbol: "m/s", mul: exact("3.6"), strict: true},
	{dim: RoadSpeed, symbol: "knot", mul: exact("1.852"), names: []string{"knots", "kn"}, strict: true},
	{dim: Angle, symbol: "deg", mul: exact("1"), names: []string{"°", "degree", "degrees", "degs"}},
	{dim: Angle, symbol: "rad", mul: exact(perRadian), names: []string{"radian", "radians"}},
	{dim: Angle, symbol: "grad", mul: exact("0.9"), names: []string{"gon"}},
	{dim: Angle, symbol: "arcmin", mul: exact("1/60"), names: []string{"'"}},
	{dim: Angle, symbol: "turn", mul: exact("360"), binary: true, names: []string{"turns", "rev", "revolutions"}},
	{dim: Time, symbol: "s", mul: exact("1"), names: []string{"sec", "secs", "second", "seconds"}},
	{dim: Time, symbol: "ms", mul: exact("0.001"), strict: true},
	{dim: Time, symbol: "min", mul: exact("60"), binary: true, names: []string{"mins", "minute", "minutes"}},
	{dim: Time, symbol: "h", mul: exact("3600"), binary: true, names: []string{"hr", "hrs", "hour", "hours"}},
	{dim: Time, symbol: "d", mul: exact("86400"), binary: true, names: []string{"day", "days"}},
	{dim: Viscosity, symbol: "mm²/s", mul: exact("1"), names: []string{"cSt"}},
}

// electricUnits: inside units V, A, A·h, Ω. A prefix changes its meaning with
// its case, so the case must be as listed.
var electricUnits = []unit{
	{dim: Voltage, symbol: "V", mul: exact("1"), names: []string{"volt", "volts"}},
	{dim: Voltage, symbol: "mV", mul: exact("0.001"), strict: true, names: []string{"mv", "millivolt", "millivolts"}},
	{dim: Voltage, symbol: "kV", mul: exact("1000"), strict: true, names: []string{"kv"}},
	{dim: Current, symbol: "A", mul: exact("1"), names: []string{"amp", "amps", "ampere", "amperes"}},
	{dim: Current, symbol: "mA", mul: exact("0.001"), strict: true, names: []string{"ma", "milliamp", "milliamps"}},
	{dim: Charge, symbol: "A·h", mul: exact("1"), names: []string{"amp hour", "amp hours"}},
	{dim: Resistance, symbol: "Ω", mul: exact("1"), names: []string{"ohm", "ohms"}},
	{dim: Resistance, symbol: "mΩ", mul: exact("0.001"), strict: true, names: []string{"mohm", "mohms", "milliohm", "milliohms"}},
	{dim: Resistance, symbol: "kΩ", mul: exact("1000"), names: []string{"kohm", "kohms", "kilohm", "kilohms"}},
	{dim: Resistance, symbol: "MΩ", mul: exact("1000000"), strict: true, names: []string{"Mohm", "Mohms", "megohm", "megohms"}},
}

// volumeUnits and plain numbers: inside units L and 1.
var volumeUnits = []unit{
	{dim: Volume, symbol: "L", mul: exact("1"), names: []string{"l", "litre", "litres", "liter", "liters", "ltr", "dm3"}},
	{dim: Volume, symbol: "mL", mul: exact("0.001"), strict: true, names: []string{"ml", "millilitre", "millilitres"}},
	{dim: Volume, symbol: "cm³", mul: exact("0.001"), names: []string{"cc", "ccm", "c.c"}},
	{dim: Volume, symbol: "mm³", mul: exact("0.000001")},
	{dim: Volume, symbol: "m³", mul: exact("1000"), strict: true},
	{dim: Volume, symbol: "in³", mul: exact(inch, inch, inch, "0.000001"), names: []string{"cu in", "cubic inch", "cubic inches"}},
	{dim: Volume, symbol: "US gal", mul: exact("3.785411784"), binary: true, names: []string{"US gallon", "US gallons"}},
	{dim: Volume, symbol: "imp gal", mul: exact("4.54609"), binary: true, names: []string{"imperial gallon", "imperial gallons", "imperial gal", "UK gal"}},
	{dim: Volume, symbol: "US qt", mul: exact("3.785411784", "0.25"), binary: true, names: []string{"US quart", "US quarts"}},
	{dim: Volume, symbol: "imp qt", mul: exact("4.54609", "0.25"), binary: true, names: []string{"imperial quart", "imperial quarts", "imperial qt", "UK qt"}},
	{dim: Volume, symbol: "US pt", mul: exact("3.785411784", "0.125"), binary: true, names: []string{"US pint", "US pints"}},
	{dim: Volume, symbol: "imp pt", mul: exact("4.54609", "0.125"), binary: true, names: []string{"imperial pint", "imperial pints", "imperial pt", "UK pt"}},
	{dim: Volume, symbol: "US fl oz", mul: exact("3.785411784", "0.0078125"), names: []string{"US fluid ounce", "US fluid ounces"}},
	{dim: Volume, symbol: "imp fl oz", mul: exact("4.54609", "0.00625"), names: []string{"imperial fl oz", "imperial fluid ounce", "UK fl oz"}},
	{dim: Ratio, symbol: "", mul: exact("1"), binary: true},
	{dim: Ratio, symbol: "%", mul: exact("0.01"), names: []string{"percent", "per cent", "pct"}},
	{dim: Count, symbol: "", mul: exact("1"), names: []string{"off", "pcs", "pc", "pieces", "teeth"}},
	{dim: Number, symbol: "", mul: exact("1")},
}

// readAs lists spellings that the trade writes for another unit; they are
// taken with a note.
var readAs = []struct {
	dim        Dimension
	typed, sym string
}{
	{Torque, "kg·m", "kgf·m"}, {Torque, "m·kg", "kgf·m"}, {Torque, "kg·cm", "kgf·cm"},
	{Pressure, "kg/cm2", "kgf/cm²"}, {Pressure, "kg/mm2", "kgf/mm²"}, {Pressure, "kg/sq cm", "kgf/cm²"},
	{Force, "kg", "kgf"}, {Force, "g", "gf"}, {Force, "lb", "lbf"}, {Force, "lbs", "lbf"},
	{SpringRate, "kg/mm", "kgf/mm"}, {SpringRate, "kg/cm", "kgf/cm"},
}

// ambiguous lists unit names of several sizes, which are asked back.
var ambiguous = []struct {
	dim     Dimension
	names   []string
	choices []string
}{
	{Volume, []string{"gal", "gals", "gallon", "gallons"}, []string{"US gal", "imp gal"}},
	{Volume, []string{"qt", "qts", "quart", "quarts"}, []string{"US qt", "imp qt"}},
	{Volume, []string{"pt", "pts", "pint", "pints"}, []string{"US pt", "imp pt"}},
	{Volume, []string{"fl oz", "fluid ounce", "fluid ounces"}, []string{"US fl oz", "imp fl oz"}},
	{Mass, []string{"ton", "tons"}, []string{"t", "short ton", "long ton"}},
}
