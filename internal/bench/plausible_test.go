package bench

// What the walk over the reckonings of the kits enters where nobody knows a
// figure: plausible for a small tractor, so that every sum comes to something.
// They prove nothing about a real machine.

var plausibleFigures = map[string]float64{
	"air-coldest": -12, "air-hottest": 32, "altitude": 250, "barometer": 98.5, "battery-capacity": 60, "battery-cranking": 10.3,
	"battery-full": 40, "battery-loaded": 10.4, "bevel-build-2-backlash": 0.21, "bevel-build-2-pinion": 0.6, "bevel-build-2-preload": 0.02,
	"bevel-build-2-side": 1.2, "bevel-build-3-backlash": 0.11, "bevel-build-3-pinion": 0.5, "bevel-build-3-preload": 0.12,
	"bevel-build-3-side": 1.3, "bevel-module": 4.5, "bevel-pinion-teeth": 9, "bonnet-length": 950, "bonnet-width": 700, "brake-arm": 0.716,
	"brake-deceleration": 2.6, "brake-force-left": 2100, "brake-force-right": 1850, "brake-kw": 9.7, "brake-scale": 240, "brake-speed": 540,
	"brake-trial-speed": 15, "brake-trial-way": 4.5, "bull-centre": 146.2, "bull-module": 4, "bull-pinion-teeth": 12, "bull-teeth": 61,
	"cam-gear-teeth": 48, "chamber-volume": 14.5, "charge-amps": 6, "compression-best": 30, "compression-least": 27, "con-rod-length": 130,
	"coolant-drained": 3, "coolant-fill": 3, "coolant-flow": 40, "coolant-litres": 6, "coolant-rise": 6, "coolant-stays": 1.5,
	"coolant-strength": 30, "coolant-water": 3, "counter-1-teeth": 15, "counter-2-teeth": 21, "counter-3-teeth": 27,
	"counter-drive-teeth": 35, "crank-gear-teeth": 24, "crank-pulley": 130, "crank-throw": 39, "cranking-speed": 220,
	"crankpin-load-idle": 700, "crankpin-load-rated": 3000, "crankpin-width": 20, "crowfoot-offset": 40, "crown-teeth": 40,
	"deck-to-mains": 226, "design-speed": 20, "engine-litres": 1.1, "field-speed": 5, "film-thickest": 70, "film-thinnest": 46,
	"film-usual": 55, "flywheel-rim": 300, "fuel-burnt": 220, "fuel-rate": 0.62, "fuel-time": 300, "gasket-bore": 77.5, "gasket-crushed": 1.2,
	"gear-1-teeth": 37, "gear-2-over-pins": 83.3, "gear-2-teeth": 31, "gear-3-teeth": 25, "gear-base-step": 7.38, "gear-pin": 4.5,
	"gear-span": 22, "gearbox-module": 2.5, "gen-centre": 300, "gen-cut-in": 1100, "gen-pulley": 68, "glow-bus": 0.3, "glow-cold": 0.9,
	"glow-plug-volts": 11, "glow-series": 2, "glow-series-amps": 45, "glow-series-volts": 1.7, "head-stud-engaged": 18, "head-torque": 80,
	"hose-rating": 160, "hp-displacement": 8, "hp-flow-free": 16, "hp-flow-loaded": 13.5, "hp-gear-module": 3, "hp-gear-teeth": 12,
	"hp-gear-width": 18, "hp-pipe-length": 0.4, "hp-speed": 2200, "hp-union-torque": 25, "hyd-found": 120, "hydraulic-relief-pressure": 130,
	"idle-speed": 750, "idler-centre": 61.05, "idler-gear-teeth": 37, "injector-opening-pressure": 130, "injector-trial-pressure": 138,
	"injector-trial-shim": 1.35, "inlet-closes": 40, "input-ball": 9.5, "input-ball-circle": 53.5, "input-bearing-balls": 9,
	"input-bearing-load": 2.2, "input-bearing-rating": 25.5, "input-seat-nominal": 72, "input-teeth": 17, "journal-finish": 0.25,
	"lamp-amps": 9, "lamp-wire-area": 2.5, "lamp-wire-awg": 12, "lash-cap": 2, "lash-height": 270, "leak-cylinder": 5.3, "leak-in": 6,
	"lift-ball-way": 45, "lift-piston-way": 10, "lift-sinks": 4, "lift-wall": 7, "load-test-amps": 200, "lobe-centre-found": 112,
	"lobe-centre-wanted": 110, "main-bearing-width": 22, "main-bolt-grown": 0.03, "main-bolt-shortest": 75, "main-load-idle": 600,
	"main-load-rated": 2600, "mesh-1-centre": 65.1, "oil-kv100": 14, "oil-kv40": 105, "paint-area": 6, "paint-dry": 50, "paint-hardener": 2,
	"paint-since": 10, "paint-solids": 48, "paint-total": 0.66, "park-slope": 18, "piston-clearance-wanted": 0.07, "piston-crown": 57,
	"piston-heaviest": 412, "piston-lightest": 408, "pto-drive-teeth": 17, "pto-driven-teeth": 72, "pto-read": 552, "pull": 4500,
	"pushrod-length": 190, "radiator-cap-pressure": 0.9, "range-low-drive-teeth": 16, "range-low-driven-teeth": 36, "rated-speed": 2600,
	"ring-gap-at-bottom": 0.3, "ring-gap-at-top": 0.48, "ring-gear-module": 2.5, "ring-gear-teeth": 110, "rod-bolt-free": 8,
	"rod-bolt-grown": 0.02, "rod-bolt-shank": 24, "rod-bolt-shortest": 48, "rod-over-stroke": 1.67, "rolled-turns": 5, "rolled-way": 17,
	"rolling-radius": 540, "shell-finish": 0.5, "shop-air": 18, "shop-humidity": 65, "small-end-length": 24, "small-end-outside": 34,
	"small-end-seat": 26, "small-end-tight": 0.05, "spill-length-1": 45, "spill-length-2": 46, "spill-length-3": 45.5, "spill-target": 18,
	"spill-trial-angle": 17, "spill-trial-pack": 0.4, "spring-active": 6, "spring-coils": 8, "spring-fitted-length": 35,
	"spring-free-length": 42, "spring-outside": 27, "spring-wire": 3.5, "starter-amps": 280, "starter-lead": 1.2, "starter-lead-area": 35,
	"starter-pinion-teeth": 9, "starter-speed": 2500, "steel-cold": 17, "stop-first": -31.5, "stop-second": 30.5, "stroke": 78,
	"sump-floor-length": 300, "sump-floor-width": 160, "sump-height": 140, "sump-litres": 4.5, "sump-rim-length": 340, "sump-rim-width": 200,
	"test-air": 24, "test-humidity": 60, "thrust-washer-in": 2.4, "thrust-washer-new": 2.45, "timing-gear-module": 2, "tractor-mass": 900,
	"valve-falls-high": 228, "valve-falls-low": 238, "valve-length": 100, "valve-rises-high": -12, "valve-rises-low": -22, "way-free": 34,
	"way-loaded": 31.5, "wrench-length": 400,
}

