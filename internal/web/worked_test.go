package web

import (
	"net/url"
	"testing"

	"matchmark/internal/machine"
)

// TestWorkedOutWhereItIsWanted: a sum says what it lacks and where to enter it,
// and stands on the page once that is entered.
func TestWorkedOutWhereItIsWanted(t *testing.T) {
	h := newHouse(t)
	at := "/m/codlin/prove"
	h.ask("GET", at, nil).is(200).says("Worked out here", "Displacement and piston speed", "Stroke: enter “Stroke of the crankshaft” among the figures of the machine, in mm")
	for datum, value := range map[string]string{"stroke": "78", "rated-speed": "2600"} {
		h.ask("POST", "/m/codlin/figures", url.Values{"datum": {datum}, "value": {value}, "from": {"handbook"}, "source": {"page 3"}}).is(303)
	}
	h.record(&machine.NominalSet{Feature: "liner.1/bore", Amount: machine.Amount{Value: 76, Unit: "mm", Typed: "76"}, From: machine.Paperwork})
	h.ask("GET", at, nil).is(200).says("Mean piston speed", "6.76 m/s", "Stroke: 78 mm: Stroke of the crankshaft, handbook, page 3")

	h.ask("GET", "/m/codlin/run/look/rod-bolt-len", nil).is(200).says("May the rod bolts go back", "enter “Longest rod bolt less the shortest”")
	h.ask("GET", "/m/codlin/close/flywheel-crank", nil).is(200).says("Order of these bolts", "1-3-5-2-4")
	a := machine.Amount{Value: 22, Unit: "", Typed: "22"}
	h.record(&machine.ReadingTaken{Check: "comp-volume.2", Amount: a})
	h.ask("GET", "/m/codlin/run/c/comp-volume", nil).is(200).says("Worked out here")
}
