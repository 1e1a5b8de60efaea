package machine

// The facts that say what the machine consists of. They speak of types; Fold
// makes the instances. Lists of ids in them are type ids unless said.

// MachineNamed gives the machine its name.
type MachineNamed struct {
	Name   string `json:"name"`
	Serial string `json:"serial,omitempty"`
	Owner  string `json:"owner,omitempty"`
	Note   string `json:"note,omitempty"`
	Demo   bool   `json:"demo,omitempty"`
}

// KitTaken records that a kit was used and with which counts and choices.
type KitTaken struct {
	Kit     string            `json:"kit"`
	Title   string            `json:"title"`
	Edition string            `json:"edition,omitempty"`
	Counts  map[string]int    `json:"counts,omitempty"`
	Choices map[string]string `json:"choices,omitempty"`
}

// PlacesSet declares a family of places.
type PlacesSet struct{ Places }

// DatumSet declares a datum or gives it a value.
type DatumSet struct{ Datum }

// Hours is a triangular estimate of bench hours of one person.
type Hours struct {
	Low    float64 `json:"low"`
	Likely float64 `json:"likely"`
	High   float64 `json:"high"`
}

// InstrumentSet puts an instrument on the bench, or gives a usual one the
// figures of its certificate. The latest word on an id counts.
type InstrumentSet struct{ Instrument }

// Instrument is a gauge of the workshop with what one careful reading of it is
// worth. Figures are in Unit; limits of error are taken as rectangles.
type Instrument struct {
	ID        string  `json:"id"`
	Name      string  `json:"name"`
	Looks     string  `json:"looks,omitempty"`     // what it looks at: outside, bore, gap, torque …
	Unit      string  `json:"unit"`                // inside unit of what it measures
	Step      float64 `json:"step"`                // smallest step read off
	HalfWidth float64 `json:"halfWidth,omitempty"` // limit of error ± of scale and setting
	Relative  float64 `json:"relative,omitempty"`  // limit of error ± as a share of the reading, beside HalfWidth
	Repeat    float64 `json:"repeat,omitempty"`    // standard deviation of a careful hand's repeats; 0 not known
	SetBy     string  `json:"setBy,omitempty"`     // the instrument it is set with, whose error it takes over
	Source    string  `json:"source,omitempty"`    // certificate and date
}

// AssemblyAdded declares an assembly.
type AssemblyAdded struct {
	ID      AssemblyID `json:"id"`
	Name    string     `json:"name"`
	System  string     `json:"system"`
	Strip   Hours      `json:"strip"`
	Clean   Hours      `json:"clean"`
	Measure Hours      `json:"measure"`
	Build   Hours      `json:"build"`
}

// PartAdded declares a part: one instance per place of its family, each of
// Qty pieces.
type PartAdded struct {
	ID       PartID     `json:"id"`
	Name     string     `json:"name"`
	Assembly AssemblyID `json:"assembly"`
	Places   Family     `json:"places,omitempty"`
	Qty      int        `json:"qty"`
	Material string     `json:"material,omitempty"`
	Faults   []string   `json:"faults,omitempty"`  // usual ones, to look for
	Hazards  []string   `json:"hazards,omitempty"` // see finding/caution
	OneUse   bool       `json:"oneUse,omitempty"`  // renewed whenever it comes off
	MassKg   float64    `json:"massKg,omitempty"`
}

// Feature kinds. A bore grows with wear, a journal shrinks; the rest have no
// sense of wear of their own.
const (
	Bore   = "bore"
	Shaft  = "journal"
	Length = "length"
	Face   = "face"
)

// FeatureAdded declares a measurable surface and the points it is read at.
type FeatureAdded struct {
	Part    PartID   `json:"part"`
	Feature string   `json:"feature"`           // "bore"
	Name    string   `json:"name"`              // "bore", as said after the part's name
	Sort    string   `json:"sort"`              // bore, journal, length, face
	Levels  []string `json:"levels,omitempty"`  // "top", "middle", "low"
	Axes    []string `json:"axes,omitempty"`    // "along", "across"
	Unworn  string   `json:"unworn,omitempty"`  // where the unworn surface is, if there is one
	Nominal float64  `json:"nominal,omitempty"` // mm, when the kit knows it
	Tool    string   `json:"tool,omitempty"`    // instrument id usually used
}

