package machine

import (
	"slices"
	"time"
)

// Machine is what a log adds up to. It is built by Fold and not changed after.
// Slices are in the order in which things were declared, instances in the
// order of their places.
type Machine struct {
	Name   string
	Serial string
	Owner  string
	Note   string
	Demo   bool
	Kits   []KitTaken
	Places []Places
	Data   []Datum
	Tools  []Instrument // of this workshop, beside the usual ones or in their place

	Assemblies []Assembly
	Surveys    []SurveyRecord // how assemblies looked before they came apart, one each
	Parts      []*Part
	Features   []*Feature
	Joints     []*Joint
	Checks     []*Check
	Tests      []*Test
	Cleaning   []CleaningAdded
	Symptoms   []SymptomAdded

	Settings  []*Setting // setting pieces read, in time order
	Orders    []*Order
	Trays     []Tray
	Photos    []Photo
	Sounds    []Sound
	Notes     []Note
	Stated    []Stated // the user's word on order
	Questions []Question
	Clashes   []Clash // readings of one point that did not know of each other
	Events    []Event // what was recorded at the bench, in time order
	Undone    []Event // readings that were withdrawn or corrected since, in time order
	Last      time.Time
	Entries   int // how many entries were folded

	index
	orders map[OrderID]*Order
	base   *declared // what Again may lean on; nil after Fold
}

// index finds things by their id as places in the machine's lists. It is of
// the declared things only and not changed once they are, so that machines of
// one log share it.
type index struct {
	parts    map[PartID]int
	features map[FeatureID]int
	joints   map[JointID]int
	checks   map[CheckID]int
	tests    map[TestID]int
	data     map[string]int
	atlas    atlas
}

func newIndex() index {
	const room = 512 // a machine has some hundreds of each
	return index{parts: make(map[PartID]int, room), features: make(map[FeatureID]int, room),
		joints: make(map[JointID]int, room), checks: make(map[CheckID]int, room),
		tests: map[TestID]int{}, data: map[string]int{}, atlas: atlas{}}
}

// DeclaredAs tells whether a machine consists of the same as another, thing by
// thing at the same numbers: their logs declare the same, in the same entries.
// It may say no of machines that were not folded on from one another by Again.
func (m *Machine) DeclaredAs(other *Machine) bool { return m.base != nil && m.base == other.base }

// find gives what stands under an id, nil if nothing does.
func find[K comparable, T any](at map[K]int, list []*T, id K) *T {
	if i, known := at[id]; known {
		return list[i]
	}
	return nil
}

// The lookups return nil for an id that is not there.
func (m *Machine) Part(id PartID) *Part          { return find(m.parts, m.Parts, id) }
func (m *Machine) Feature(id FeatureID) *Feature { return find(m.features, m.Features, id) }
func (m *Machine) Joint(id JointID) *Joint       { return find(m.joints, m.Joints, id) }
func (m *Machine) Check(id CheckID) *Check       { return find(m.checks, m.Checks, id) }
func (m *Machine) Test(id TestID) *Test          { return find(m.tests, m.Tests, id) }
func (m *Machine) Order(id OrderID) *Order       { return m.orders[id] }
func (m *Machine) Datum(id string) *Datum {
	if i, known := m.data[id]; known {
		return &m.Data[i]
	}
	return nil
}

// Stamp says who recorded a thing, when, and in which entry.
type Stamp struct {
	Entry EntryID
	At    time.Time
	By    string
}

// Event is one bench fact with its entry, for the account of the work.
type Event struct {
	Stamp
	Body Body
}

// Assembly is a named group of parts and joints.
type Assembly struct {
	AssemblyAdded
	Stamp Stamp
}

// Call is the restorer's word on a part.
type Call string

const (
	NotJudged Call = "not judged"
	GoesBack  Call = "goes back"
	MakeGood  Call = "make good"
	Renew     Call = "renew"
)

// Part is one instance of a part: Qty like pieces at one place.
type Part struct {
	ID       PartID
	number   int
	Type     PartID
	Place    Place
	Name     string // with its place: "Liner, cylinder 2"
	Assembly AssemblyID
	Qty      int
	Material string
	Faults   []string
	Hazards  []string
	OneUse   bool
	MassKg   float64
	Stamp    Stamp

	Found      *int // pieces counted, where somebody counted
	FoundNote  string
	Tray       string // where it lies; empty is on the machine
	Away       OrderID
	Call       Call
	CallWhy    string
	CallBy     Stamp
	Identified *Identified // the standard part it is, nil where nobody found out
	Cleaned    []Cleaned
	Version    int // grows when the part is renewed
	Features   []*Feature
	Joints     []*Joint
	Photos     []Photo
}

