package cleaning

import (
	"slices"
	"strings"
)

// danger is what to mind where the name of a method or material has a word.
type danger struct {
	words []string
	text  string
}

// dangers is common practice, no source, but for the air, which is 29 CFR
// 1910.242(b).
var dangers = []danger{
	{[]string{"caustic", "alkaline"}, "Alkali blinds and burns deep before it hurts: goggles, gloves, apron, water at hand. Put it into water, never water onto it."},
	{[]string{"acid"}, "Acid burns: goggles and gloves. Put acid into water, never the other way; never together with bleach."},
	{[]string{"solvent", "petrol", "paraffin", "diesel", "isopropanol", "brake cleaner", "carbon remover"}, "Vapour burns and dazes: open air, no flame, spark or heater, gloves. Oily rags in a closed metal bin."},
	{[]string{"petrol"}, "Petrol vapour creeps along the floor to the nearest flame: it is no wash."},
	{[]string{"diesel"}, "Never put a hand to fuel under pressure: a jet goes through the skin."},
	{[]string{"chlorinated", "brake cleaner"}, "A solvent with chlorine turns to poison gas under a torch: let it dry fully before any heat."},
	{[]string{"paint stripper"}, "Stripper burns skin and its vapour dazes: open air, gloves, goggles. Old paint may hold lead."},
	{[]string{"ammonia"}, "Ammonia chokes; with bleach it makes poison gas."},
	{[]string{"wire wheel", "hand wire brush", "abrasive", "grinding"}, "Wires and splinters fly: face shield, no loose sleeves or gloves near a wheel. Old paint dust may hold lead: mask."},
	{[]string{"blast"}, "Closed cabinet or air-fed mask. Never sand: its dust harms lungs for good."},
	{[]string{"ultrasonic"}, "Hands out of the bath while it runs; no burning liquid in it."},
	{[]string{"electrolysis"}, "It gives hydrogen: open air, no spark. No stainless steel in the bath: it gives poisonous chromium."},
	{[]string{"hot", "steam", "oven", "heat"}, "It scalds or burns: gloves and face shield. Nothing wet with solvent goes near heat."},
	{[]string{"compressed air", "pressure over"}, "Air under 2.1 bar and with goggles; never at skin, never into a rolling bearing."},
	{[]string{"fuel tank", "chain and gravel"}, "A tank that has held fuel explodes; rinsing does not make it safe. No heat, weld or spark; leave it to somebody who can prove it free of gas."},
	{[]string{"lining"}, "Old linings may hold asbestos: wet wipe only, no brush, no air, P3 mask, double bag; the law of the place."},
	{[]string{"magnesium"}, "Chips and dust of magnesium burn, and water feeds the fire: dry sand or a class D extinguisher."},
}

// Cautions says what to mind when a method is used on a material, the sheet of
// the product first. Method may be empty: then what the material itself asks for.
func Cautions(material, method string) []string {
	out := []string{"The safety data sheet of the product in hand goes before all that is said here."}
	for _, d := range dangers {
		if slices.ContainsFunc(d.words, func(w string) bool { return has(method, w) || has(material, w) }) {
			out = append(out, d.text)
		}
	}
	return out
}

// has tells whether a name holds a word or words as whole ones, and is not about
// going without them.
func has(name, words string) bool {
	in := " " + plain(name) + " "
	return strings.Contains(in, " "+words+" ") && !strings.Contains(in, " without "+words+" ")
}
