package hydraulic

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Displacement of a gear pump, cm³ a turn, with what a first-order formula
// may be off by.
type Displacement struct{ CM3, Low, High float64 }

// firstOrder is how far a displacement from gear dimensions may be off.
const firstOrder = 0.10

// GearPump is the displacement of a pump of two equal spur gears from module
// (mm), teeth and face width (mm): 2π·m²·z·b, within about 10 %. Textbook,
// first order; profile shift is not seen. Errors: RangeError.
func GearPump(module float64, teeth int, width float64) (Displacement, error) {
	if err := metrology.Positives("module, mm", module, "face width, mm", width); err != nil {
		return Displacement{}, err
	}
	if err := metrology.Within("teeth of a gear", float64(teeth), 6, 30, "6 to 30, as gear pumps have"); err != nil {
		return Displacement{}, err
	}
	return displacement(2 * math.Pi * module * module * float64(teeth) * width / 1000), nil
}

// GearPumpByTip is the displacement from what a calliper reads: tip diameter,
// distance of the shafts, face width and module, all mm:
// 2π·b·(r_a² − r_w² − (π·m·cos 20°)²/12). It sees profile shift. Textbook,
// for a contact ratio of 1. Errors: RangeError, also for gears that would not
// meet.
func GearPumpByTip(tip, centre, width, module float64) (Displacement, error) {
	if err := metrology.Positives("tip diameter, mm", tip, "distance of the shafts, mm", centre, "face width, mm", width, "module, mm", module); err != nil {
		return Displacement{}, err
	}
	if err := metrology.Within("distance of the shafts, mm", centre, tip/2, tip, "between half the tip diameter and all of it, where gears mesh"); err != nil {
		return Displacement{}, err
	}
	pitch := math.Pi * module * math.Cos(20*math.Pi/180)
	area := tip*tip/4 - centre*centre/4 - pitch*pitch/12
	if err := metrology.Positive("swept area of a tooth space, mm²", area); err != nil {
		return Displacement{}, err
	}
	return displacement(2 * math.Pi * width * area / 1000), nil
}

func displacement(cm3 float64) Displacement {
	return Displacement{CM3: cm3, Low: cm3 * (1 - firstOrder), High: cm3 * (1 + firstOrder)}
}

func efficiency(field string, eta float64) error {
	return metrology.Within(field, eta, 0.1, 1, "0.1 to 1")
}

// Flow is what a pump delivers, L/min: V·n·η/1000. Errors: RangeError.
func Flow(cm3, rpm, volumetric float64) (float64, error) {
	if err := metrology.Positives("displacement, cm³", cm3, "pump speed, rpm", rpm); err != nil {
		return 0, err
	}
	return metrology.Unless(efficiency("volumetric efficiency", volumetric), cm3*rpm*volumetric/1000)
}

// Power is what a pump takes at its shaft, kW: p·Q/600/η; with η = 1 what is
// in the oil. Errors: RangeError.
func Power(bar, flow, eta float64) (float64, error) {
	if err := metrology.Positives("pressure, bar", bar, "flow, L/min", flow); err != nil {
		return 0, err
	}
	if err := efficiency("efficiency", eta); err != nil {
		return 0, err
	}
	return bar * flow / 600 / eta, nil
}

// Torque is what turns a pump, N·m: V·p/(20π)/η. Errors: RangeError.
func Torque(cm3, bar, eta float64) (float64, error) {
	if err := metrology.Positives("displacement, cm³", cm3, "pressure, bar", bar); err != nil {
		return 0, err
	}
	if err := efficiency("hydromechanical efficiency", eta); err != nil {
		return 0, err
	}
	return cm3 * bar / (20 * math.Pi) / eta, nil
}

// Volumetric is the volumetric efficiency from the flow without and under
// load at one speed. Errors: RangeError, also for a flow that grows under
// load.
func Volumetric(noLoad, loaded float64) (float64, error) {
	if err := metrology.Positive("flow without load, L/min", noLoad); err != nil {
		return 0, err
	}
	if err := metrology.Within("flow under load, L/min", loaded, 0, noLoad, "no more than without load"); err != nil {
		return 0, err
	}
	return loaded / noLoad, nil
}
