package play

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/machine"
)

// left are the joints that the two leave alone for now, by type: press fits
// that nobody parts without a reason, and what belongs to the pump shop.
var left = []machine.JointID{"dowel-block", "liner-block", "ring-gear-flywheel", "smallend-rod", "guide-head", "seat-head",
	"swirl-head", "injsleeve-head", "head-core-head", "rocker-bush-fit", "cam-bush-block", "idler-bush-press", "cam-gear-key",
	"wp-shaft-press", "water-seal-fit", "wp-impeller-press", "wp-hub-press", "wp-plate-fit", "rad-tank-join",
	"starterbush-fit", "ip-plunger-fit", "ip-sleeve-rack", "ip-tappet-fit", "ip-cam-fit", "pump-gear-fit", "ip-dv-fit",
	"ip-dv-spring-fit", "liftpump-valves", "plate-fit", "maxfuel-fit", "pivotbush-press", "kingbush-press", "upbush-fit",
	"sectorbush-box", "sectorseal-fit", "tyre-front-rim", "crank-key-nose", "lash-thread", "horn-fit", "grommet-fit",
	"rocker-shaft-plug-fit", "hubbrg-in", "hubbrg-out", "hubseal-fit", "fender-split", "fender-fit", "rops-fit", "frontweight-fit", "gb-rear-joint"}

// stays are the assemblies that are still on their wheels.
var stays = []machine.AssemblyID{"brakes", "rear-bevel", "rear-final", "pto", "hydraulic-lift", "hydraulic-linkage", "wheels", "gearbox-shafts", "gearbox-range"}

// strip opens every joint of some assemblies that is to come apart, each after
// whatever is in its way, in about the kit's order.
func (s *story) strip(assemblies ...machine.AssemblyID) {
	for _, a := range assemblies {
		var todo []machine.JointID
		for _, j := range s.machine().Joints {
			if j.Assembly == a && !slices.Contains(left, j.Type) {
				todo = append(todo, j.ID)
			}
		}
		s.wander(todo)
		for _, id := range todo {
			s.pull(id)
		}
	}
}

// wander lets neighbours change places now and then: nobody works by the list.
func (s *story) wander(ids []machine.JointID) {
	for i := 1; i < len(ids); i++ {
		if s.rng.IntN(4) == 0 {
			ids[i-1], ids[i] = ids[i], ids[i-1]
		}
	}
}

// pull opens joints, each after what is in its way.
func (s *story) pull(ids ...machine.JointID) {
	for _, id := range ids {
		j := s.machine().Joint(id)
		if j == nil {
			s.fail("the story opens %q, which the kits do not have", id)
			continue
		}
		if j.State != machine.AsMade {
			continue
		}
		for _, r := range j.Reach {
			for _, k := range r.Any[0] {
				s.pull(k)
			}
		}
		s.open(id)
	}
}

// open records one removal: the evidence first, then the joint.
func (s *story) open(id machine.JointID, more ...func(*machine.JointOpened)) {
	j := s.machine().Joint(id)
	if slices.Contains(stays, j.Assembly) && !slices.Contains(offAnyway, j.Type) {
		s.fail("%s would come apart, but it is to stay on", j.ID)
	}
	s.minutes(18 + 24*j.Hours)
	mark := s.asFound(j)
	b := &machine.JointOpened{Joint: id, Tray: s.trays.mark(j.Assembly), Off: s.liftedAt(j, comesOff(j)), Fasteners: s.fastenersOf(j),
		Shims: slices.Clone(packs[id]), MatchMark: mark, Note: notes[id]}
	if len(b.Off)+len(b.Fasteners)+len(b.Shims) == 0 {
		b.Tray = "" // nothing to lay down
	}
	if place, big := standsOn[j.Type]; big {
		b.Tray = place
	}
	b.Breakaway = s.breakaway(j)
	if !slices.Contains(unpictured, id) {
		b.Photos = s.photos(j, b)
	}
	for _, change := range more {
		change(b)
	}
	s.say(b)
}

// offAnyway are joints of assemblies that stay on which come apart all the
// same, by type.
var offAnyway = []machine.JointID{"wheel-front-fit", "mesh-1", "mesh-2", "mesh-3", "mesh-rev"}

// standsOn is where the big pieces go instead of a tray.
var standsOn = map[machine.JointID]string{"bell-engine": "engine stand", "bell-gearbox": "floor", "frontsup-engine": "floor",
	"bonnet-on": "rack", "tank-mount": "rack", "rad-support": "rack", "head-gasket-joint": "head bench", "grille-fit": "rack",
	"dash-lower": "rack", "seat-fit": "rack", "wheel-front-fit": "wall", "pivot-fit": "floor", "crank-mains": "crank stand"}

// breakaway is the torque to just move the fastener that matters, N·m.
func (s *story) breakaway(j *machine.Joint) *machine.Amount {
	about, ok := turned[j.Type]
	if !ok {
		return nil
	}
	at := about * (0.9 + 0.2*s.rng.Float64())
	if s.who == per {
		return s.amount(fmt.Sprintf("%.1f kgf·m", at/9.80665), "N·m") // his wrench is marked so
	}
	return s.amount(fmt.Sprintf("%.0f", at), "N·m")
}

// turned are the torques, in N·m, at which fasteners moved, by joint type.
var turned = map[machine.JointID]float64{"head-block": 62, "main-cap-block": 88, "rod-cap-bolt": 38, "flywheel-crank": 74,
	"bell-engine": 48, "frontsup-engine": 120, "pulley-crank": 190, "wheel-front-fit": 95, "steer-mount": 82,
	"droparm-fit": 150, "clutch-cover-flywheel": 26, "exhaust-man-head": 21, "gb-top-fit": 24}

// asFound keeps the evidence that opening a joint destroys, and gives the
// match mark that was made.
func (s *story) asFound(j *machine.Joint) (mark string) {
	for _, what := range j.AsFound {
		if s.already(j, what) {
			continue
		}
		b := &machine.AsFoundTaken{Joint: j.ID, What: what}
		if m := s.evidence(j, what, b); m != "" {
			mark = m
		}
		s.say(b)
		s.minutes(2)
	}
	if mark == "" && (strings.Contains(j.Plan.Shims, "mark") || j.Sort == "mesh") {
		mark = s.dots()
	}
	return mark
}

// already tells whether the evidence was taken before, at the survey.
func (s *story) already(j *machine.Joint, what string) bool {
	return slices.ContainsFunc(j.Evidence, func(e machine.AsFoundRecord) bool { return e.What == what })
}