// Fastener is a set of like fasteners of a joint.
type Fastener struct {
	Size  string `json:"size"` // "M10x1.25x60"
	Count int    `json:"count"`
	Where string `json:"where,omitempty"` // "long ones at the dowels"
	State string `json:"state,omitempty"` // as it came out: "broken", "missing", "stretched"; empty is sound
}

// Shim is a set of like shims or a measured pack.
type Shim struct {
	ThicknessMM float64 `json:"thicknessMm"`
	Count       int     `json:"count"`
	Where       string  `json:"where,omitempty"`
	Typed       string  `json:"typed,omitempty"`
}

// JointAdded declares a joint between parts.
type JointAdded struct {
	ID        JointID     `json:"id"`
	Name      string      `json:"name"`
	Assembly  AssemblyID  `json:"assembly"`
	Sort      string      `json:"sort"` // bolted, press, slip, …
	Places    Family      `json:"places,omitempty"`
	Parts     []PartID    `json:"parts"`
	Reach     [][]JointID `json:"reach,omitempty"` // alternatives; every joint of one must be open
	Fasteners string      `json:"fasteners,omitempty"`
	Shims     string      `json:"shims,omitempty"`
	AtBuild   string      `json:"atBuild,omitempty"` // sealant, lubricant, orientation
	Tighten   string      `json:"tighten,omitempty"`
	Thread    string      `json:"thread,omitempty"`  // usual: "M10x1.25", "M8 or M10"; measure before trusting it
	Grade     string      `json:"grade,omitempty"`   // property class usual here: "8.8"; the head rules
	Layout    string      `json:"layout,omitempty"`  // of the bolts: "circle 6", "rows 2x5", "edge 300x180 10", "field x,y; x,y"
	Into      PartID      `json:"into,omitempty"`    // the part that carries the tapped holes
	Thicker   string      `json:"thicker,omitempty"` // what a thicker pack does to its end float, mm for mm: opens or closes
	AsFound   []string    `json:"asFound,omitempty"` // evidence to take before undoing
	Hazards   []string    `json:"hazards,omitempty"`
	OneWay    bool        `json:"oneWay,omitempty"` // closing is no reversal of opening: press, stake, crush
	Dry       bool        `json:"dry,omitempty"`    // built dry once, to measure
	Life      bool        `json:"life,omitempty"`   // its holds cannot be passed
	Hours     float64     `json:"hours,omitempty"`  // to close it, one person
	Reckon    []Reckoning `json:"reckon,omitempty"` // what is worked out here
}

// What a thicker pack of shims does to the float that it sets.
const (
	Opens  = "opens"
	Closes = "closes"
)

// When a check can be made.
const (
	Apart   = "apart"   // while its joints are open
	Made    = "made"    // once closed, before anything hides it
	Running = "running" // in Prove
)

// How a check gets its value.
const (
	ByReading   = "reading"   // read directly: a gap, a torque, a voltage
	ByClearance = "clearance" // outer feature less inner feature
	BySize      = "size"      // a feature's own size
	ByOval      = "oval"      // worst max less min over axes at one level
	ByTaper     = "taper"     // worst max less min over levels on one axis
	ByWear      = "wear"      // worst departure from the unworn size
	ByStack     = "stack"     // sizes added and taken away, each so many times: see Term
	ByEye       = "eye"       // yes or no
	ByPassage   = "passage"   // yes or no: proved clear
)

// Term is one size of a stack: deck height once, crank throw once less.
type Term struct {
	Feature FeatureID `json:"feature"`
	Times   float64   `json:"times"` // 1, -1, 0.5 …
}

