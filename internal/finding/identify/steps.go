package identify

import "slices"

// steps gives the median step between neighbouring different values and the
// extent from the least to the greatest. One value alone has a step of a
// twentieth of itself, at least 0.1, and no extent. It reorders its argument.
func steps(values []float64) (step, extent float64) {
	if len(values) == 0 {
		return 1, 1
	}
	slices.Sort(values)
	extent = values[len(values)-1] - values[0]
	kept := values[:1]
	for _, v := range values[1:] {
		if v-kept[len(kept)-1] > 1e-6 {
			kept = append(kept, v)
		}
	}
	if len(kept) == 1 {
		return max(0.1, kept[0]/20), 0
	}
	for i := 0; i+1 < len(kept); i++ {
		kept[i] = kept[i+1] - kept[i]
	}
	gaps := kept[:len(kept)-1]
	slices.Sort(gaps)
	return gaps[len(gaps)/2], extent
}
