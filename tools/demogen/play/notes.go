package play

import "matchmark/internal/machine"

// unpictured joints were opened without a photo being taken.
var unpictured = []machine.JointID{"dipstick-fit", "rad-drain-fit"}

// notes are what was remarked at a removal, by joint.
var notes = map[machine.JointID]string{
	"dipstick-fit":          "Out before anyone thought of a photo. Nothing to it.",
	"bonnet-on":             "Two of us. Hinge pins greased, latch bent and straightened some time ago.",
	"rad-support":           "Bottom mounts perished to crumbs. Core bent at the fan side.",
	"rad-hose-bottom":       "Spring inside, rusted thin. New one wanted.",
	"fan-belt-fit":          "Glazed and cracked. Length taken with a tape round the grooves.",
	"exhaust-man-head":      "Lower stud at cylinder 3 sheared with hardly any force. Soaked three days, heated, no use. Stump stands 6 mm proud.",
	"hp-pipe-injector.2":    "Union had been over-tightened; pipe end looks mushroomed.",
	"ip-block":              "Two shims came out, 0.20 and 0.30. A card wired to the tool box lid says three. One is missing since before us.",
	"rocker-cover-head":     "Sludge like tar in the corners.",
	"head-block":            "Undone from the ends inwards, a quarter turn at a time. Cylinder 2 chamber wet.",
	"head-gasket-joint":     "Blown between cylinder 2 and the water hole behind it.",
	"piston-bore.2":         "Step at the top of the bore that catches a nail.",
	"rod-cap-bolt.3":        "Shell shows copper on the upper half.",
	"bell-engine":           "Split with two jacks and a hoist. Dowels stayed in the engine half.",
	"clutch-cover-flywheel": "Plate worn to the rivets on the flywheel side.",
	"starterbrush-fit":      "Two of the four shorter than half.",
	"sump-block":            "Half a litre of black paste in the bottom. No metal in it, filtered through a rag.",
	"pulley-crank":          "Lip of the seal has cut a groove one can feel.",
	"gb-top-fit":            "All in neutral. Oil milky, gears bright.",
	"kingpin-fit.left":      "Driven out. Bush upper left broken in two.",
	"loom-main-fit":         "Tape flags on 34 ends.",
}
