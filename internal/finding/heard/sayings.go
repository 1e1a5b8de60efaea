package heard

import "strings"

// saying is another name of the trade for a thing of the kits. Common practice,
// no source: workshop English of both sides of the ocean.
type saying struct{ says, means string }

// sayings are tried on every run of words; what they mean stands beside the
// words themselves, and neither hides the other.
var sayings = []saying{
	{"front cover", "timing cover"}, {"timing case", "timing cover"}, {"timing chest", "timing cover"}, {"rear plate", "engine rear plate"}, {"back plate", "backplate rear plate"},
	{"tappet cover", "rocker cover"}, {"valve cover", "rocker cover"}, {"rocker box", "rocker cover"}, {"cam box", "rocker cover"},
	{"cylinder head", "head"}, {"oil pan", "sump"}, {"pan", "sump"}, {"crankcase pan", "sump"}, {"front pulley", "crank pulley"}, {"bottom pulley", "crank pulley"},
	{"crank", "crankshaft"}, {"cam", "camshaft"}, {"con rod", "rod connecting"}, {"conrod", "rod connecting"}, {"conrods", "rod connecting"}, {"connecting rod", "rod"}, {"connector rod", "rod"},
	{"big end", "rod cap big end"}, {"big end cap", "rod cap"}, {"bigend", "rod cap big end"}, {"big ends", "rod cap big end"}, {"wrist pin", "gudgeon pin"}, {"gudgeon", "gudgeon pin"},
	{"small end", "small end"}, {"keepers", "collets"}, {"keeper", "collet"}, {"cotters", "collets"}, {"follower", "tappet"}, {"followers", "tappets"}, {"cam follower", "tappet"}, {"lifter", "tappet"}, {"lifters", "tappet"},
	{"rocker gear", "rocker shaft head"}, {"rocker assembly", "rocker shaft head"}, {"rockers", "rocker shaft"}, {"head bolts", "head block"}, {"head nuts", "head block"}, {"head studs", "head studs"},
	{"welch plug", "core plug"}, {"welch plugs", "core plug"}, {"frost plug", "core plug"}, {"freeze plug", "core plug"}, {"pump drive gear", "pump gear"}, {"starter ring", "ring gear"},
	{"pilot bearing", "spigot bearing"}, {"pilot bush", "spigot bearing"}, {"throwout bearing", "release bearing"}, {"throw out bearing", "release bearing"}, {"thrust bearing", "release bearing thrust"},
	{"pressure plate", "clutch cover pressure"}, {"friction plate", "clutch plate"}, {"clutch disc", "clutch plate"}, {"driven plate", "clutch plate"}, {"clutch fork", "release fork"}, {"clutch housing", "bell housing"}, {"bell", "bell housing"},
	{"exhaust box", "silencer"}, {"muffler", "silencer"}, {"down pipe", "exhaust pipe"}, {"downpipe", "exhaust pipe"}, {"stack", "exhaust pipe"}, {"tail pipe", "exhaust pipe"}, {"rain cap", "rain flap"},
	{"intake manifold", "inlet manifold"}, {"induction manifold", "inlet manifold"}, {"intake", "inlet intake"}, {"air filter", "air cleaner"}, {"oil bath", "oil bowl"}, {"air pipe", "intake hose"}, {"air hose", "intake hose"},
	{"injection pump", "injection pump"}, {"diesel pump", "injection pump"}, {"fuel injection pump", "injection pump"}, {"fip", "injection pump"}, {"injector pump", "injection pump"}, {"feed pump", "lift pump"}, {"fuel pump", "lift pump fuel injection pump"},
	{"injector pipe", "high pressure pipe"}, {"injector line", "high pressure pipe"}, {"hp pipe", "high pressure pipe"}, {"hp pipes", "high pressure pipe"}, {"high pressure line", "high pressure pipe"}, {"spill rail", "leak off rail"}, {"spill pipe", "leak off rail"}, {"return rail", "leak off rail"}, {"leakoff", "leak off"}, {"backleak", "leak off rail"}, {"back leak", "leak off rail"},
	{"fuel cock", "fuel tap"}, {"petcock", "fuel tap"}, {"sediment bowl", "fuel filter bowl"}, {"heater plug", "glow plug"}, {"heater plugs", "glow plug"}, {"glowplug", "glow plug"}, {"glowplugs", "glow plug"}, {"nozzles", "nozzle"},
	{"rad", "radiator"}, {"radiator hose", "hose"}, {"stat", "thermostat"}, {"stat housing", "thermostat housing"}, {"water neck", "thermostat housing"}, {"cowl", "shroud"}, {"cowling", "shroud"}, {"temp sensor", "temperature sender"}, {"temp sender", "temperature sender"}, {"temp", "temperature"}, {"coolant pump", "water pump"}, {"vee belt", "fan belt"}, {"v belt", "fan belt"}, {"drive belt", "fan belt"},
	{"dynamo", "charging machine dynamo"}, {"alternator", "charging machine"}, {"generator", "charging machine"}, {"gennie", "charging machine"}, {"starter motor", "starter"}, {"self starter", "starter"}, {"earth cable", "earth lead"}, {"ground cable", "earth lead"}, {"ground strap", "earth strap"}, {"live cable", "live lead"}, {"positive", "live"}, {"negative", "earth"}, {"positive lead", "live lead"}, {"negative lead", "earth lead"}, {"harness", "loom"}, {"wiring", "loom"}, {"voltage regulator", "regulator"}, {"headlights", "lighting"}, {"headlight", "lighting"}, {"lights", "lighting"},
	{"bulk head", "bulkhead"}, {"hood", "bonnet"}, {"mudguard", "fender"}, {"mudguards", "fender"}, {"wing", "fender"}, {"roll bar", "protective frame"}, {"rops", "protective frame"}, {"roll frame", "protective frame"}, {"tinwork", "side panel"}, {"side sheet", "side panel"}, {"floor board", "foot board"}, {"floorboard", "foot board"}, {"foot plate", "foot board"}, {"footplate", "foot board"}, {"footboard", "foot board"}, {"dashboard", "dash"}, {"instrument panel", "dash"}, {"id plate", "identification plate"}, {"serial plate", "identification plate"}, {"name plate", "identification plate"}, {"toolbox", "tool box"}, {"nose cone", "grille"}, {"weight", "front weight"},
	{"transmission", "gearbox"}, {"gear box", "gearbox"}, {"gearstick", "gear lever"}, {"gear stick", "gear lever"}, {"shifter", "gear lever"}, {"gear knob", "gear lever"}, {"lay shaft", "countershaft"}, {"layshaft", "countershaft"}, {"main shaft", "mainshaft"}, {"gaiter", "boots"}, {"gearbox lid", "gearbox top cover"}, {"lid", "cover"}, {"top lid", "top cover"}, {"selector fork", "fork"}, {"selector rail", "rail"}, {"selector shaft", "rail"}, {"selector", "fork rail"}, {"shift fork", "fork"}, {"synchro cone", "synchro ring"}, {"baulk ring", "synchro ring"}, {"high low lever", "range lever"}, {"high low", "range"}, {"hi lo", "range"}, {"first speed", "first gear"}, {"bottom gear", "first gear"}, {"snap ring", "circlip"},
	{"pto", "power take"}, {"p.t.o", "power take"}, {"diff", "differential"}, {"diff lock", "differential lock"}, {"difflock", "differential lock"}, {"cwp", "crown wheel pinion"}, {"planet gears", "differential pinions"}, {"sun gears", "side gears"}, {"stub shaft", "stub shaft"}, {"final drive", "half shaft bull gear"}, {"trumpet", "axle housing"}, {"trumpet housing", "axle housing"}, {"axle tube", "axle housing"}, {"back axle", "rear axle"}, {"back end", "rear axle"}, {"axle oil seal", "axle seal"}, {"oil seal", "seal"}, {"wheel nuts", "wheel"}, {"back wheel", "rear wheel"}, {"tire", "tyre"}, {"tires", "tyre"}, {"inner tube", "tyre tube"}, {"wheel centre", "disc"},
	{"hydraulic arm", "lift arm"}, {"lift top", "lift cover"}, {"hydraulic top cover", "lift cover"}, {"top cover hydraulic", "lift cover"}, {"ram", "lift piston"}, {"cross shaft", "rock shaft cross shaft"}, {"stabiliser", "check chain"}, {"sway chain", "check chain"}, {"stabilizer", "check chain"}, {"link arm", "lower link"}, {"linkage arm", "lower link"}, {"draft arm", "lower link"}, {"third link", "top link"}, {"hitch", "drawbar"}, {"tow bar", "drawbar"}, {"hyd", "hydraulic"}, {"hyds", "hydraulic"}, {"leveling box", "levelling box"}, {"spool valve", "control valve"},
	{"tie rod", "track rod"}, {"tie rod end", "track rod end"}, {"ball joint", "rod end link"}, {"pitman arm", "drop arm"}, {"steering column", "column"}, {"bolster", "front support"}, {"front bracket", "front support"}, {"pivot pin", "axle pivot"}, {"centre pin", "axle pivot"}, {"center pin", "axle pivot"}, {"beam", "front axle"}, {"swivel pin", "king pin"}, {"kingpin", "king pin"}, {"spindle", "stub axle"}, {"dust cap", "hub cap"}, {"grease cap", "hub cap"}, {"wheel bearing", "hub bearing"}, {"hand brake", "parking"}, {"handbrake", "parking"}, {"parking brake", "parking"}, {"brake backplate", "brake cover"}, {"brake plate", "brake cover"}, {"brake housing", "brake cover"}, {"pull rod", "rod"}, {"brake linkage", "brake rod"},
	{"brg", "bearing"}, {"brgs", "bearing"}, {"assy", ""}, {"hsg", "housing"}, {"gskt", "gasket"}, {"o ring", "rings ring"}, {"oring", "ring"}, {"pipe", "pipe"}, {"line", "pipe"}, {"lines", "pipe"}, {"cable", "cable lead"}, {"casing", "case"}, {"rear end", "rear axle"}, {"pedals", "pedal"},
	// what a telephone hears
	{"axel", "axle"}, {"axles", "axle"}, {"break", "brake"}, {"breaks", "brake"}, {"peddle", "pedal"}, {"gage", "gauge"}, {"some", "sump"}, {"some plug", "sump plug"}, {"sum plug", "sump plug"}, {"sunk plug", "sump plug"}, {"wheal", "wheel"}, {"idle gear", "idler gear"}, {"tired", "tyre"}, {"rocket", "rocker"}, {"rocket cover", "rocker cover"}, {"timeing", "timing"}, {"clutched", "clutch"}, {"hows", "hose"}, {"steel pipe", "pipe"}, {"diff case", "differential case"}, {"stirring", "steering"}, {"boss", "hub"}, {"main fold", "manifold"}, {"main folds", "manifold"}, {"man fold", "manifold"}, {"many fold", "manifold"}, {"radiated", "radiator"}, {"cooler", "radiator"}, {"pushed rod", "pushrod"}, {"pushed rods", "pushrod"}, {"shell", "shells"}, {"called it", "collet"}, {"gudgeons", "gudgeon pin"},
}

// filler are words that say nothing more once a removal is recorded.
var filler = setOf(`the a an and with of off out came come comes coming took take taking taken removed remove removing is was were are be been it its in on
	at to from for all had has have put into now just then that this these those i we he my our there here also by so as up down over one's them they
	got get getting undone undid undo unbolted unscrewed pulled pull pulling lifted lift's drew drawn away apart loose dropped fell each both total pack
	about around roughly approx ok okay right-o done side end hand ones used uses holding held hold holds fixing fixings fixed bolts-only photo picture pic per
	no number nr num mm thick size sizes head's plus another more only still quite very bit`)

// condition are words for how a thing was found; none is a slip for a name.
var condition = setOf(`worn scored torn wiped cracked rusted rusty leaking leaked stuck tight stiff dry wet clean dirty damaged pitted split perished hard
	soft burnt seized scratched polished blue corroded frozen loose fine good bad ok teeth like full half empty`)

func setOf(text string) map[string]bool {
	out := map[string]bool{}
	for w := range strings.FieldsSeq(text) {
		out[w] = true
	}
	return out
}

func isFiller(text string) bool { return filler[text] }

// joining are the words of names that name nothing.
var joining = setOf("to in on of and or with the at its for from a by off out take")
