package kit

import "matchmark/internal/machine"

// reckonings are those of an item. An input whose source is not on the machine
// is left out: whoever asks for the answer is told that it is missing.
func (x *expander) reckonings(t *taken, path, name string, list []Reckoning) ([]machine.Reckoning, error) {
	var out []machine.Reckoning
	for i, r := range list {
		ok, err := x.stands(t, seat{path: path + "." + at("reckon", i), name: name + ", reckoning " + r.Topic, only: r.Only})
		if err != nil {
			return nil, err
		}
		if !ok {
			continue
		}
		one := machine.Reckoning{Topic: r.Topic, Title: r.Title, With: map[string]string{}}
		for key, text := range r.With {
			if x.sourced(text) {
				one.With[key] = text
			}
		}
		out = append(out, one)
	}
	return out, nil
}

// nounOf tells what each source of a reckoning names.
var nounOf = map[string]noun{machine.FromDatum: aDatum, machine.FromFeature: aFeature, machine.FromMade: aFeature, machine.FromEach: aFeature, machine.FromCount: aFamily, machine.FromReading: aCheck, machine.FromRepeats: aCheck, machine.FromTight: aCheck, machine.FromEvery: aCheck, machine.FromLess: aCheck,
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
