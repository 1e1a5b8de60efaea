package kit

import "strconv"

// noun is the sort of thing an id names; each noun has ids of its own.
type noun string

const (
	aKit      noun = "kit"
	aCount    noun = "count"
	aChoice   noun = "choice"
	aFamily   noun = "places"
	aDatum    noun = "datum"
	anAssem   noun = "assembly"
	aPart     noun = "part"
	aFeature  noun = "feature"
	aJoint    noun = "joint"
	aCheck    noun = "check"
	aTest     noun = "test"
	aCleaning noun = "cleaning"
	aSymptom  noun = "symptom"
)

// item is one thing of a sheet: where it stands and how faults name it.
type item struct {
	sheet *Sheet
	noun  noun
	id    string
	path  string // in Lines
	name  string // `check "bore-wear"`
	at    int    // index in the sheet's list
	up    int    // of a feature: index of its part
}

// index knows where each id is declared first, and the later declarations.
type index struct {
	first map[noun]map[string]item
	again []item
}

// newIndex lists every id of the sheets, in the order of the files.
func newIndex(sheets []*Sheet) *index {
	x := &index{first: map[noun]map[string]item{}}
	for _, s := range sheets {
		for _, it := range items(s) {
			if x.first[it.noun] == nil {
				x.first[it.noun] = map[string]item{}
			}
			if _, taken := x.first[it.noun][it.key()]; taken {
				x.again = append(x.again, it)
				continue
			}
			x.first[it.noun][it.key()] = it
		}
	}
	return x
}

// key is the id; counts and choices belong to their kit, so that two kits may
// each ask for cylinders.
func (it item) key() string {
	if it.noun == aCount || it.noun == aChoice {
		return it.sheet.Kit.ID + "/" + it.id
	}
	return it.id
}

// items lists everything of a sheet that has an id.
func items(s *Sheet) []item {
	out := []item{{s, aKit, s.Kit.ID, "kit", "kit " + quote(s.Kit.ID), 0, 0}}
	add := func(kind noun, i int, id string) {
		out = append(out, item{s, kind, id, string(kind) + "." + strconv.Itoa(i), string(kind) + " " + quote(id), i, 0})
	}
	for i, v := range s.Counts {
		add(aCount, i, v.ID)
	}
	for i, v := range s.Choices {
		add(aChoice, i, v.ID)
	}
	for i, v := range s.Places {
		add(aFamily, i, v.Family)
	}
	for i, v := range s.Data {
		add(aDatum, i, v.ID)
	}
	for i, v := range s.Assemblies {
		add(anAssem, i, v.ID)
	}
	for i, v := range s.Parts {
		add(aPart, i, v.ID)
		for k, f := range v.Features {
			id := v.ID + "/" + f.ID
			out = append(out, item{s, aFeature, id, "part." + strconv.Itoa(i) + ".feature." + strconv.Itoa(k), "feature " + quote(id), k, i})
		}
	}
	for i, v := range s.Joints {
		add(aJoint, i, v.ID)
	}
	for i, v := range s.Checks {
		add(aCheck, i, v.ID)
	}
	for i, v := range s.Tests {
		add(aTest, i, v.ID)
	}
	for i, v := range s.Cleaning {
		add(aCleaning, i, v.ID)
	}
	for i, v := range s.Symptoms {
		add(aSymptom, i, v.ID)
	}
	return out
}
