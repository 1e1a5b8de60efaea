package kit

import (
	"slices"

	"matchmark/internal/machine"
)

// JointSorts lists the kinds of joint a kit may name.
func JointSorts() []string {
	return []string{"bolted", "clamped", "threaded", "press", "slip", "splined", "keyed", "pinned", "circlip",
		"riveted", "soldered", "bonded", "staked", "mesh", "plain bearing", "rolling bearing", "seal", "gasket",
		"hose", "pipe", "cable", "wire", "linkage", "adjusted", "spring-loaded"}
}

// standsAlone tells the sorts of joint that may hold one part only: what is
// screwed, set or run by itself.
func standsAlone(sort string) bool {
	return slices.Contains([]string{"adjusted", "threaded", "hose", "pipe", "cable", "wire", "linkage", "spring-loaded"}, sort)
}

// FeatureSorts lists the kinds of measurable surface.
func FeatureSorts() []string {
	return []string{machine.Bore, machine.Shaft, machine.Length, machine.Face}
}

// Whens lists when a check can be made.
func Whens() []string { return []string{machine.Apart, machine.Made, machine.Running} }

// Bys lists how a check gets its value.
func Bys() []string {
	return []string{machine.ByReading, machine.ByClearance, machine.BySize, machine.ByOval, machine.ByTaper,
		machine.ByWear, machine.ByStack, machine.ByEye, machine.ByPassage}
}

// Wheres lists where a remedy is carried out.
func Wheres() []string { return []string{"bench", "machine shop", "buy", "pump shop"} }

// provenances are the words for where a limit comes from.
func provenances() []string {
	var out []string
	for _, p := range machine.Provenances() {
		out = append(out, string(p))
	}
	return out
}
