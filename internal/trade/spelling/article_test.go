package spelling

import "testing"

// The rows are common English usage, from memory.
func TestAn(t *testing.T) {
	for name, want := range map[string]string{
		"adjusted joint": "an adjusted joint", "oil seal": "an oil seal", "outside micrometer": "an outside micrometer", "Engine": "an Engine",
		"bolted joint": "a bolted joint", "unit": "a unit", "universal joint": "a universal joint", "unworn place": "an unworn place", "undersize": "an undersize",
		"used part": "a used part", "one-way joint": "a one-way joint", "hour": "an hour", "hose": "a hose",
		"O-ring": "an O-ring", "V-belt": "a V-belt", "M8 nut": "an M8 nut", "SAE flange": "an SAE flange", "PTO shaft": "a PTO shaft", "UNC thread": "a UNC thread",
		"8 mm pin": "an 8 mm pin", "80 mm bore": "an 80 mm bore", "11 mm pin": "an 11 mm pin", "110 mm bore": "a 110 mm bore", "12 mm pin": "a 12 mm pin", "": "a ",
	} {
		if got := An(name); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