// sizes in mm, by surface; those of one seat lie tight in one another.
var plausibleSizes = map[string]float64{
	"axle-brg-out/bore": 45.000, "axle-shaft/bearing-seat": 45.015, "crankshaft/crankpin": 42.97, "crankshaft/main-journal": 49.97,
	"flywheel/ring-seat": 265.00, "ring-gear/bore": 264.72, "gb-input-brg/outside": 71.995, "gb-input/seat": 35.010, "gb-main-brg/bore": 35.000,
	"gb-main-brg/outside": 71.995, "gb-main/seat": 35.012, "lift-cyl/bore": 75.02, "liner/bore": 76.01, "piston/skirt": 75.93,
	"small-end-bush/bore": 23.01, "spindle/inner-seat": 30.00,
}

// sizes that surfaces were made to.
var plausibleNominals = map[string]float64{"axle-shaft/bearing-seat": 45, "gb-input-brg/outside": 72, "gb-input/seat": 35, "spindle/inner-seat": 30}

// figures of checks that are read directly, as typed.
var plausibleReadings = map[string]string{
	"axle-float": "0.30", "batt-ocv": "12.5", "bevel-backlash": "0.18", "bigend-clear": "0.05", "cap-press": "0.9", "charge-volt": "14.0",
	"comp-volume": "22", "comp-volume-direct": "18", "crank-float": "0.20", "crank-volt": "9.8", "drop-earth": "0.15", "drop-plus": "0.25",
	"inj-pressure": "118", "lash": "0.32", "main-clear": "0.06", "pump-spill": "15", "shaft-float-input": "0.14", "side-preload": "0.02",
	"squish": "0.82", "piston-prot": "0.35",
}

// shims as they came out, mm and pieces.
var plausibleShims = map[string][][2]float64{
	"axle-shim-fit": {{0.1, 3}, {0.2, 2}, {0.5, 1}}, "diff-shim-fit": {{0.1, 2}, {0.5, 2}}, "inj-spring-fit": {{1.15, 1}},
	"ip-timing-shim": {{0.2, 3}}, "pinion-shim-fit": {{0.1, 2}, {0.3, 1}}, "retainer-case": {{0.05, 2}, {0.1, 4}},
}

// bolts as they came out.
var plausibleBolts = map[string]string{
	"clutch-cover-flywheel": "M8x25", "head-block": "M10x1.25x90", "lift-cover-fit": "M12x60", "main-cap-block": "M12x1.25x75", "rod-cap-bolt": "M9x1x48",
}
