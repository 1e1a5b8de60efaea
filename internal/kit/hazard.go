package kit

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// Hazards lists the words a kit may write under hazards. Each stands for a
// caution that is shown with every step the word touches.
func Hazards() []string {
	return []string{"injection pressure", "stored hydraulic pressure", "pressure air", "jacking", "lifting", "splitting",
		"crush", "spring under load", "rotating", "power take-off", "protective frame", "battery", "hot coolant",
		"hot metal", "caustic", "solvent", "fuel vapour", "exhaust gas", "old lining dust", "lead paint", "wire wheel",
		"tyre pressure", "runaway engine", "brake trial"}
}

// rule says which hazard a thing of a kit must carry, and how it is told.
type rule struct {
	hazard string
	why    string
	tells  func(text string) bool // of name, way of doing and sort, in small letters
}

// says makes a rule's test: the words must stand in the text.
func says(pattern string) func(string) bool { return regexp.MustCompile(pattern).MatchString }

// rules for joints, checks and tests. They read only words that cannot well
// mean anything else: a rule that cries wolf would be switched off.
var rules = []rule{
	{"injection pressure", "a spray from the injectors goes through skin", says(`\bpop[- ]test|\bnozzle test|\binjector (line|pipe)|\binjection line`)},
	{"jacking", "a machine can come off its jack", says(`\bjack(s|ed|ing)? (up|under)\b|\baxle stands?\b`)},
	{"splitting", "the halves can roll or tip", says(`\bsplit(ting)? the tractor\b`)},
	{"caustic", "lye burns skin and eyes", says(`\bcaustic\b|\blye\b`)},
	{"wire wheel", "wires leave the wheel", says(`\bwire wheel\b`)},
	{"battery", "a battery can burst, burn and short", says(`\bbatter(y|ies)\b.*\b(lead|post|terminal|clamp|charge|acid|electrolyte)|\b(lead|post|terminal|clamp|charge)s?\b.*\bbatter(y|ies)\b`)},
	{"pressure air", "air under pressure throws parts and turns the crank", says(`\bcompressed air\b|\bleak-down\b`)},
	{"hot coolant", "hot coolant flashes to steam", says(`\bradiator cap\b.*\bhot\b|\bhot\b.*\bradiator cap\b`)},
	{"power take-off", "the shaft takes hold of clothes", says(`\b(pto|power take-off)( shaft)? (turn|run|engage)`)},
}

// missingHazards adds a fault for each hazard a thing should carry and does
// not.
func (c *checker) missingHazards(it item, have []string, texts ...string) {
	text := strings.ToLower(strings.Join(texts, " "))
	for _, r := range rules {
		if r.tells(text) {
			c.wantHazard(it, have, r.hazard, r.why)
		}
	}
}

func (c *checker) wantHazard(it item, have []string, hazard, why string) {
	if !slices.Contains(have, hazard) {
		c.fault(it, "hazards", fmt.Sprintf("it has no caution: %s", why), fmt.Sprintf("add %q to hazards", hazard))
	}
}

// jointHazards looks at what a joint's sort and assembly say of themselves.
func (c *checker) jointHazards(it item, j Joint) {
	c.hazards(it, j.Hazards)
	c.missingHazards(it, j.Hazards, j.Name, j.AtBuild, j.Tighten, strings.Join(j.AsFound, " "))
	if strings.Contains(j.Assembly, "injection") {
		c.wantHazard(it, j.Hazards, "injection pressure", "it belongs to the injection, where a spray goes through skin")
	}
	if j.Sort == "spring-loaded" {
		c.wantHazard(it, j.Hazards, "spring under load", "a spring is let go here")
	}
}

// lining tells a part that may hold old friction material.
var lining = says(`\blinings?\b|\bfriction (disc|plate|material)`)

// engineTurns tells a test that turns or starts the engine, or drives.
var engineTurns = says(`\b(start|crank|idle|rev)(s|ed|ing)? (up )?(the |it|up|at|on|with|\d)|\bengine (runs?|running|idles|turns|starts)\b|\brun(ning)? (the engine|at|in|up|it)\b|\bdrive (the|it|on|at|slowly|off)\b|\bfirst (start|drive)\b`)
