package web

import (
	"fmt"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/book/labels"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// say puts one kept fact into words: "Opened Main cap 2, into tray 14".
func say(m *machine.Machine, body machine.Body) string {
	switch b := body.(type) {
	case *machine.JointOpened:
		return "Opened " + jointName(m, b.Joint) + intoTray(b.Tray)
	case *machine.JointClosed:
		return closedWord(b.As) + " " + jointName(m, b.Joint) + behind(", ", torqueWords(b.Torque))
	case *machine.JointLeft:
		return "Left " + jointName(m, b.Joint) + " closed: " + b.Why
	case *machine.InTheWay:
		return jointName(m, b.Joint) + ": " + anyWords(m, b.Any) + " was in the way"
	case *machine.ReachDenied:
		return jointName(m, b.Joint) + ": " + jointName(m, b.Blocker) + " is not in the way here"
	case *machine.OrderStated:
		return jointName(m, b.First) + " closes before " + jointName(m, b.Then)
	case *machine.AsFoundTaken:
		return "As found, " + jointName(m, b.Joint) + ": " + foundWords(b)
	case *machine.HoldPassed:
		return "Passed the hold " + checkName(m, b.Check) + " on " + jointName(m, b.Joint) + ", " + b.Initials + ": " + b.Why
	case *machine.PartMoved:
		return partName(m, b.Part) + " to " + trayWords(b.Tray)
	case *machine.TrayMade:
		return "Made " + trayWords(b.Mark) + behind(": ", b.Name)
	case *machine.PartCounted:
		return fmt.Sprintf("Counted %s: %d found", partName(m, b.Part), b.Found) + behind(", ", b.Words)
	case *machine.PartCleaned:
		return "Cleaned " + partName(m, b.Part) + ": " + b.Method
	case *machine.PartIdentified:
		return partName(m, b.Part) + " is " + b.What + " " + b.Designation + ", " + percent(b.Probability) + " sure"
	case *machine.CallMade:
		return partName(m, b.Part) + ": " + string(b.Call) + behind(", ", b.Why)
	case *machine.PhotoAdded:
		return "Photo of " + refName(m, b.Of) + behind(": ", b.Caption)
	case *machine.SoundAdded:
		return "Recording" + behind(" of ", refName(m, b.Of)) + behind(", ", secondsWords(b.Seconds)) + behind(": ", b.Caption)
	case *machine.Surveyed:
		return assemblyName(m, b.Assembly) + " as it came: " + b.Condition + behind(", ", b.Words)
	case *machine.Noted:
		return "Note" + behind(" on ", refName(m, b.Of)) + ": " + b.Text
	}
	return sayMeasured(m, body)
}

// sayMeasured puts readings, looks, remedies, orders and tests into words.
func sayMeasured(m *machine.Machine, body machine.Body) string {
	switch b := body.(type) {
	case *machine.ReadingTaken:
		read := b.Amount
		if c := m.Check(b.Check); c != nil {
			read = bench.In(read, c.Unit)
		}
		return "Read " + amountWords(&read) + " at " + pointWords(m, b)
	case *machine.ReadingsAgreed:
		return spelling.Head(countWord(len(b.Readings))) + " readings of one point count side by side" + behind(": ", b.Why)
	case *machine.LookTaken:
		return checkName(m, b.Check) + ": " + lookWord(b.OK) + behind(", ", b.Words)
	case *machine.NominalSet:
		return featureName(m, b.Feature) + " as made: " + amountWords(&b.Amount) + ", " + string(b.From)
	case *machine.LimitSet:
		return "Limit for " + checkName(m, b.Check) + " from " + sourceWords(b.Limit.From, b.Limit.Source)
	case *machine.RemedyChosen:
		return checkName(m, b.Check) + ": " + remedyName(m, b.Check, b.Key) + sizeWords(b.Step) + " chosen"
	case *machine.RemedyDone:
		return checkName(m, b.Check) + ": " + remedyName(m, b.Check, b.Key) + sizeWords(b.Step) + " done"
	case *machine.Ordered:
		if b.Out {
			return "Sent out: " + b.What + behind(", to ", b.From)
		}
		return "Ordered: " + b.What + behind(", from ", b.From)
	case *machine.Promised:
		return "Order " + string(b.Order) + " now promised for " + day(b.Due)
	case *machine.Received:
		return "Order " + string(b.Order) + " arrived"
	case *machine.TestRun:
		return testName(m, b.Test) + ": " + passWord(b.Passed) + behind(", ", amountWords(b.Value))
	case *machine.DatumSet:
		return b.Name + ": " + b.Typed + behind(", ", string(b.From))
	case *machine.EntryWithdrawn:
		return "Withdrew an entry" + behind(": ", b.Why)
	}
	return spelling.Head(strings.ReplaceAll(string(body.Kind()), "-", " "))
}

// foundWords say what was found before a joint was undone: "breakaway of the
// nuts: 64 N·m, moved a hair to the tight side first".
func foundWords(b *machine.AsFoundTaken) string {
	text := strings.TrimSuffix(strings.TrimSpace(b.What), ":")
	if b.Value != nil {
		text += ": " + amountWords(b.Value)
		return text + behind(", ", b.Words)
	}
	return text + behind(": ", b.Words)
}

// behind joins a mark and a text, or gives nothing for an empty text.
func behind(mark, text string) string {
	if text == "" {
		return ""
	}
	return mark + text
}

func closedWord(as string) string {
	if as == machine.Trial {
		return "Dry-built"
	}
	return "Closed"
}

func lookWord(ok bool) string {
	if ok {
		return "sound by eye"
	}
	return "not sound by eye"
}

func passWord(ok bool) string {
	if ok {
		return "passed"
	}
	return "not passed"
}

func intoTray(mark string) string {
	if mark == "" {
		return ""
	}
	if words := trayWords(mark); words != mark {
		return ", into " + words
	}
	return ", to " + mark
}

// trayWords names where a part lies; a mark that is no number is a place.
func trayWords(mark string) string {
	switch {
	case mark == "":
		return "on the machine"
	case mark == machine.NoTray:
		return "off, no tray named"
	}
	return labels.Called(mark)
}

// amountWords says a figure as it was typed, with its meaning where that
// differs.
func amountWords(a *machine.Amount) string {
	if a == nil {
		return ""
	}
	inside := withUnit(a.Value, a.Unit)
	typed := strings.TrimSpace(a.Typed)
	if typed == "" || typed == inside || typed == figure(a.Value, a.Unit) || typed+" "+a.Unit == inside {
		return inside
	}
	if strings.IndexFunc(typed, func(r rune) bool { return r > '9' }) < 0 { // a bare number
		return inside
	}
	return typed + " (" + inside + ")"
}

func torqueWords(a *machine.Amount) string { return amountWords(a) }

func sizeWords(step float64) string {
	if step == 0 {
		return ""
	}
	return fmt.Sprintf(", %+.2f mm", step)
}

func jointName(m *machine.Machine, id machine.JointID) string {
	if j := m.Joint(id); j != nil {
		return j.Name
	}
	return string(id)
}

func partName(m *machine.Machine, id machine.PartID) string {
	if p := m.Part(id); p != nil {
		return p.Name
	}
	return string(id)
}

func checkName(m *machine.Machine, id machine.CheckID) string {
	if c := m.Check(id); c != nil {
		return c.Name
	}
	return string(id)
}

func testName(m *machine.Machine, id machine.TestID) string {
	if t := m.Test(id); t != nil {
		return t.Name
	}
	return string(id)
}

func featureName(m *machine.Machine, id machine.FeatureID) string {
	if ft := m.Feature(id); ft != nil {
		return ft.Part.Name + ", " + ft.Name
	}
	return string(id)
}

func remedyName(m *machine.Machine, id machine.CheckID, key string) string {
	if c := m.Check(id); c != nil {
		if r := c.Remedy(key); r != nil {
			return r.Name
		}
	}
	return key
}

// refName names what a photo, note or question is about.
func refName(m *machine.Machine, ref machine.Ref) string {
	switch ref.Kind() {
	case "joint":
		return jointName(m, machine.JointID(ref.ID()))
	case "part":
		return partName(m, machine.PartID(ref.ID()))
	case "check":
		return checkName(m, machine.CheckID(ref.ID()))
	case "test":
		return testName(m, machine.TestID(ref.ID()))
	case "side":
		return sideWord(ref.ID())
	case "tray":
		return "tray " + ref.ID()
	}
	return ref.ID()
}

// pointWords says where a reading was taken.
func pointWords(m *machine.Machine, r *machine.ReadingTaken) string {
	name := checkName(m, r.Check)
	if r.Feature != "" {
		name = featureName(m, r.Feature)
	}
	if r.Unworn {
		return name + ", unworn surface"
	}
	return name + behind(", ", r.Level) + behind(", ", r.Axis)
}

// anyWords says alternatives: "A and B, or C".
func anyWords(m *machine.Machine, any [][]machine.JointID) string {
	sets := make([]string, len(any))
	for i, set := range any {
		names := make([]string, len(set))
		for k, id := range set {
			names[k] = jointName(m, id)
		}
		sets[i] = strings.Join(names, " and ")
	}
	return strings.Join(sets, ", or ")
}
