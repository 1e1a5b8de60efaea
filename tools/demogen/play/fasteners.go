package play

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"matchmark/internal/machine"
)

// known are fasteners that the story wants to be exact about, by joint type.
var known = map[machine.JointID][]machine.Fastener{
	"head-block":              {{Size: "M10x1.25 nut and washer", Count: 11}, {Size: "M10x1.25 long nut", Count: 1, Where: "at the lifting eye"}},
	"head-stud-block":         {{Size: "M10x1.25x112 stud", Count: 12}},
	"main-cap-block":          {{Size: "M12x1.25x78", Count: 2}},
	"rod-cap-bolt":            {{Size: "M9x1x46", Count: 2}},
	"flywheel-crank":          {{Size: "M10x1.25x26", Count: 5}, {Size: "lock plate", Count: 1}},
	"sump-block":              {{Size: "M6x18", Count: 14}, {Size: "M6x30", Count: 2, Where: "at the rear seal"}},
	"timing-cover-block":      {{Size: "M8x35", Count: 6}, {Size: "M8x55", Count: 3, Where: "through the pump flange"}, {Size: "M8x80", Count: 2, Where: "lowest"}},
	"exhaust-man-head":        {{Size: "M8x1.25 brass nut", Count: 5}, {Size: "M8x1.25x38 stud", Count: 1, Where: "cylinder 3, lower", State: "broken"}},
	"inlet-man-head":          {{Size: "M8x1.25 nut", Count: 4}},
	"bell-engine":             {{Size: "M10x1.5x40", Count: 6}, {Size: "M10x1.5x70", Count: 2, Where: "lowest two"}, {Size: "dowel 12", Count: 2}},
	"bell-gearbox":            {{Size: "M12x1.75x45", Count: 6}, {Size: "dowel 12", Count: 2}},
	"gb-top-fit":              {{Size: "M8x1.25x28", Count: 10}},
	"water-pump-block":        {{Size: "M8x1.25x35", Count: 3}, {Size: "M8x1.25x75", Count: 1, Where: "lower left"}},
	"clutch-cover-flywheel":   {{Size: "M8x1.25x22", Count: 6}},
	"frontsup-engine":         {{Size: "M14x1.5x50", Count: 6}, {Size: "dowel 14", Count: 2}},
	"ip-block":                {{Size: "M8x1.25 nut", Count: 4}, {Size: "timing shim 0.25", Count: 1, State: "missing"}},
	"pulley-crank":            {{Size: "M24x1.5 nut", Count: 1}, {Size: "tab washer", Count: 1}},
	"rocker-shaft-head":       {{Size: "M8x1.25 nut", Count: 3}, {Size: "M8x1.25x60", Count: 3}},
	"rocker-cover-head":       {{Size: "M7x1 dome nut", Count: 3}},
	"wheel-front-fit":         {{Size: "M14x1.5x35", Count: 5}},
	"steer-mount":             {{Size: "M12x1.75x40", Count: 4}},
	"footboard-fit":           {{Size: "M10x1.5x25", Count: 4}},
	"oil-pump-block":          {{Size: "M8x1.25x45", Count: 3}},
	"dash-lower":              {{Size: "M10x1.5x30", Count: 4}},
	"rear-carrier-block":      {{Size: "M6x20", Count: 8}},
	"engine-back-plate-block": {{Size: "M10x1.5x25", Count: 8}},
}

var (
	metric  = regexp.MustCompile(`M(\d+)(x[\d.]+)?(?:(?:-| to )M?(\d+))?`)
	counted = regexp.MustCompile(`^(\d+)(?:-(\d+))? `)
)

// usual counts, by sort of joint, where the kit does not say how many.
var usual = map[string]int{"bolted": 4, "clamped": 2, "hose": 2}

