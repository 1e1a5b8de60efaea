package closing

import (
	"fmt"
	"time"

	"matchmark/internal/machine"
)

func log(bodies ...machine.Body) []machine.Entry {
	out := make([]machine.Entry, 0, len(bodies))
	for i, b := range bodies {
		out = append(out, machine.Entry{ID: machine.EntryID(fmt.Sprintf("e%06d", i)), By: "ann", Version: 1, Body: b,
			At: time.Date(2025, 5, 1, 8, 0, 0, 0, time.UTC).Add(time.Duration(i) * time.Minute)})
	}
	return out
}

// texts writes sheets out without what points elsewhere.
func texts(sheets []Sheet) []string {
	var out []string
	for _, s := range sheets {
		text := fmt.Sprintln(s.Joint.ID, s.Life, s.Cautions, s.Refused, s.Others, s.Found, s.Around, s.Among, s.Fit, s.Marks, s.Photos, s.AsFound, s.Reckon, s.Given)
		for _, q := range s.Tightening {
			text += fmt.Sprintln(q.Sets, q.From, q.Thread, q.Friction, q.Oil, q.Stop, q.New, q.Notes)
			for _, r := range q.Torques {
				deep := r.Deep
				r.Deep = nil
				text += fmt.Sprintf("%+v %+v\n", r, deep)
			}
		}
		if s.Pattern != nil {
			text += fmt.Sprintln(*s.Pattern)
		}
		if s.Shims != nil {
			w := s.Shims.Want
			text += fmt.Sprintln(s.Shims.Plan, s.Shims.Out, s.Shims.In, s.Shims.Readings, s.Shims.Why, s.Shims.Packs, w != nil)
			if w != nil {
				text += fmt.Sprintln(*w)
			}
		}
		for _, h := range s.Heat {
			text += fmt.Sprintln(h.Check.ID, h.Say)
		}
		if s.Done != nil {
			text += fmt.Sprintln(s.Done.Says, s.Done.Over)
		}
		for _, c := range s.Count {
			text += fmt.Sprintln(c.Part.ID, c.Words)
		}
		out = append(out, text)
	}
	return out
}
