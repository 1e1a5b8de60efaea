package sequence

import (
	"strings"

	"matchmark/internal/machine"
)

// StepID names a step: "open:main-cap.2", "check:bore-wear.1",
// "rework:bore-wear.1/bore-over". It is the same in every plan of a machine.
type StepID string

// Act is what a step does.
type Act string

const (
	Open    Act = "open"    // take a joint apart
	Undo    Act = "undo"    // take a dry build apart again
	Clean   Act = "clean"   // clean a part
	Collect Act = "collect" // fetch what was ordered or sent out
	Check   Act = "check"   // make a check, or settle one that is not sound
	Rework  Act = "rework"  // carry out a chosen remedy
	Trial   Act = "trial"   // close a joint dry, to measure
	Close   Act = "close"   // close a joint for good
	Test    Act = "test"    // a proving test
)

// Step is one thing to do, or one that is done. Exactly one of Joint, Part,
// Check (with Remedy for a rework), Order and Test says what it is about.
// Hours are bench hours of one person: the joint's own for a closing, else the
// step's share of the kit's hours for its assembly; 0 where nobody knows.
type Step struct {
	ID       StepID
	Act      Act
	Name     string // "Close main cap, main 2 for good"
	Assembly machine.AssemblyID
	Joint    *machine.Joint
	Part     *machine.Part
	Check    *machine.Check
	Remedy   *machine.Remedy // of a rework; nil where the check has none of that key
	Order    *machine.Order
	Test     *machine.Test
	Hours    float64
	Done     bool
	Hazards  []string
	Bench    string // label of its bench; empty where it waits for several
}

func stepID(act Act, id string) StepID { return StepID(string(act) + ":" + id) }

// OpenID is the step that takes a joint apart; the others are named alike.
func OpenID(id machine.JointID) StepID    { return stepID(Open, string(id)) }
func TrialID(id machine.JointID) StepID   { return stepID(Trial, string(id)) }
func CloseID(id machine.JointID) StepID   { return stepID(Close, string(id)) }
func CheckID(id machine.CheckID) StepID   { return stepID(Check, string(id)) }
func CleanID(id machine.PartID) StepID    { return stepID(Clean, string(id)) }
func CollectID(id machine.OrderID) StepID { return stepID(Collect, string(id)) }
func TestID(id machine.TestID) StepID     { return stepID(Test, string(id)) }
func ReworkID(c machine.CheckID, key string) StepID {
	return stepID(Rework, string(c)+"/"+key)
}

// Act is the word before the colon.
func (id StepID) Act() Act {
	act, _, _ := strings.Cut(string(id), ":")
	return Act(act)
}