// Number is the part's place in the machine's Parts, from 0.
func (p *Part) Number() int { return p.number }

// Identified is the standard part that a part was found to be.
type Identified struct {
	Stamp
	PartIdentified
}

// Cleaned is one cleaning of a part.
type Cleaned struct {
	Stamp
	Method, Note string
}

// Feature is a measurable surface of one part instance.
type Feature struct {
	ID       FeatureID
	number   int
	Part     *Part
	Name     string
	Sort     string
	Levels   []string
	Axes     []string
	Unworn   string
	Tool     string
	Nominal  *Nominal
	Version  int // grows with each rework or renewal
	Readings []*Reading
}

// Number is the feature's place in the machine's Features, from 0.
func (f *Feature) Number() int { return f.number }

// Called is the feature's name with its part: "bore of Liner, cylinder 2".
func (f *Feature) Called() string {
	name := f.Name
	if name == "" {
		name = f.ID.Name()
	}
	if f.Part == nil {
		return name
	}
	return name + " of " + f.Part.Name
}

// Nominal is a feature's size as made, with where that is known from.
type Nominal struct {
	MM     float64
	From   Provenance
	Source string
	Typed  string
}

// Points lists level and axis of every point a run reads, in bench order.
func (f *Feature) Points() []Point {
	levels, axes := f.Levels, f.Axes
	if len(levels) == 0 {
		levels = []string{""}
	}
	if len(axes) == 0 {
		axes = []string{""}
	}
	var out []Point
	for _, a := range levels {
		for _, b := range axes {
			out = append(out, Point{a, b})
		}
	}
	return out
}

// Point is where on a feature a reading is taken.
type Point struct{ Level, Axis string }

// Current lists the readings of the feature's present version.
func (f *Feature) Current() []*Reading {
	var out []*Reading
	for _, r := range f.Readings {
		if r.Version == f.Version {
			out = append(out, r)
		}
	}
	return out
}

// Reading is one figure as taken.
type Reading struct {
	Stamp
	Amount  Amount
	Level   string
	Axis    string
	Unworn  bool
	Tool    string
	Setting string
	Set     *Setting // its setting piece as last read before it with the same tool, nil where it was not
	TempC   *float64
	Note    string
	Version int       // of the feature, or of the check, it was taken on
	Seen    []EntryID // readings of the point that were known where it was taken; nil where nobody said
}

// Setting is one reading of a setting piece.
type Setting struct {
	Stamp
	SettingTaken
}

// State of a joint.
type State string

const (
	AsMade  State = "made"     // as it came, never opened
	Open    State = "open"     // apart
	OnTrial State = "on trial" // dry build
	Closed  State = "final"    // closed for good
)

// Joint is one instance of a joint.
type Joint struct {
	ID       JointID
	number   int
	Type     JointID
	Place    Place
	Name     string
	Assembly AssemblyID
	Sort     string
	Parts    []*Part
	Reach    []Reach
	Hazards  []string
	AsFound  []string
	OneWay   bool
	Dry      bool
	Life     bool
	Hours    float64
	Plan     Plan
	Reckon   []Reckoning // ids in them are instance ids here
	Stamp    Stamp

	State    State
	Opened   int    // how often
	Made     int    // how often closed for good
	Left     string // why it is not going to be opened
	Removals []Removal
	Closings []Closing
	Evidence []AsFoundRecord
	Passed   []Passed
	Photos   []Photo
	Checks   []*Check // that are a condition on it
}

// Number is the joint's place in the machine's Joints, from 0.
func (j *Joint) Number() int { return j.number }

// Plan is what the kit says about building the joint; see JointAdded.
type Plan struct {
	Fasteners, Shims, AtBuild, Tighten string
	Thread, Grade, Layout              string
	Into                               *Part // nil where it is not known, or not on the machine
	Thicker                            string
}

// Evidence is where a word on order comes from, strongest first.
type Evidence string

const (
	Observed Evidence = "in the way"
	SaidSo   Evidence = "stated"
	Geometry Evidence = "kit geometry"
	Hides    Evidence = "check before hide"
	Process  Evidence = "process"
	LogOnly  Evidence = "log order only"
)

// Reach says what must be open before a joint can be worked on: every joint
// of any one of the sets.
type Reach struct {
	Any      [][]JointID
	Evidence Evidence
	Stamp    Stamp
	Photo    Sum
	Note     string
}

// Removal is one opening.
type Removal struct {
	Stamp
	JointOpened
}

// Closing is one closing, dry or final.
type Closing struct {
	Stamp
	JointClosed
}

