package kit

import (
	"errors"
	"fmt"
	"reflect"
	"strconv"

	"matchmark/internal/machine"
)

// addFamilies declares the families of places of a sheet. One that another
// sheet declared before must come out alike.
func (x *expander) addFamilies(t *taken) error {
	for i, p := range t.sheet.Places {
		path, name := at("places", i), "places "+quote(p.Family)
		fam, ok, err := x.family(t, p, path, 0)
		if err != nil {
			return err
		}
		if !ok || len(fam.Labels) == 0 {
			continue
		}
		old, taken := x.families[p.Family]
		if taken && !reflect.DeepEqual(old, fam) {
			return broken(t, path, name, fmt.Errorf("these places come out as %v here and as %v in another kit; give both the same counts", fam.Labels, old.Labels))
		}
		if !taken {
			x.families[p.Family] = fam
			x.add(aFamily, p.Family, &machine.PlacesSet{Places: fam})
		}
	}
	return nil
}

// family works out the labels of a family. ok is false where it leans on a
// kit that is not taken.
func (x *expander) family(t *taken, p Places, path string, depth int) (fam machine.Places, ok bool, err error) {
	name := "places " + quote(p.Family)
	fam = machine.Places{Family: machine.Family(p.Family), Name: p.Name}
	switch {
	case depth > 8:
		return fam, false, broken(t, path, name, errors.New("families lie under one another too deep, or in a circle"))
	case p.Under != "":
		return x.nested(t, p, fam, path, depth)
	case p.Count != "":
		n, ok, err := x.count(t, path+".count", name, p.Count)
		if err != nil || !ok {
			return fam, false, err
		}
		if n > mostPlaces {
			return fam, false, broken(t, path+".count", name, fmt.Errorf("%d places are too many; at most %d", n, mostPlaces))
		}
		for k := range n {
			fam.Labels = append(fam.Labels, machine.Place(strconv.Itoa(k+1)))
		}
	default:
		for _, l := range p.Labels {
			fam.Labels = append(fam.Labels, machine.Place(l))
		}
	}
	return fam, true, nil
}

// nested works out a family that repeats within each place of another.
func (x *expander) nested(t *taken, p Places, fam machine.Places, path string, depth int) (machine.Places, bool, error) {
	above, ok, err := x.above(t, p.Under, depth)
	if err != nil {
		return fam, false, err
	}
	if !ok {
		x.note(t, "places "+quote(p.Family), "left out: they lie under places %q, whose kit is not taken", p.Under)
		return fam, false, nil
	}
	if len(above.Labels)*len(p.Each) > mostPlaces {
		return fam, false, broken(t, path+".each", "places "+quote(p.Family), fmt.Errorf("more than %d places", mostPlaces))
	}
	fam.Under = machine.Family(p.Under)
	for _, up := range above.Labels {
		for _, each := range p.Each {
			fam.Labels = append(fam.Labels, machine.Place(each)+"-"+up)
			fam.Above = append(fam.Above, up)
		}
	}
	return fam, true, nil
}

// above finds the family above: the sheet's own, or else that of a kit taken.
func (x *expander) above(t *taken, family string, depth int) (machine.Places, bool, error) {
	order := append([]*taken{t}, x.all...)
	for _, o := range order {
		for i, p := range o.sheet.Places {
			if p.Family == family {
				return x.family(o, p, at("places", i), depth+1)
			}
		}
	}
	return machine.Places{}, false, nil
}

// addData declares the data; the first of an id counts, the others must agree.
func (x *expander) addData(t *taken) error {
	for i, d := range t.sheet.Data {
		if x.has(aDatum, d.ID) {
			first := x.index.first[aDatum][d.ID]
			if o := first.sheet.Data[first.at]; o.Unit != d.Unit || !reflect.DeepEqual(o.Value, d.Value) {
				return broken(t, at("datum", i), "datum "+quote(d.ID), fmt.Errorf("kit %q gives it another unit or value", first.sheet.Kit.ID))
			}
			continue
		}
		b := machine.Datum{ID: d.ID, Name: d.Name, Unit: d.Unit, From: machine.Provenance(d.From), Source: d.Source}
		if d.Value != nil {
			v := *d.Value
			b.Value = &v
		}
		x.add(aDatum, d.ID, &machine.DatumSet{Datum: b})
	}
	return nil
}

// addAssemblies declares the assemblies that stand.
func (x *expander) addAssemblies(t *taken) error {
	for i, a := range t.sheet.Assemblies {
		ok, err := x.stands(t, seat{path: at("assembly", i), name: "assembly " + quote(a.ID), only: a.Only})
		if err != nil {
			return err
		}
		if ok {
			x.add(anAssem, a.ID, &machine.AssemblyAdded{ID: machine.AssemblyID(a.ID), Name: a.Name, System: a.System,
				Strip: estimate(a.Strip), Clean: estimate(a.Clean), Measure: estimate(a.Measure), Build: estimate(a.Build)})
		}
	}
	return nil
}

// estimate turns low, likely, high into hours; anything else is none.
func estimate(h []float64) machine.Hours {
	if len(h) != 3 {
		return machine.Hours{}
	}
	return machine.Hours{Low: h[0], Likely: h[1], High: h[2]}
}
