package play

import (
	"fmt"
	"strings"

	"matchmark/internal/machine"
)

// evidence fills in what was found: a figure where the words ask for one, a
// punch mark where they ask for that, else words. It gives the mark made.
func (s *story) evidence(j *machine.Joint, what string, b *machine.AsFoundTaken) (mark string) {
	low := strings.ToLower(what)
	if f, ok := figureFound[j.ID]; ok && f.what == what {
		b.Value, b.Words = s.amount(f.typed, f.unit), f.words
		return ""
	}
	switch {
	case strings.Contains(low, "torque to just move"):
		b.Value, b.Words = s.breakaway(j), "moved a hair to the tight side first"
	case strings.Contains(low, "punch"), strings.Contains(low, "mark it"):
		mark = s.dots()
		b.Words = mark + ", one beside the other"
	case strings.Contains(low, "scribe"):
		mark = "line scribed across both"
		b.Words = mark
	default:
		s.measuredAsFound(j, low, b)
	}
	return mark
}

// found is a figure that the story is exact about.
type found struct{ what, typed, unit, words string }

// figureFound holds them, by joint.
var figureFound = map[machine.JointID]found{
	"thrust-float":        {"crankshaft end float before strip", "0.21", "mm", "dial on the flywheel, levered both ways, three times"},
	"timing-gasket-joint": {"thickness of the old gasket", "0.40", "mm", "three places away from the bolts"},
	"tie-thread":          {"toe-in before strip", "5", "mm", "front less rear at the rim, turned half a turn between"},
	"clutch-rod-fit":      {"free travel at the pedal", "11", "mm", "almost none left"},
	"side-fit":            {"height of the adjuster screw", "9.4", "mm", "above the lock nut"},
	"inj-spring-fit.1":    {"opening pressure before it is taken apart", "116 bar", "bar", "five strokes"},
	"inj-spring-fit.2":    {"opening pressure before it is taken apart", "121 bar", "bar", "five strokes"},
	"inj-spring-fit.3":    {"opening pressure before it is taken apart", "100 bar", "bar", "drips; one-sided fog"},
	"maxfuel-fit":         {"height of the screw and its seal: it is not to be moved", "14.35", "mm", "seal whole, lead and wire, no figures on it"},
}

// ranges are figures of the rest, in mm, by a word of what is asked.
var ranges = []struct {
	word      string
	low, high float64
	words     string
}{
	{"lash", 0.20, 0.42, "cold"},
	{"height of each liner", 0.05, 0.09, "four places, the least"},
	{"piston height", 0.12, 0.26, "above the deck, pin line"},
	{"height of each stud", 94, 95, "all within half a millimetre"},
	{"height of the idle", 8, 12, "above the lock nut; both screws alike"},
	{"height", 3, 9, "depth gauge, two places"},
	{"depth", 2, 7, "depth gauge, two places"},
	{"shim", 0.2, 0.6, "pack as it lay"},
	{"thickness", 0.3, 1.2, "away from the bolts"},
	{"length of the rod", 180, 260, "between pins"},
	{"length of the link", 612, 640, "between pins"},
	{"end float", 0.08, 0.25, "dial, levered both ways"},
	{"gap", 0.6, 1.1, "feeler, four places"},
	{"free travel", 10, 24, "at the pedal pad"},
}

func (s *story) measuredAsFound(j *machine.Joint, low string, b *machine.AsFoundTaken) {
	for _, r := range ranges {
		if !strings.Contains(low, r.word) {
			continue
		}
		digits := 2
		if r.high > 10 {
			digits = 1
		}
		b.Value = s.amount(fmt.Sprintf("%.*f", digits, r.low+(r.high-r.low)*s.rng.Float64()), "mm")
		b.Words = r.words
		return
	}
	b.Words = s.wordsFound(j, low)
}

// answers are what is said where no figure is wanted, by a word of what is
// asked; %s is the place of the joint.
var answers = []struct{ word, say string }{
	{"length of each bolt", "drawn on card, each bolt pushed through its hole"},
	{"how many dowels", "two, both in the engine half"},
	{"how many pins and balls", "one pin, two balls"},
	{"how many balls", "twenty-six, none broken"},
	{"numbers on rod and cap", "stamped %s on both, facing the camshaft"},
	{"number and arrow", "stamped %s, arrow to the front"},
	{"number of each pipe", "none; tied on a brass tag %s"},
	{"number of washers", "one, copper"},
	{"size mark on the back", "no size stamped, maker's mark only: standard"},
	{"which place it came from", "card with six holes, place %s, cupped end up"},
	{"which bore it came from", "card with six holes, place %s"},
	{"which way the crown", "arrow to the front"},
	{"which way the hollow", "hollow to the front"},
	{"which way up", "dished side to the nozzle"},
	{"which way round the liner", "line scribed to the front"},
	{"which face was up", "the folded edge up"},
	{"which face of the gear", "marked face outward"},
	{"which side of the plate", "long boss to the gearbox"},
	{"which washer sat", "grooves to the crankshaft on both"},
	{"which nut or stud", "the long one at the lifting eye, none hollow"},
	{"which banjo", "the one with the ball at the filter, outlet side"},
	{"which hole", "second hole in the lever, end hole in the arm"},
	{"order of rockers", "photographed before a thing was moved; %s"},
	{"close coils", "no shim; close coils to the head"},
	{"both ends", "tape flags, same number at both ends"},
	{"turns of thread", "seven turns showing at each end"},
	{"spline mark", "one dot on each, in line"},
	{"centre marks", "dot on the middle tooth, dot on its gap"},
	{"straight-ahead", "wheel tied straight, line scribed over the nut"},
	{"where the pointer", "line scribed round it"},
	{"thickness and side", "marked F and R with paint"},
	{"tooth marks", "left as it is"},
}

func (s *story) wordsFound(j *machine.Joint, low string) string {
	for _, a := range answers {
		if strings.Contains(low, a.word) {
			if strings.Contains(a.say, "%s") {
				return fmt.Sprintf(a.say, j.Place)
			}
			return a.say
		}
	}
	return "see the photo"
}

// dots is a match mark not used before: one, two or three punch dots.
func (s *story) dots() string {
	s.marks++
	return []string{"one dot on each", "two dots on each", "three dots on each"}[s.marks%3]
}