// AsFoundRecord is evidence kept before undoing.
type AsFoundRecord struct {
	Stamp
	AsFoundTaken
}

// Passed is a hold that was passed by hand.
type Passed struct {
	Stamp
	HoldPassed
}

// Stated is the user's word that First closes before Then.
type Stated struct {
	Stamp
	OrderStated
}

// Check is one instance of a check.
type Check struct {
	ID       CheckID
	number   int
	Type     CheckID
	Place    Place
	Name     string
	Assembly AssemblyID
	When     string
	Dry      bool
	By       string
	Joints   []*Joint
	Parts    []*Part
	Outer    *Feature
	Inner    *Feature
	Terms    []StackTerm
	Unit     string
	Says     string
	How      string
	Tool     string
	Repeats  int
	Size     *SizeSource // its feature id is an instance id here
	Limits   []Limit     // best provenance first
	HiddenBy [][]*Joint  // hidden once every set has a closed joint
	Hazards  []string
	Life     bool
	Remedies []Remedy // ids in them are instance ids here
	Reckon   []Reckoning
	Stamp    Stamp

	Version  int // grows when a remedy opens it again or a final joint is opened
	Readings []*Reading
	Looks    []*Look
	Chosen   *Chosen
	Done     []Done
}

// Number is the check's place in the machine's Checks, from 0.
func (c *Check) Number() int { return c.number }

// StackTerm is one size of a stack; Feature is nil where it is not on the
// machine.
type StackTerm struct {
	Feature *Feature
	Times   float64
}

// Surfaces lists the features a check is worked out from, each once.
func (c *Check) Surfaces() []*Feature {
	var out []*Feature
	add := func(ft *Feature) {
		if ft != nil && !slices.Contains(out, ft) {
			out = append(out, ft)
		}
	}
	add(c.Outer)
	add(c.Inner)
	for _, t := range c.Terms {
		add(t.Feature)
	}
	return out
}

// reads tells whether a check is worked out from a feature.
func (c *Check) reads(ft *Feature) bool {
	if c.Outer == ft || c.Inner == ft {
		return true
	}
	return slices.ContainsFunc(c.Terms, func(t StackTerm) bool { return t.Feature == ft })
}

// Current lists the direct readings of the check's present version.
func (c *Check) Current() []*Reading {
	var out []*Reading
	for _, r := range c.Readings {
		if r.Version == c.Version {
			out = append(out, r)
		}
	}
	return out
}

// Look is the latest answer of the present version, nil if there is none.
func (c *Check) Look() *Look {
	if n := len(c.Looks); n > 0 && c.Looks[n-1].Version == c.Version {
		return c.Looks[n-1]
	}
	return nil
}

// Look is an answer by eye.
type Look struct {
	Stamp
	OK      bool
	Words   string
	Photo   Sum
	Version int
}

// Chosen is the remedy settled on.
type Chosen struct {
	Stamp
	RemedyChosen
}

// Done is a remedy carried out.
type Done struct {
	Stamp
	RemedyDone
}

// Test is a proving test with its runs.
type Test struct {
	TestAdded
	Stamp Stamp
	Runs  []Run
}

// Run is one run of a test.
type Run struct {
	Stamp
	TestRun
}

// Order is something bought or sent out.
type Order struct {
	Ordered
	Stamp    Stamp
	Promises []Promise
	Received *Stamp
}

// Promise is a later date given for an order.
type Promise struct {
	Stamp
	Promised
}

// Due is the date last promised; zero when none was given.
func (o *Order) DueBy() time.Time {
	if n := len(o.Promises); n > 0 {
		return o.Promises[n-1].Due
	}
	return o.Due
}

// Photo is an attachment tied to what it shows.
type Photo struct {
	Stamp
	PhotoAdded
}

// Sound is a recording tied to what it was taken at.
type Sound struct {
	Stamp
	SoundAdded
}

// Note is a remark.
type Note struct {
	Stamp
	Noted
}

// Tray is a mark and what lies under it. One that was made and is empty, or
// empty again, stays in the list.
type Tray struct {
	Mark      string
	Name      string // as said when it was made; mostly empty
	Parts     []*Part
	Fasteners []TrayFasteners
}

// TrayFasteners are fasteners that came out of one joint.
type TrayFasteners struct {
	Joint *Joint
	Sets  []Fastener
	Shims []Shim
}

// Question is something the log says that could not be placed.
type Question struct {
	Entry EntryID
	Seq   int64
	At    time.Time
	By    string
	Kind  Kind
	About Ref
	Text  string // what does not fit, and what to do
}
