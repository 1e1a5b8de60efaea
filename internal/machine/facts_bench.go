package machine

import "time"

// The facts recorded at the bench. Ids in them are instance ids.

// Amount is a figure as it was typed and what it means inside.
type Amount struct {
	Value float64 `json:"value"`          // inside unit
	Unit  string  `json:"unit"`           // inside unit's symbol
	Typed string  `json:"typed"`          // as the worker wrote it
	Step  float64 `json:"step,omitempty"` // place value of the last digit typed, inside unit
}

// JointOpened records a removal.
type JointOpened struct {
	Joint     JointID    `json:"joint"`
	Tray      string     `json:"tray,omitempty"`
	Off       []PartID   `json:"off,omitempty"` // parts that came off, into the tray
	Fasteners []Fastener `json:"fasteners,omitempty"`
	Shims     []Shim     `json:"shims,omitempty"`
	MatchMark string     `json:"matchMark,omitempty"`
	Breakaway *Amount    `json:"breakaway,omitempty"` // torque to just move it, N·m
	Photos    []Sum      `json:"photos,omitempty"`
	Note      string     `json:"note,omitempty"`
}

// InTheWay records that these joints had to be open before Joint could be
// worked on: every joint of any one of the sets.
type InTheWay struct {
	Joint JointID     `json:"joint"`
	Any   [][]JointID `json:"any"`
	Photo Sum         `json:"photo,omitempty"`
	Note  string      `json:"note,omitempty"`
}

// ReachDenied takes one joint out of the kit's word on another's reach: on
// this machine it is not in the way.
type ReachDenied struct {
	Joint   JointID `json:"joint"`
	Blocker JointID `json:"blocker"`
	Why     string  `json:"why"`
}

// OrderStated is the user's word that one joint closes before another.
type OrderStated struct {
	First JointID `json:"first"`
	Then  JointID `json:"then"`
	Why   string  `json:"why"`
}

// JointLeft says that a joint is not going to be opened.
type JointLeft struct {
	Joint JointID `json:"joint"`
	Why   string  `json:"why"`
}

// AsFoundTaken keeps evidence that undoing destroys.
type AsFoundTaken struct {
	Joint JointID `json:"joint"`
	What  string  `json:"what"`
	Value *Amount `json:"value,omitempty"`
	Words string  `json:"words,omitempty"`
	Photo Sum     `json:"photo,omitempty"`
}

// How a joint can be closed.
const (
	Trial = "trial" // dry build, to come apart again
	Final = "final"
)

// JointClosed records a closing.
type JointClosed struct {
	Joint     JointID    `json:"joint"`
	As        string     `json:"as"` // trial or final
	Fasteners []Fastener `json:"fasteners,omitempty"`
	Shims     []Shim     `json:"shims,omitempty"`
	Torque    *Amount    `json:"torque,omitempty"` // N·m, as really done
	Sealant   string     `json:"sealant,omitempty"`
	Photos    []Sum      `json:"photos,omitempty"`
	Note      string     `json:"note,omitempty"`
}

// HoldPassed is a hold the user passed, with initials and reason.
type HoldPassed struct {
	Joint    JointID `json:"joint"`
	Check    CheckID `json:"check"`
	Initials string  `json:"initials"`
	Why      string  `json:"why"`
}

// PartMoved says where a part lies now: a tray, a shelf, "at the shop".
type PartMoved struct {
	Part PartID `json:"part"`
	Tray string `json:"tray"`
	Note string `json:"note,omitempty"`
}

// TrayMade makes a tray before anything lies in it, or gives a tray its name;
// the latest name counts.
type TrayMade struct {
	Mark string `json:"mark"`
	Name string `json:"name,omitempty"`
}

// PartCounted corrects how many pieces were found, or says that a part is
// missing (0) or extra.
type PartCounted struct {
	Part  PartID `json:"part"`
	Found int    `json:"found"`
	Words string `json:"words,omitempty"`
}

// PhotoAdded ties an attachment to what it shows.
type PhotoAdded struct {
	Of      Ref       `json:"of"`
	Sum     Sum       `json:"sum"`
	Type    string    `json:"type"` // "image/jpeg"
	Caption string    `json:"caption,omitempty"`
	TakenAt time.Time `json:"takenAt,omitzero"`
}

// SoundAdded ties a recording to what it was taken at, or to the whole machine.
type SoundAdded struct {
	Of           Ref       `json:"of,omitempty"`
	Sum          Sum       `json:"sum"`
	Type         string    `json:"type"` // "audio/wav"
	Seconds      float64   `json:"seconds,omitempty"`
	Mic          string    `json:"mic,omitempty"`          // where the microphone was
	RPM          float64   `json:"rpm,omitempty"`          // of the engine, 1/min, where it was noted
	Compressed   bool      `json:"compressed,omitempty"`   // made from a recording that had lost detail
	Original     Sum       `json:"original,omitempty"`     // that recording
	OriginalType string    `json:"originalType,omitempty"` // "audio/webm"
	Caption      string    `json:"caption,omitempty"`
	TakenAt      time.Time `json:"takenAt,omitzero"` // by the clock of the device
}

// PartCleaned records a cleaning.
type PartCleaned struct {
	Part   PartID `json:"part"`
	Method string `json:"method"`
	Note   string `json:"note,omitempty"`
}

