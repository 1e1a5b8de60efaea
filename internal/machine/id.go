package machine

import "strings"

// Identifiers. A type id is a word such as "main-cap"; an instance id adds the
// place behind a point: "main-cap.2". An item without places has one instance
// whose id is the type id.
type (
	EntryID    string // UUIDv7 made on the device
	MachineID  string
	AssemblyID string
	PartID     string
	JointID    string
	CheckID    string
	TestID     string
	OrderID    string
	Place      string // "1", "left", "in-2"; empty for an item without places
	Family     string // a family of places: "cylinder", "main", "side"
	SizeGroup  string // parts that must take one size together
	Sum        string // SHA-256 of an attachment, lower-case hex
)

// Instance joins a type id and a place.
func Instance[T ~string](typ T, at Place) T {
	if at == "" {
		return typ
	}
	return T(string(typ) + "." + string(at))
}

// Split parts an instance id into its type and its place.
func Split[T ~string](id T) (typ T, at Place) {
	t, p, _ := strings.Cut(string(id), ".")
	return T(t), Place(p)
}

// FeatureID names a measurable surface of a part: "crankshaft/main-journal"
// or, of an instance, "liner.2/bore".
type FeatureID string

// FeatureOf joins a part and a feature name.
func FeatureOf(p PartID, name string) FeatureID { return FeatureID(string(p) + "/" + name) }

// Part is the part that carries the feature.
func (f FeatureID) Part() PartID {
	p, _, _ := strings.Cut(string(f), "/")
	return PartID(p)
}

// Name is the feature's own name, without its part.
func (f FeatureID) Name() string {
	_, n, _ := strings.Cut(string(f), "/")
	return n
}

// Ref points at anything a photo, note or question can be about:
// "joint:main-cap.2", "part:liner.1", "check:bore-wear.2", "tray:14".
type Ref string

func RefJoint(id JointID) Ref { return Ref("joint:" + string(id)) }
func RefPart(id PartID) Ref   { return Ref("part:" + string(id)) }
func RefCheck(id CheckID) Ref { return Ref("check:" + string(id)) }
func RefTest(id TestID) Ref   { return Ref("test:" + string(id)) }
func RefTray(mark string) Ref { return Ref("tray:" + mark) }

// Kind is the word before the colon.
func (r Ref) Kind() string {
	k, _, _ := strings.Cut(string(r), ":")
	return k
}

// ID is what follows the colon.
func (r Ref) ID() string {
	_, id, _ := strings.Cut(string(r), ":")
	return id
}
