package machine

import "slices"

// The conditions a survey knows: what the eye says of an assembly before
// anything comes apart.
const (
	LooksSound = "looks sound"
	LooksWorn  = "worn"
	Seized     = "seized"
	Broken     = "broken"
	Incomplete = "pieces missing"
	NotHere    = "not there at all"
)

// Conditions lists them, best first.
func Conditions() []string {
	return []string{LooksSound, LooksWorn, Seized, Broken, Incomplete, NotHere}
}

// Surveyed is the eye's word on an assembly before it comes apart; the latest
// one speaks. It is no check: no joint is freed by it.
type Surveyed struct {
	Assembly  AssemblyID `json:"assembly"`
	Condition string     `json:"condition"` // one of Conditions
	Words     string     `json:"words,omitempty"`
}

// SurveyRecord is a word on an assembly, with who and when.
type SurveyRecord struct {
	Stamp
	Surveyed
}

// Sides are what a machine is photographed from before it is stripped.
func Sides() []string {
	return []string{"front", "left", "rear", "right", "above", "plate"}
}

// RefSide points at one of Sides.
func RefSide(side string) Ref { return Ref("side:" + side) }

// surveyed keeps the eye's word, or asks which assembly is meant.
func (f *folder) surveyed(e Entry, b *Surveyed) bool {
	if !slices.ContainsFunc(f.m.Assemblies, func(a Assembly) bool { return a.ID == b.Assembly }) {
		f.ask(e, "", "assembly %q is not on the machine. Choose the assembly that is meant", b.Assembly)
		return false
	}
	said := SurveyRecord{stamp(e), *b}
	if i := slices.IndexFunc(f.m.Surveys, func(s SurveyRecord) bool { return s.Assembly == b.Assembly }); i >= 0 {
		f.m.Surveys[i] = said
		return true
	}
	f.m.Surveys = append(f.m.Surveys, said)
	return true
}

// Survey is the latest word on how an assembly looked, nil where there is none.
func (m *Machine) Survey(id AssemblyID) *SurveyRecord {
	for i := range m.Surveys {
		if m.Surveys[i].Assembly == id {
			return &m.Surveys[i]
		}
	}
	return nil
}