// CheckAdded declares a check.
type CheckAdded struct {
	ID       CheckID     `json:"id"`
	Name     string      `json:"name"`
	Assembly AssemblyID  `json:"assembly"`
	Places   Family      `json:"places,omitempty"`
	Joints   []JointID   `json:"joints,omitempty"` // joints it is a condition on
	Parts    []PartID    `json:"parts,omitempty"`
	When     string      `json:"when"`
	Dry      bool        `json:"dry,omitempty"` // a made check read on the dry build
	By       string      `json:"by"`
	Outer    FeatureID   `json:"outer,omitempty"` // bore of a clearance, or the feature itself
	Inner    FeatureID   `json:"inner,omitempty"` // journal of a clearance
	Terms    []Term      `json:"terms,omitempty"` // of a sum of sizes
	Unit     string      `json:"unit"`            // "mm", "N·m", "V", … or a word for a ratio
	Says     string      `json:"says,omitempty"`  // what the figure means: "TIR", "of the best"
	How      string      `json:"how,omitempty"`
	Tool     string      `json:"tool,omitempty"` // instrument id
	Repeats  int         `json:"repeats,omitempty"`
	Size     *SizeSource `json:"size,omitempty"`
	Limits   []Limit     `json:"limits"`
	HiddenBy []JointID   `json:"hiddenBy,omitempty"` // hidden once all of them are closed
	Hazards  []string    `json:"hazards,omitempty"`
	Life     bool        `json:"life,omitempty"` // a hold on it cannot be passed
	Remedies []Remedy    `json:"remedies,omitempty"`
	Reckon   []Reckoning `json:"reckon,omitempty"` // what is worked out here
}

// Remedy is one way to make a worn check good.
type Remedy struct {
	Key     string      `json:"key"`
	Name    string      `json:"name"`
	Cost    float64     `json:"cost"` // in bench hours' worth
	Days    float64     `json:"days"`
	Where   string      `json:"where"` // bench, machine shop, buy, pump shop
	Beware  string      `json:"beware,omitempty"`
	Group   SizeGroup   `json:"group,omitempty"` // all members take one size
	Steps   []float64   `json:"steps,omitempty"` // mm on diameter from nominal, ascending: 0.25, 0.50
	Renews  []PartID    `json:"renews,omitempty"`
	Reworks []FeatureID `json:"reworks,omitempty"`
	Mends   []CheckID   `json:"mends,omitempty"` // other checks it makes good as well
	Opens   []CheckID   `json:"opens,omitempty"` // checks that must be made again after it
	Shifts  []Shift     `json:"shifts,omitempty"`
	Odds    float64     `json:"odds,omitempty"` // prior chance it is the one needed, for forecasts
}

// Shift is the change a remedy makes to another check's value, in that
// check's unit.
type Shift struct {
	Check CheckID `json:"check"`
	By    float64 `json:"by"`
}

// TestAdded declares a proving test.
type TestAdded struct {
	ID      TestID     `json:"id"`
	Name    string     `json:"name"`
	System  string     `json:"system"`
	Order   int        `json:"order"`
	Needs   []TestID   `json:"needs,omitempty"`
	Do      string     `json:"do"`
	Pass    string     `json:"pass"`
	Points  []Ref      `json:"points,omitempty"` // checks and joints a failure points to
	Tool    string     `json:"tool,omitempty"`
	From    Provenance `json:"from"`
	Source  string     `json:"source,omitempty"`
	Caution string     `json:"caution,omitempty"`
	Hazards []string   `json:"hazards,omitempty"`
	Life    bool       `json:"life,omitempty"`

	Reckon []Reckoning `json:"reckon,omitempty"` // what is worked out here
}

// CleaningAdded says what may and may not touch a material or a part.
type CleaningAdded struct {
	ID        string   `json:"id"`
	For       []PartID `json:"for,omitempty"`
	Permitted []string `json:"permitted,omitempty"`
	Forbidden []Forbid `json:"forbidden,omitempty"`
}

// Forbid is a method not to be used, and why.
type Forbid struct {
	What string `json:"what"`
	Why  string `json:"why"`
}

// SymptomAdded ties a symptom to its suspects; weights are prior odds.
type SymptomAdded struct {
	ID       string    `json:"id"`
	Text     string    `json:"text"`
	When     string    `json:"when,omitempty"`
	Suspects []Suspect `json:"suspects"`
	Next     string    `json:"next,omitempty"`
}

// Suspect is one thing a symptom may come from.
type Suspect struct {
	Of     Ref     `json:"of"`
	Weight float64 `json:"weight"`
	Words  string  `json:"words,omitempty"`
}
