package closing

import (
	"fmt"

	"matchmark/internal/machine"
	"matchmark/internal/trade/bearing"
	"matchmark/internal/trade/fit"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/spelling"
)

// Heat is a part that goes on tight, with how to get it there.
type Heat struct {
	Check   *machine.Check
	TightMM float64 // interference, with its uncertainty added
	OnMM    float64 // diameter it sits on
	Ring    *machine.Part
	Celsius float64 // 0 where nothing need be heated
	Say     string
	Source  string
}

const room = 20.0 // °C, of a workshop

// heatOf finds the fits between parts of the joint of which both sizes are
// read, and works out how hot the outer part must be to drop on. A part that is
// not tight needs none and is not listed. The expansion is that of the ring's
// metal, of steel where the kit names none.
// Method: fit.Shrink; bearing.Mount.
func (d *Desk) heatOf(j *machine.Joint) []Heat {
	var out []Heat
	for _, c := range d.m.Checks {
		if c.By != machine.ByClearance || c.Outer == nil || c.Inner == nil || !holds(j, c.Outer.Part) || !holds(j, c.Inner.Part) {
			continue
		}
		f := d.finding(c)
		on, ok := meanSize(c.Inner)
		if _, read := meanSize(c.Outer); !read || !ok || f.Read == 0 || !(f.Value < 0) {
			continue
		}
		h := Heat{Check: c, TightMM: -f.Value + f.U, OnMM: on, Ring: c.Outer.Part}
		if plan, err := h.plan(); err == nil {
			h.Celsius, h.Source = plan.Celsius, plan.Ceiling.Source
			h.Say = fmt.Sprintf("%s: tight by %.3f mm on %.2f. %s.", h.Ring.Name, h.TightMM, on, spelling.Head(plan.Advice))
			if !plan.Enough {
				h.Celsius = plan.Ceiling.Celsius
			}
			out = append(out, h)
		}
	}
	return out
}

// plan chooses what the ring stands: a rolling bearing less than a gear.
func (h Heat) plan() (fit.Heating, error) {
	if isBearing(h.Ring) {
		return bearing.Mount{BoreMM: h.OnMM, TightUM: 1000 * h.TightMM, RoomC: room, Sealed: says(h.Ring.Name+h.Ring.Material, "seal")}.Heat()
	}
	ring, shaft := perK(h.Ring.Material), perK(h.Check.Inner.Part.Material)
	return fit.Shrink{Kind: h.kind(), Diameter: h.OnMM, Interference: h.TightMM, Gap: fit.DefaultGap, PerK: ring, ShaftPerK: shaft, Room: room}.Plan()
}

// kind is what a ring that is no bearing stands.
func (h Heat) kind() fit.Heated {
	if says(h.Ring.Name+" "+h.Ring.Material, "hardened", "gear") {
		return fit.HardGear
	}
	return fit.Plain
}

// expands names the metal, of metrology.Materials, that a material as a kit
// writes it grows like; steel where none is named.
func expands(material string) string {
	switch {
	case says(material, "bronze"):
		return "bronze"
	case says(material, "brass"):
		return "brass"
	case weakest(material) == "aluminium":
		return "aluminium"
	case weakest(material) == "cast iron":
		return "cast-iron"
	}
	return "steel"
}

func perK(material string) float64 {
	m, _ := metrology.MaterialByID(expands(material)) // each is listed
	return m.PerK
}

// meanSize is the mean of what was read of a surface in its present version.
func meanSize(ft *machine.Feature) (float64, bool) {
	sum, n := 0.0, 0
	for _, r := range ft.Current() {
		if r.Amount.Unit == "mm" {
			sum, n = sum+r.Amount.Value, n+1
		}
	}
	return sum / float64(max(n, 1)), n > 0
}
