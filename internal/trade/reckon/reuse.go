package reckon

import (
	"errors"

	"matchmark/internal/trade/fastener"
)

// reuse answers with the reasons against where there are any: a refusal is an
// answer here.
func reuse(v Values) (Answer, error) {
	used := fastener.Used{Stretch: v.is("stretch"), Length: v.num("length"), Grown: v.num("grown"), Necked: v.is("necked"),
		Damaged: v.is("damaged"), Pitted: v.is("pitted"), Bent: v.is("bent"), Cracked: v.is("cracked")}
	err := used.Reuse()
	var refused fastener.RefusedError
	switch {
	case errors.As(err, &refused):
		a := Answer{Lines: []Line{say("goes back", "no: renew it")}, Cautions: []string{boltHazard}}
		for _, r := range refused.Reasons {
			a.Lines = append(a.Lines, say("because", r))
		}
		return a, nil
	case err != nil:
		return Answer{}, err
	}
	return Answer{Lines: []Line{say("goes back", "yes, for what was looked at")},
		Cautions: []string{"Look for cracks at the root of the first thread and under the head; on steering and brakes renew in doubt."}}, nil
}
