package web

import (
	"encoding/json"
	"fmt"
	"net/http"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/quantity"
	"matchmark/internal/trade/wedge"
)

// What this device remembers of its own, one cookie each.
const (
	toolCookie   = "tool"   // id of the taught tool in the hand
	soundCookie  = "sound"  // "off": no clicks
	glovesCookie = "gloves" // "thick": 120 px targets, one column
)

// remembered is what the device keeps under a name, empty for nothing.
func remembered(r *http.Request, name string) string {
	if c, err := r.Cookie(name); err == nil {
		return c.Value
	}
	return ""
}

// remember keeps a word on the device for a year; empty forgets it.
func (v *visit) remember(name, word string) {
	c := &http.Cookie{Name: name, Value: word, Path: "/", MaxAge: 365 * 24 * 3600, HttpOnly: true, SameSite: http.SameSiteLaxMode}
	if word == "" {
		c.MaxAge = -1
	}
	http.SetCookie(v.w, c)
}

// toolInHand is the tool that types in a run.
type toolInHand struct {
	ID, Name, Unit string
	Profile        string // for the page's script
}

// equip puts the tool of this device into a run. keyed tells that figures are
// keyed in although there is a tool.
func (v *visit) equip(rv *runView, keyed bool) error {
	tools, err := v.shop.Tools(v.r.Context())
	if err != nil {
		return err
	}
	rv.Silent = remembered(v.r, soundCookie) == "off"
	rv.Keyed = keyed
	in := remembered(v.r, toolCookie)
	for _, t := range tools {
		rv.Taught = append(rv.Taught, option{t.ID, t.Name, t.ID == in})
		if t.ID == in && rv.Length {
			if err := rv.takeInHand(t); err != nil {
				return err
			}
		}
	}
	return nil
}

// takeInHand makes a tool the one that types, and its instrument the one that
// readings are made with.
func (rv *runView) takeInHand(t bench.Tool) error {
	data, err := json.Marshal(t.Profile)
	if err != nil {
		return err
	}
	rv.InHand = &toolInHand{t.ID, t.Name, t.Profile.Unit, string(data)}
	for i := range rv.Tools {
		if rv.Tools[i].Value == t.Instrument {
			for k := range rv.Tools {
				rv.Tools[k].Chosen = k == i
			}
		}
	}
	return nil
}

// isLength tells whether a tool that measures lengths can read the unit.
func isLength(unit string) bool {
	dim, _ := bench.DimensionOf(unit)
	return dim == quantity.Length && unit == wedge.MM
}

// settingsFor lists the setting pieces read on this machine, the one that the
// run goes by chosen: that of its latest reading, else the latest piece of the
// last day.
func settingsFor(v *bench.View, r run) []option {
	var out []option
	chosen := ""
	if list := v.Machine.Settings; len(list) > 0 && v.AsOf.Sub(list[len(list)-1].At).Hours() < 24 {
		chosen = list[len(list)-1].Setting
	}
	if reads := r.latest(); len(reads) > 0 {
		chosen = reads[0].Setting
	}
	seen := map[string]bool{}
	for _, s := range v.Machine.Settings {
		if !seen[s.Setting+"|"+s.Tool] {
			seen[s.Setting+"|"+s.Tool] = true
			out = append(out, option{s.Setting, s.Setting + ", with " + toolOf(v.Machine, s.Tool), s.Setting == chosen})
		}
	}
	return out
}

// toolOf names an instrument of a machine.
func toolOf(m *machine.Machine, id string) string {
	for _, own := range m.Tools {
		if own.ID == id && own.Name != "" {
			return own.Name
		}
	}
	return toolName(id)
}

// pointOf says where in the run the page is.
func pointOf(rv runView) string { return fmt.Sprintf("Point %d of %d", rv.Nth, rv.All) }
