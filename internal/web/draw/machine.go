package draw

import (
	"strings"

	"matchmark/internal/machine"
)

// From is a machine as the drawing sees it: every part with its number, its
// place among its like, and its state as the caller words it.
func From(m *machine.Machine, state func(*machine.Part) string) Machine {
	out := Machine{Cylinders: cylinders(m)}
	for i, p := range m.Parts {
		it := Item{ID: string(p.ID), Type: string(p.Type), Number: i + 1, Name: p.Name, Kind: p.Name, Sheet: string(p.Assembly),
			Material: p.Material, Qty: p.Qty, MassKg: p.MassKg, Teeth: teethOf(m, p), State: state(p)}
		if p.Place != "" {
			it.Place = strings.NewReplacer("-", " ").Replace(string(p.Place))
			it.Kind, it.Family = withoutPlace(p)
		}
		for _, ft := range p.Features {
			switch ft.Sort {
			case machine.Bore:
				it.Bores++
			case machine.Shaft:
				it.Journals++
			}
		}
		for _, j := range p.Joints {
			for _, q := range j.Parts {
				if q != p {
					it.Meets = append(it.Meets, string(q.Type))
				}
			}
		}
		out.Items = append(out.Items, it)
	}
	return out
}

// withoutPlace parts a name at its place: "Liner, cylinder 2" is a "Liner" of
// the family "cylinder". What the place is called is left out where it would
// not read well above a column: "at the".
func withoutPlace(p *machine.Part) (kind, family string) {
	at := strings.LastIndex(p.Name, ", ")
	if at < 0 || !strings.HasSuffix(p.Name, string(p.Place)) {
		return p.Name, ""
	}
	family = strings.TrimSpace(strings.TrimSuffix(p.Name[at+2:], string(p.Place)))
	if strings.HasSuffix(family, " the") {
		family = ""
	}
	return p.Name[:at], family
}

// cylinders counts the places of the family of that name.
func cylinders(m *machine.Machine) int {
	for _, f := range m.Places {
		if f.Family == "cylinder" {
			return len(f.Labels)
		}
	}
	return 0
}

// teethOf is the number of teeth of a gear where the machine's figures give
// it: "gear-2-teeth" for the part gear-2, "bull-teeth" for bull-gear.
func teethOf(m *machine.Machine, p *machine.Part) int {
	id := string(p.Type)
	for _, name := range []string{id, strings.TrimSuffix(strings.TrimSuffix(id, "-gear"), "-wheel")} {
		if d := m.Datum(name + "-teeth"); d != nil && d.Value != nil {
			return int(*d.Value)
		}
	}
	return 0
}