// worded are fasteners that the kit names by word only, the first that fits.
var worded = []struct {
	word string
	sets []machine.Fastener
}{
	{"castle nut", []machine.Fastener{{Size: "M14x1.5 castle nut", Count: 1}, {Size: "split pin 3.2x30", Count: 1}}},
	{"linch pin", []machine.Fastener{{Size: "linch pin 10", Count: 1}}},
	{"hose clip", []machine.Fastener{{Size: "hose clip", Count: 2}}},
	{"split pin", []machine.Fastener{{Size: "clevis pin 8x22", Count: 1}, {Size: "split pin 2x16", Count: 1}}},
	{"clevis", []machine.Fastener{{Size: "clevis pin 6x18", Count: 1}, {Size: "split pin 1.6x12", Count: 1}}},
	{"banjo", []machine.Fastener{{Size: "M12x1.5 banjo bolt", Count: 2}}},
	{"locknut", []machine.Fastener{{Size: "M7x0.75 lock nut", Count: 1}}},
	{"lock nut", []machine.Fastener{{Size: "M7x0.75 lock nut", Count: 1}}},
	{"circlip", []machine.Fastener{{Size: "circlip", Count: 1}}},
	{"clips", []machine.Fastener{{Size: "over-centre clip", Count: 2}}},
	{"clip", []machine.Fastener{{Size: "spring clip", Count: 1}}},
	{"clamp", []machine.Fastener{{Size: "M8x1.25x30 clamp bolt", Count: 1}}},
	{"union", []machine.Fastener{{Size: "M12x1.5 union nut", Count: 1}}},
	{"through bolts", []machine.Fastener{{Size: "M6x1x130", Count: 2}}},
	{"pinch bolt", []machine.Fastener{{Size: "M8x1.25x30", Count: 1}}},
	{"roll pin", []machine.Fastener{{Size: "roll pin 5x28", Count: 1}}},
	{"pins", []machine.Fastener{{Size: "pin 5x24", Count: 2}}},
	{"pin", []machine.Fastener{{Size: "pin 6x24", Count: 1}}},
	{"screws", []machine.Fastener{{Size: "M5x16 screw", Count: 6}}},
	{"screw", []machine.Fastener{{Size: "M6x16 screw", Count: 1}}},
	{"plug", []machine.Fastener{{Size: "plug", Count: 1}}},
	{"nuts", []machine.Fastener{{Size: "M8x1.25 nut", Count: 3}}},
	{"nut", []machine.Fastener{{Size: "M12x1.25 nut", Count: 1}}},
	{"bolts", []machine.Fastener{{Size: "M8x1.25x25", Count: 2}}},
	{"bolt", []machine.Fastener{{Size: "M10x1.5x30", Count: 2}}},
	{"stud", []machine.Fastener{{Size: "M8x1.25 nut", Count: 2}}},
	{"strap", []machine.Fastener{{Size: "strap", Count: 2}}},
}

// fixed are words of the kit that name no loose fastener: what is pressed in,
// cast on or named as a part of its own.
var fixed = regexp.MustCompile(`^(press|interference|light press|solder|stake|swaged|plug, staked|tang|taper$|cone|cup|hollow|shrink|tooth|timing|push|matched|lapped|rivets|spring|fine thread)`)

// fastenersOf says what came out of a joint: what the story knows of it, else
// what the kit's words amount to.
func (s *story) fastenersOf(j *machine.Joint) []machine.Fastener {
	if sets, ok := known[j.Type]; ok {
		return append([]machine.Fastener{}, sets...)
	}
	text := j.Plan.Fasteners
	if text == "" || fixed.MatchString(text) {
		return nil
	}
	if m := metric.FindStringSubmatch(text); m != nil {
		return []machine.Fastener{s.metricSet(j, text, m)}
	}
	for _, w := range worded {
		if strings.Contains(strings.ToLower(text), w.word) {
			return append([]machine.Fastener{}, w.sets...)
		}
	}
	return nil
}

// metricSet reads "3-5 M8", "M6-M8" or "M12x1.5/M14x1.5 union": a size within
// what is said, with a length that suits it, and a count.
func (s *story) metricSet(j *machine.Joint, text string, m []string) machine.Fastener {
	d, _ := strconv.Atoi(m[1])
	if up, err := strconv.Atoi(m[3]); err == nil && s.rng.IntN(2) == 1 {
		d = up
	}
	n := max(usual[j.Sort], 1)
	if c := counted.FindStringSubmatch(text); c != nil {
		n, _ = strconv.Atoi(c[1])
		if most, err := strconv.Atoi(c[2]); err == nil {
			n = (n + most) / 2
		}
	}
	size := fmt.Sprintf("M%d%s", d, m[2])
	switch {
	case strings.Contains(text, "union"):
		return machine.Fastener{Size: size + " union nut", Count: 1}
	case strings.Contains(text, "nut"):
		return machine.Fastener{Size: size + " nut", Count: n}
	case j.Sort == "threaded" || j.Sort == "wire":
		return machine.Fastener{Size: size, Count: 1}
	}
	return machine.Fastener{Size: fmt.Sprintf("%sx%d", size, 2*d+5*s.rng.IntN(4)), Count: n}
}

// howMany is the number of fasteners in all.
func howMany(sets []machine.Fastener) int {
	n := 0
	for _, f := range sets {
		n += f.Count
	}
	return n
}
