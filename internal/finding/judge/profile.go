package judge

import (
	"fmt"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
)

// profileWords names how the sizes run from one level to the next: a cone, a
// barrel, a bell mouth. Empty where it cannot be told.
func profileWords(ft *machine.Feature, list []*spot, u float64) string {
	sizes := make([]float64, len(list))
	for i, sp := range list {
		sizes[i] = sp.est.Value
	}
	profile, end, err := metrology.NameProfile(sizes, u)
	if err != nil {
		return ""
	}
	bore := ft.Sort == machine.Bore
	switch profile {
	case metrology.Cone:
		return "; a cone, larger at " + orOnly(machine.Point{Level: list[end].point.Level})
	case metrology.Barrel:
		return "; a barrel, larger in the middle"
	case metrology.Waist:
		return choose(bore, "; bell-mouthed at both ends", "; waisted, smaller in the middle")
	case metrology.Mouth:
		other := sizes[len(sizes)-1-end]
		larger := choose(bore, "; bell-mouthed at ", "; thick only at ")
		return choose(sizes[end] > other, larger, choose(bore, "; narrow only at ", "; thin only at ")) + orOnly(machine.Point{Level: list[end].point.Level})
	}
	return "; straight within its uncertainty"
}

// sizeLine is the working of a surface's sizes: smallest, largest and mean.
func sizeLine(surf surface) string {
	mean, ok := meanSize(surf.spots)
	if !ok || len(surf.spots) < 2 {
		return ""
	}
	low, high := smallest(surf.spots), largest(surf.spots)
	d := decimals(surf.step, high.est.U)
	return fmt.Sprintf("sizes %s to %s mm, mean %s mm", figure(low.est.Value, d), figure(high.est.Value, d), figure(mean, d))
}
