package kit

import "matchmark/internal/machine"

// reckonings are those of an item. An input whose source is not on the machine
// is left out: whoever asks for the answer is told that it is missing.
func (x *expander) reckonings(list []Reckoning) []machine.Reckoning {
	var out []machine.Reckoning
	for _, r := range list {
		one := machine.Reckoning{Topic: r.Topic, Title: r.Title, With: map[string]string{}}
		for key, text := range r.With {
			if x.sourced(text) {
				one.With[key] = text
			}
		}
		out = append(out, one)
	}
	return out
}

// nounOf tells what each source of a reckoning names.
var nounOf = map[string]noun{machine.FromDatum: aDatum, machine.FromFeature: aFeature, machine.FromEach: aFeature, machine.FromCount: aFamily, machine.FromReading: aCheck, machine.FromTight: aCheck,
	machine.FromThread: aJoint, machine.FromGrade: aJoint, machine.FromShims: aJoint, machine.FromPack: aJoint}

// sourced tells whether all that an input names is there.
func (x *expander) sourced(text string) bool {
	for _, p := range machine.Pieces(text) {
		if p.Kind != "" && !x.has(nounOf[p.Kind], p.ID) {
			return false
		}
	}
	return true
}
