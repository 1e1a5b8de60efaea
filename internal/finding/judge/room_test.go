package judge

import (
	"math"
	"testing"

	"matchmark/internal/machine"
)

// TestRooms: bounds of wear, size and clearance where the readings of one
// surface lie. Kind H: sums of the figures in the row.
func TestRooms(t *testing.T) {
	inf := math.Inf(1)
	wear := common(machine.Limit{NewHigh: "0.02", High: "0.15"})
	shaftWear := &machine.CheckAdded{ID: "form", Name: "Journal wear", By: machine.ByWear, Outer: journal, Limits: []machine.Limit{wear}}
	clearance := &machine.CheckAdded{ID: "form", Name: "Clearance", By: machine.ByClearance, Outer: bore, Inner: journal,
		Limits: []machine.Limit{common(machine.Limit{NewLow: "0.03", NewHigh: "0.08", Low: "0.01", High: "0.2"})}}
	for _, r := range []struct {
		name string
		log  *log
		of   machine.FeatureID
		want *Room
	}{
		{"bore wear", fit(formCheck(machine.ByWear, wear)).add(made(bore, 82)), bore, &Room{NewLow: 82, NewHigh: 82.02, Low: -inf, High: 82.15, Zero: 82}},
		{"journal wear", fit(shaftWear).add(made(journal, 50)), journal, &Room{NewLow: 49.98, NewHigh: 50, Low: 49.85, High: inf, Zero: 50}},
		{"wear without a size", fit(formCheck(machine.ByWear, wear)), bore, nil},
		{"size", fit(formCheck(machine.BySize, common(machine.Limit{High: "82.1"}))), bore, &Room{NewLow: -inf, NewHigh: inf, Low: -inf, High: 82.1, Zero: math.NaN()}},
		{"oval", fit(formCheck(machine.ByOval, common(machine.Limit{High: "0.05"}))), bore, nil},
		{"clearance, bore", fit(clearance).add(size(journal, "", "along", 50), size(journal, "", "across", 49.99)), bore,
			&Room{NewLow: 50.03, NewHigh: 50.07, Low: 50.01, High: 50.19, Zero: math.NaN()}},
		{"clearance, journal", fit(clearance).add(bores(50.1, 50.12)...), journal,
			&Room{NewLow: 50.04, NewHigh: 50.07, Low: 49.92, High: 50.09, Zero: math.NaN()}},
		{"clearance, other side not read", fit(clearance), bore, nil},
		{"no limit", fit(formCheck(machine.ByWear)).add(made(bore, 82)), bore, nil},
	} {
		m := r.log.fold(t)
		got := Rooms(m, []*machine.Feature{m.Feature(r.of)})[0]
		if got == nil || r.want == nil {
			if got != nil || r.want != nil {
				t.Errorf("%s: room %+v, want %+v", r.name, got, r.want)
			}
			continue
		}
		for _, c := range [][2]float64{{got.NewLow, r.want.NewLow}, {got.NewHigh, r.want.NewHigh}, {got.Low, r.want.Low}, {got.High, r.want.High}, {got.Zero, r.want.Zero}} {
			if math.Abs(c[0]-c[1]) > 1e-9 || math.IsNaN(c[0]) != math.IsNaN(c[1]) {
				t.Errorf("%s: room %+v, want %+v", r.name, got, r.want)
				break
			}
		}
		if got.Check.ID != "form" || got.From != machine.CommonPractice {
			t.Errorf("%s: of %s from %s", r.name, got.Check.ID, got.From)
		}
	}
}

// TestARoomAgreesWithItsVerdict: a lone reading well past a bound of its room
// is worn, one well within is sound.
func TestARoomAgreesWithItsVerdict(t *testing.T) {
	limit := common(machine.Limit{NewHigh: "0.02", High: "0.15"})
	m := fit(formCheck(machine.ByWear, limit)).add(made(bore, 82)).fold(t)
	room := Rooms(m, []*machine.Feature{m.Feature(bore)})[0]
	for by, want := range map[float64]Verdict{-0.05: Sound, 0.05: Worn} {
		v := room.High + by
		if f := fit(formCheck(machine.ByWear, limit)).add(made(bore, 82)).add(bores(v, v, v, v, v, v)...).one(t, "form"); f.Verdict != want {
			t.Errorf("%v mm against a limit of %v: %s, want %s", v, room.High, f.Verdict, want)
		}
	}
}
