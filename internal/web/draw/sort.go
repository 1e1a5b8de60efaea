package draw

import (
	"regexp"
	"strings"
)

// words tells which symbol a word of a part's name means. Several words stand
// before one, and of the words of a name the last known one counts: a clutch
// cover bolt is a bolt.
var words = map[string]string{
	// turned
	"shaft": "shaft", "mainshaft": "shaft", "countershaft": "shaft", "lay shaft": "shaft", "spindle": "stub", "axle": "axleshaft", "axle shaft": "axleshaft", "half shaft": "axleshaft",
	"stub axle": "knuckle", "stub shaft": "stub", "cross shaft": "stub", "rocker shaft": "rail", "sector": "stub", "drive shaft": "propshaft", "steering shaft": "worm", "worm": "worm",
	"take-off shaft": "spline", "crankshaft": "crankshaft", "camshaft": "camshaft", "cam shaft": "stub", "rail": "rail", "shaft-bearing": "stub", "decompression shaft": "rail", "rock shaft": "shaft",
	"gear": "gear", "pinion": "gear", "cluster": "cluster", "gear cluster": "cluster", "pinion shaft": "bevelpinion", "bevel pinion": "bevelpinion", "wheel": "wheel", "crown wheel": "crownwheel",
	"bull gear": "gear", "side gear": "bevelgear", "differential pinion": "bevelgear", "idler": "gear", "sprocket": "gear", "pulley": "pulley", "flywheel": "flywheel", "ring gear": "ringgear", "hub": "hub",
	"synchro hub": "synchub", "synchro sleeve": "syncsleeve", "synchro ring": "syncring", "sleeve": "sleeve", "collar": "collar", "spacer": "collar", "coupling": "coupling", "coupler": "coupling",
	"bearing": "bearing", "ball bearing": "bearing", "taper bearing": "taper", "roller bearing": "roller", "roller": "roller", "needle": "needle", "needle bearing": "needle", "thrust bearing": "thrust",
	"release bearing": "thrust", "side bearing": "taper", "worm bearing": "taper", "hub bearing": "taper", "bush": "bush", "shell pair": "shells", "shell": "shells", "seal": "seal", "face seal": "seal", "o-ring": "oring", "ring": "oring",
	"seal ring": "oring", "backup ring": "oring", "slinger": "washer", "slinger ring": "washer", "washer": "washer", "tab": "washer", "shim": "shim", "shim pack": "shim", "circlip": "circlip", "nut": "nut", "locknut": "nut", "lock nut": "nut", "bolt": "bolt",
	"stud": "stud", "screw": "screw", "pin": "pin", "clevis pin": "clevis", "plug": "plug", "core plug": "coreplug", "key": "key", "ball": "ball", "link ball": "eyeball", "dowel": "dowel", "locating dowel": "dowel",
	"plate": "plate", "driven plate": "clutchplate", "pressure plate": "clutchcover", "clutch cover": "clutchcover", "drum": "drum", "differential case": "diffcase", "lock tab": "washer", "thrust washer": "washer", "washer set": "washer", "nipple": "nipple", "dog": "coupling",
	// engine
	"piston": "piston", "lift piston": "rampiston", "compression ring": "ring", "piston ring": "ring", "control ring": "ring", "rod": "rod", "connecting rod": "conrod", "rod cap": "rodcap", "bearing cap": "maincap", "liner": "liner",
	"cylinder": "cylinder", "valve": "valve", "valve guide": "guide", "guide": "guide", "guide tube": "sleeve", "valve seat": "valveseat", "seat": "seat", "valve spring": "spring", "spring": "spring", "retainer": "endcover", "spring retainer": "retainer", "collet": "collet", "collet half": "collet",
	"stem seal": "stemseal", "end cap": "stemcap", "rocker": "rocker", "rocker arm": "rocker", "pedestal": "pedestal", "pushrod": "pushrod", "tappet": "tappet", "follower": "tappet", "tappet bore": "tappetbore", "insert": "insert",
	"injector": "injector", "injector holder": "injector", "injector sleeve": "insert", "nozzle": "nozzle", "plunger": "plunger", "pumping plunger": "plunger", "barrel": "plunger", "delivery valve": "delivery", "valve holder": "delivery", "control sleeve": "coupling", "pump tappet": "roller-tap",
	"weight set": "governor", "manifold": "manifold", "rack": "rack", "bar": "rack", "bus bar": "rack", "air cleaner": "aircleaner", "cleaner body": "aircleaner", "cleaner cap": "cap", "bowl": "bowl", "oil bowl": "bowl", "element": "element", "wire element": "element",
	"cartridge": "filter", "filter": "filter", "filter head": "filterhead", "silencer": "silencer", "flap": "flap", "rotor": "armature", "pump body": "pumpbody", "injection pump body": "injpump", "lift pump body": "liftpump", "pump": "pumpbody", "injection pump": "injpump", "lift pump": "liftpump", "diaphragm": "diaphragm", "strainer": "gauze",
	"gear pair": "gear", "sump": "sumpplain", "rocker cover": "rockercover", "timing cover": "timingcover", "breather": "breather", "dipstick": "dipstick", "pointer": "gaugepointer", "cylinder block": "engine", "block casting": "engine", "cylinder head": "head", "head casting": "head",
	"head gasket": "headgasket", "front plate": "enginplate", "rear plate": "enginplate", "back plate": "enginplate", "impeller": "impeller", "thermostat": "thermostat", "fan": "fan", "fan hub": "hub", "pump housing": "waterpump", "glow plug": "spark", "relief valve": "plunger", "check ball": "ball", "lowering speed": "plunger",
	// castings and tin
	"housing": "housing", "bell": "bell", "case": "housing", "gearbox case": "gearcase", "centre case": "axlecase", "axle housing": "axlehousing", "lift cover": "liftcover", "cover casting": "liftcover", "bracket": "bracket", "carrier": "carrier", "bearing carrier": "carrier", "cover": "cover", "top cover": "lid", "end cover": "endcover",
	"side cover": "endcover", "outer retainer": "endcover", "gasket": "gasket", "body": "valvebody", "valve body": "valvebody", "spool": "spool", "tank": "tank", "radiator": "rad", "radiator core": "rad", "core": "rad", "top tank": "radtank", "bottom tank": "radtank", "shroud": "shroud", "outlet": "elbow", "water outlet": "elbow", "elbow": "elbow",
	"casting": "support", "axle beam": "beam", "beam": "beam", "box housing": "steerbox", "nutblock": "eyeball", "ball nut": "sleeve", "weight": "weight", "front weight": "weight", "pan": "pan", "seat pan": "seat", "plates": "plate", "brake cover": "cover", "starter yoke": "motor", "lifting eye": "eyeball", "eye": "eyeball", "bell housing": "bell", "clutch housing": "bell",
	// fittings
	"pipe": "pipe", "hose": "hose", "clip": "clip", "clamp": "clamp", "loom": "wire", "wire": "wire", "lead": "wire", "strap": "strap", "chassis strap": "wire", "cable": "cable", "cock": "cock", "drain cock": "cock", "outlet tap": "cock", "tap": "cock", "sender": "sender", "level sender": "float", "oil pressure": "sender", "pressure switch": "sender",
	"temperature sender": "sender", "lever": "lever", "pedal": "pedal", "fork": "fork", "arm": "arm", "crank arm": "arm", "drop arm": "droparm", "steering arm": "droparm", "pull rod": "rod", "rod end": "balljoint", "link end": "balljoint", "tie": "tierod", "drag link": "tierod", "track": "tierod", "link": "link", "lower link": "link", "top link": "screwlink", "linkage": "rod",
	"lift rod": "screwlink", "screw box": "sleevebox", "chain": "chain", "drawbar": "drawbar", "latch": "latch", "coupling latch": "latch", "hinge": "hinge", "mount": "mount", "mount rubber": "mount", "rubber": "mount", "grommet": "grommet", "boot": "boot", "knob": "knob", "cap": "cap", "shaft cap": "cap", "disc": "disc", "friction disc": "disc", "belt": "belt", "fan belt": "belt",
	"strip": "strip", "cam": "cam", "shoe": "shoe", "shoe pair": "shoe", "lining": "shoe", "ball seat": "insert", "pump pressure plate": "collar", "pump valve": "delivery", "speed valve": "plunger", "track rod": "tierod", "sector shaft": "stub", "pump rotor": "rotor", "brush": "brush", "brush set": "brush", "motor": "motor", "dynamo": "motor", "alternator": "motor", "starter": "motor", "armature": "armature", "solenoid": "solenoid", "starter pinion": "clutchgear", "battery": "battery", "relay": "relay", "regulator": "relay", "glow relay": "relay",
	"fuse": "fuses", "box": "box", "fuse box": "fuses", "switch": "switch", "gauge": "dial", "meter": "dial", "tachometer": "dial", "drive": "coupling", "headlamp": "lamp", "lamp": "lamp", "tail": "bulb", "warning lamp": "bulb", "indicator": "bulb", "direction indicator": "bulb", "horn": "horn", "button": "switch", "socket": "socket", "resistor": "resistor", "indicator resistor": "resistor",
	"quadrant": "quadrant", "overrun": "coupling", "feed pipe": "pipe", "banjo bolt": "bolt", "banjo": "banjo", "thermostat housing": "elbow", "banjo washer": "washer", "hold-down": "clamp", "interlock": "pin", "interlock pin": "pin", "stop": "screw", "governor lever": "lever", "adjuster": "screw", "lock pin": "pin", "lock": "washer", "rotor or": "armature",
	"tube": "sleeve", "column tube": "column", "front tube": "tube", "rear tube": "tube", "pick-up": "pipe", "pick-up pipe": "pipe", "throttle rod": "cable", "seal kit": "oring", "o-ring set": "oring", "joint": "balljoint", "link pin": "clevis", "stabiliser": "chain",
	// body
	"tyre": "tyre", "rim": "rim", "wheel rim": "rim", "wheel disc": "wheeldisc", "steering wheel": "steerwheel", "cushion": "cushion", "seat spring": "leafspring", "slide": "slide", "seat slide": "slide", "seat belt": "seatbelt", "bonnet": "bonnet", "panel": "panel", "side panel": "panel", "grille": "grille", "fender": "fender", "foot board": "board", "frame": "frame", "protective frame": "frame",
	"dash": "dash", "dash support": "panel", "bulkhead": "panel", "tool box": "box", "identification plate": "idplate", "decal": "decal", "decal set": "decal", "paint": "can", "paint system": "can", "step": "step", "guard": "guard", "screen": "screen", "debris screen": "screen", "ballast": "drop", "tray": "pan", "battery tray": "pan", "pedal rubber": "mount", "water": "drop",
}

