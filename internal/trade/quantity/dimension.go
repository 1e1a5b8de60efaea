// Package quantity reads and prints quantities as a fitter types them:
// "52,013", "3/8\"", "3 thou", "5.5 kgf·m", "28 kgf/cm²", "15 PS".
//
// What was typed is kept beside what it means. Values inside are floats in
// the inside unit of their dimension: mm, N·m, MPa, W, °C, N, kg,
// rpm, degrees, s, V, A, Ω, L, µm for roughness. Conversion is done in exact
// fractions and rounded to a float once, at the end.
//
// It cannot detect a right unit with a wrong number, nor which of two
// readings of "1,234" was meant: it takes a lone comma as a decimal comma.
package quantity

// Dimension names what kind of thing a quantity measures.
type Dimension string

// The dimensions, each with its inside unit.
const (
	Length         Dimension = "length"                 // mm
	Pitch          Dimension = "thread pitch"           // mm
	Torque         Dimension = "torque"                 // N·m
	Pressure       Dimension = "pressure"               // MPa, gauge or absolute as the caller says
	Power          Dimension = "power"                  // W
	Temperature    Dimension = "temperature"            // °C
	TempDifference Dimension = "temperature difference" // °C (K)
	Force          Dimension = "force"                  // N
	Mass           Dimension = "mass"                   // kg
	Speed          Dimension = "speed of rotation"      // rpm
	RoadSpeed      Dimension = "road speed"             // km/h
	Angle          Dimension = "angle"                  // deg
	Time           Dimension = "time"                   // s
	Voltage        Dimension = "voltage"                // V
	Current        Dimension = "current"                // A
	Charge         Dimension = "battery capacity"       // A·h
	Resistance     Dimension = "resistance"             // Ω
	Volume         Dimension = "volume"                 // L
	Roughness      Dimension = "roughness"              // µm, Ra only
	SpringRate     Dimension = "spring rate"            // N/mm
	Viscosity      Dimension = "kinematic viscosity"    // mm²/s
	Ratio          Dimension = "ratio"                  // 1
	Count          Dimension = "count"                  // 1, whole
	Number         Dimension = "number"                 // 1
	AnyDimension   Dimension = ""                       // only as what is wanted
)

// dimensionInfo is what error texts need of a dimension.
type dimensionInfo struct {
	dim     Dimension
	article string
	inside  string // canonical symbol of the inside unit
	common  string // units to name to someone who typed another
	bare    bool   // a number without a unit is complete
}

// dimensions lists every dimension in order of precedence: where a unit
// serves two of them and nothing says which is wanted, the earlier one holds.
var dimensions = []dimensionInfo{
	{Length, "a", "mm", "mm, in, thou", false},
	{Torque, "a", "N·m", "N·m, kgf·m, ft·lbf", false},
	{Pressure, "a", "MPa", "MPa, bar, kgf/cm², psi", false},
	{Power, "a", "W", "kW, PS, hp", false},
	{Temperature, "a", "°C", "°C, °F", false},
	{TempDifference, "a", "°C", "°C, °F, K", false},
	{Mass, "a", "kg", "kg, g, lb", false},
	{Force, "a", "N", "N, kgf, lbf", false},
	{Speed, "a", "rpm", "rpm", false},
	{RoadSpeed, "a", "km/h", "km/h, mph", false},
	{Angle, "an", "deg", "deg", false},
	{Time, "a", "s", "s, min, h", false},
	{Voltage, "a", "V", "V, mV", false},
	{Current, "a", "A", "A, mA", false},
	{Charge, "a", "A·h", "A·h", false},
	{Resistance, "a", "Ω", "Ω, mΩ, kΩ, MΩ", false},
	{Volume, "a", "L", "L, mL, cm³, US gal, imp gal", false},
	{Roughness, "a", "µm", "µm Ra", false},
	{Pitch, "a", "mm", "mm, TPI", false},
	{SpringRate, "a", "N/mm", "N/mm, kgf/mm, lbf/in", false},
	{Viscosity, "a", "mm²/s", "mm²/s, cSt", false},
	{Ratio, "a", "", "a plain number, %, 22:1", true},
	{Count, "a", "", "a whole number", true},
	{Number, "a", "", "a plain number", true},
}

// info returns the entry of a dimension; ok is false for an unknown one.
func info(dim Dimension) (entry dimensionInfo, ok bool) {
	for _, d := range dimensions {
		if d.dim == dim {
			return d, true
		}
	}
	return dimensionInfo{dim: dim, article: "a"}, false
}

// Inside returns the symbol of the unit in which values of dim are held;
// empty for plain numbers and for an unknown dimension.
func Inside(dim Dimension) string {
	entry, _ := info(dim)
	return entry.inside
}

// Dimensions lists all dimensions in a fixed order.
func Dimensions() []Dimension {
	list := make([]Dimension, len(dimensions))
	for i, d := range dimensions {
		list[i] = d.dim
	}
	return list
}
