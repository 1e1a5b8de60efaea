package catalogue

import "slices"

// Kind names a family of standard parts that share their dimensions.
type Kind string

// The kinds that have a table, then those made from others: RollingBearing is
// every bearing by bore, outside diameter and overall width.
const (
	Ball           Kind = "ball bearing"
	Roller         Kind = "roller bearing"
	Taper          Kind = "taper bearing"
	Needle         Kind = "needle bearing"
	Thrust         Kind = "thrust bearing"
	OilSeal        Kind = "oil seal"
	ORing          Kind = "O-ring"
	ShaftCirclip   Kind = "circlip on shaft"
	BoreCirclip    Kind = "circlip in bore"
	Key            Kind = "key"
	HalfMoonKey    Kind = "half-moon key"
	VBelt          Kind = "V-belt"
	Thread         Kind = "thread"
	GearRack       Kind = "gear"
	RollingBearing Kind = "rolling bearing"
)

// Wear says which way use moves a dimension.
type Wear int8

// A bore grows, a journal shrinks, a width that nothing rubs keeps.
const (
	Shrinks Wear = -1
	Keeps   Wear = 0
	Grows   Wear = 1
)

// Spec describes one dimension of a kind: its name in tables and questions, in
// words, how it wears on the part itself, and how it is usually measured.
// UsualU is the standard uncertainty of that usual measurement, in the unit of
// the dimension; common practice, no source.
type Spec struct {
	Name   string
	Words  string
	Unit   string
	Wears  Wear
	UsualU float64
	How    string
}

// calliper is the usual standard uncertainty of a calliper reading, mm.
// Common practice, no source.
const calliper = 0.02

type family struct {
	kind  Kind
	file  string
	specs []Spec
}

func mm(name, words string, wears Wear, how string) Spec {
	return Spec{Name: name, Words: words, Unit: "mm", Wears: wears, UsualU: calliper, How: how}
}

var (
	boreD    = mm("d", "bore", Grows, "bore with an inside calliper or micrometer")
	outsideD = mm("D", "outside diameter", Shrinks, "outside diameter with a calliper or micrometer")
)

var families = []family{
	{Ball, "bearing_ball.csv", []Spec{boreD, outsideD, mm("B", "width", Keeps, "width of the ring with a calliper")}},
	{Roller, "bearing_roller.csv", []Spec{boreD, outsideD, mm("B", "width", Keeps, "width of the ring with a calliper")}},
	{Taper, "bearing_taper.csv", []Spec{boreD, outsideD, mm("T", "overall width, cup on cone", Shrinks, "overall width with cup and cone put together"),
		mm("B", "width of the cone", Keeps, "width of the cone alone"), mm("C", "width of the cup", Keeps, "width of the cup alone")}},
	{Needle, "bearing_needle.csv", []Spec{mm("d", "bore under the needles or of the inner ring", Grows, "bore under the needles with a plug"), outsideD,
		mm("C", "width", Keeps, "width with a calliper")}},
	{Thrust, "bearing_thrust.csv", []Spec{boreD, outsideD, mm("T", "overall height", Shrinks, "overall height of the washers and balls")}},
	{OilSeal, "oil_seal.csv", []Spec{mm("d", "shaft", Shrinks, "shaft beside the lip track"), mm("D", "housing bore", Grows, "housing bore"),
		mm("b", "width", Keeps, "width of the seal")}},
	{ORing, "o_ring.csv", []Spec{mm("id", "inside diameter", Keeps, "inside diameter on a cone or by the groove"), mm("cord", "cord", Shrinks, "cord thickness at an unpressed place")}},
	{ShaftCirclip, "circlip_shaft.csv", []Spec{mm("d", "shaft", Shrinks, "shaft beside the groove"), mm("groove", "groove diameter", Keeps, "diameter in the groove"),
		mm("s", "thickness of the ring", Keeps, "thickness of the ring")}},
	{BoreCirclip, "circlip_bore.csv", []Spec{mm("d", "bore", Grows, "bore beside the groove"), mm("groove", "groove diameter", Keeps, "diameter in the groove"),
		mm("s", "thickness of the ring", Keeps, "thickness of the ring")}},
	{Key, "key.csv", []Spec{mm("b", "width of the key", Shrinks, "width of the key"), mm("h", "height of the key", Keeps, "height of the key"),
		mm("t1", "depth in the shaft", Keeps, "depth of the keyway in the shaft"), mm("t2", "depth in the hub", Keeps, "depth of the keyway in the hub"),
		mm("shaft", "shaft diameter", Shrinks, "shaft diameter")}},
	{HalfMoonKey, "key_half_moon.csv", []Spec{mm("b", "width of the key", Shrinks, "width of the key"), mm("h", "height of the key", Keeps, "height of the key"),
		mm("D", "diameter of the disc", Keeps, "diameter of the half moon")}},
	{VBelt, "v_belt.csv", []Spec{mm("width", "top width", Shrinks, "top width of the belt"), mm("height", "height", Keeps, "height of the belt"),
		{"inside", "inside length", "mm", Keeps, 2, "inside length with a tape"}, {"outside", "outside length", "mm", Keeps, 2, "outside length with a tape"}}},
	{Thread, "thread.csv", []Spec{mm("d", "outside diameter", Shrinks, "outside diameter at an unworn end"),
		{"pitch", "pitch", "mm", Keeps, calliper / 10, "pitch over 10 turns"}, {"angle", "flank angle", "°", Keeps, 1, "flank angle with 55° and 60° gauges against the light"},
		{"taper", "taper on the diameter", "", Keeps, 0.003, "taper: diameter at two places 10 mm apart"}, mm("minor", "bore of the nut", Grows, "bore of the nut over the crests")}},
	{GearRack, "gear_rack.csv", []Spec{{"m", "module", "mm", Keeps, 0.005, "span over k and k+1 teeth"}, {"angle", "pressure angle", "°", Keeps, 0.2, "span over k and k+1 teeth and the tip diameter"}}},
	{RollingBearing, "", []Spec{boreD, outsideD, mm("W", "overall width", Keeps, "overall width")}},
}

// Kinds lists all kinds in the order of the tables.
func Kinds() []Kind {
	list := make([]Kind, len(families))
	for i, f := range families {
		list[i] = f.kind
	}
	return list
}

// Specs lists the dimensions of a kind in table order; nil for an unknown kind.
func Specs(kind Kind) []Spec {
	for _, f := range families {
		if f.kind == kind {
			return slices.Clone(f.specs)
		}
	}
	return nil
}