// stops end the naming part of a name: what follows says where or with what.
var stops = []string{",", ";", " with ", " of ", " behind ", " to ", " at ", " for ", " in "}

// bracketed are words in brackets, which say more of the same.
var bracketed = regexp.MustCompile(`\([^)]*\)`)

// joins part what a name offers as either or both.
var joins = strings.NewReplacer("/", "|", " or ", "|", " and ", "|")

// SortOf finds the symbol for a part: by its name, and where no word of it is
// known by what is measured on it, what it is made of and what it weighs.
func SortOf(it Item) string {
	name := bracketed.ReplaceAllString(strings.ToLower(it.Kind), " ")
	if s := fastening(name); s != "" {
		return s
	}
	for _, s := range stops {
		if at := strings.Index(name, s); at > 0 {
			name = name[:at]
		}
	}
	for part := range strings.SplitSeq(joins.Replace(name), "|") {
		if s := lastKnown(strings.Fields(part)); s != "" {
			return s
		}
	}
	return guessed(it)
}

// fastening is the symbol of a name that says what it joins to what: "rim to
// disc bolt".
func fastening(name string) string {
	_, after, found := strings.Cut(name, " to ")
	switch last := after[strings.LastIndexByte(after, ' ')+1:]; {
	case !found:
	case last == "strap":
		return "wire"
	case last == "bolt" || last == "stud" || last == "screw" || last == "pin":
		return words[last]
	}
	return ""
}

// lastKnown is the symbol of the last word known, three words and two before
// one.
func lastKnown(name []string) string {
	for end := len(name); end > 0; end-- {
		for many := min(3, end); many > 0; many-- {
			if s := known(strings.Join(name[end-many:end], " ")); s != "" {
				return s
			}
		}
	}
	return ""
}

// known looks a word up, in the singular too.
func known(word string) string {
	if s, ok := words[word]; ok {
		return s
	}
	return words[strings.TrimSuffix(word, "s")]
}

// guessed is the symbol for a part whose name says nothing.
func guessed(it Item) string {
	material := strings.ToLower(it.Material)
	switch {
	case it.Journals > 0:
		return "shaft"
	case it.Bores > 0 && it.MassKg > 3:
		return "housing"
	case it.Bores > 0:
		return "bush"
	case strings.Contains(material, "paper") || strings.Contains(material, "cork"):
		return "gasket"
	case strings.Contains(material, "rubber") || strings.Contains(material, "nitrile"):
		return "mount"
	case it.MassKg >= 8:
		return "housing"
	}
	return "block-plain"
}
