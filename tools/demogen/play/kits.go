package play

import (
	"time"

	"matchmark/internal/demo"
	"matchmark/internal/kit"
	"matchmark/internal/machine"
)

// takeKits names the machine and takes every kit, as the first evening's work.
func (s *story) takeKits() {
	sheets, taking, err := kit.Whole()
	if err != nil {
		s.fail("%w", err)
		return
	}
	bodies, _, err := kit.Expand(sheets, taking)
	if err != nil {
		s.fail("%w", err)
		return
	}
	s.on(5, time.October, 8*time.Hour+10*time.Minute)
	s.say(&machine.MachineNamed{Name: demo.Name, Serial: "0418 (plate worn)", Owner: "M. Aldous", Demo: true,
		Note: "18 hp three-cylinder orchard tractor, made by Wendle at Ambrose Vale. Stood in an open barn; no paperwork came with it. Invented, to try the program on."})
	for _, b := range bodies {
		s.sayAt(s.at, s.who, "", b) // in one go: a microsecond from one to the next
	}
	s.pass(time.Minute)
}