// ReadingTaken is one figure at one point. It is of a feature (with level and
// axis) or of a check read directly.
type ReadingTaken struct {
	Feature FeatureID `json:"feature,omitempty"`
	Check   CheckID   `json:"check,omitempty"`
	Level   string    `json:"level,omitempty"`
	Axis    string    `json:"axis,omitempty"`
	Unworn  bool      `json:"unworn,omitempty"` // read on the unworn surface
	Amount  Amount    `json:"amount"`
	Tool    string    `json:"tool,omitempty"`
	Setting string    `json:"setting,omitempty"` // the setting piece or instrument shared with other readings
	TempC   *float64  `json:"tempC,omitempty"`
	Note    string    `json:"note,omitempty"`
	Seen    []EntryID `json:"seen,omitzero"` // readings of the point known where it was taken; not there where nobody said
}

// ReadingsAgreed is the person's word that readings of one point, taken without
// knowing of each other, all count.
type ReadingsAgreed struct {
	Readings []EntryID `json:"readings"`
	Why      string    `json:"why,omitempty"`
}

// SettingTaken is a setting piece of known size read with an instrument before
// a run. Readings taken later with that tool and that setting are corrected by
// what it read too much, until it is read again.
type SettingTaken struct {
	Tool    string   `json:"tool"`
	Setting string   `json:"setting"`         // the name that readings carry
	Nominal Amount   `json:"nominal"`         // size of the piece as marked, at 20 °C
	Read    Amount   `json:"read"`            // what the instrument showed
	TempC   *float64 `json:"tempC,omitempty"` // of piece and instrument
	Note    string   `json:"note,omitempty"`
}

// LookTaken is the answer to a check by eye, or to a passage to be proved.
type LookTaken struct {
	Check CheckID `json:"check"`
	OK    bool    `json:"ok"`
	Words string  `json:"words,omitempty"`
	Photo Sum     `json:"photo,omitempty"`
}

// NominalSet gives a feature its nominal size, with where it came from.
type NominalSet struct {
	Feature FeatureID  `json:"feature"`
	Amount  Amount     `json:"amount"`
	From    Provenance `json:"from"`
	Source  string     `json:"source,omitempty"`
}

// LimitSet gives a check (type or instance) one more limit.
type LimitSet struct {
	Check CheckID `json:"check"`
	Limit Limit   `json:"limit"`
}

// CallMade is the restorer's word on a part.
type CallMade struct {
	Part PartID `json:"part"`
	Call Call   `json:"call"`
	Why  string `json:"why,omitempty"`
}

// PartIdentified says which standard part a part is, and how surely: the
// program's answer from measurements, kept on the restorer's word.
type PartIdentified struct {
	Part        PartID          `json:"part"`
	What        string          `json:"what"`                  // kind of standard part: "ball bearing", "oil seal"
	Designation string          `json:"designation"`           // as the standard or the trade names it
	Probability float64         `json:"probability"`           // of the designation or one of its equivalents, 0 to 1
	Equivalents []string        `json:"equivalents,omitempty"` // other designations of the same size
	Measured    []DimensionRead `json:"measured,omitempty"`
	Source      string          `json:"source,omitempty"` // of the table it stands in
}

// DimensionRead is one dimension that a part was identified by.
type DimensionRead struct {
	Dim    string  `json:"dim"` // its name in the table: "d", "D", "B"
	Amount Amount  `json:"amount"`
	U      float64 `json:"u"` // standard uncertainty, inside unit
	Worn   bool    `json:"worn,omitempty"`
}

// RemedyChosen settles what is done about a check. Step is the size taken, in
// mm on diameter, where the remedy has sizes.
type RemedyChosen struct {
	Check CheckID `json:"check"`
	Key   string  `json:"remedy"`
	Step  float64 `json:"step,omitempty"`
	Why   string  `json:"why,omitempty"`
}

// RemedyDone records that it was done; the features it touched begin a new
// version, and the checks they carry are open again.
type RemedyDone struct {
	Check    CheckID     `json:"check"`
	Key      string      `json:"remedy"`
	Step     float64     `json:"step,omitempty"`
	Renewed  []PartID    `json:"renewed,omitempty"`
	Reworked []FeatureID `json:"reworked,omitempty"`
	Opens    []CheckID   `json:"opens,omitempty"`
	Note     string      `json:"note,omitempty"`
}

// Ordered records parts ordered or work sent out.
type Ordered struct {
	Order OrderID   `json:"order"`
	What  string    `json:"what"`
	Parts []PartID  `json:"parts,omitempty"` // to be received, or sent out and to come back
	Out   bool      `json:"out,omitempty"`   // the parts themselves are away
	From  string    `json:"from,omitempty"`
	Due   time.Time `json:"due,omitzero"`
	Cost  float64   `json:"cost,omitempty"`
}

// Promised gives an order a new date.
type Promised struct {
	Order OrderID   `json:"order"`
	Due   time.Time `json:"due"`
	Why   string    `json:"why,omitempty"`
}

// Received records an arrival.
type Received struct {
	Order OrderID `json:"order"`
	Note  string  `json:"note,omitempty"`
}

// TestRun is one run of a proving test.
type TestRun struct {
	Test   TestID  `json:"test"`
	Passed bool    `json:"passed"`
	Value  *Amount `json:"value,omitempty"`
	Note   string  `json:"note,omitempty"`
}

// Noted is a remark on anything.
type Noted struct {
	Of   Ref    `json:"of,omitempty"`
	Text string `json:"text"`
}

// EntryWithdrawn undoes an entry. Undoing this entry brings it back.
type EntryWithdrawn struct {
	Target EntryID `json:"target"`
	Why    string  `json:"why,omitempty"`
}
