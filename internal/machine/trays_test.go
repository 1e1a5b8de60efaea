package machine

import (
	"slices"
	"testing"
)

// TestMadeTrays: made trays stand in the list whether or not something lies in
// them, a name stays until another is given, and a mark once used is known
// when its tray is empty.
func TestMadeTrays(t *testing.T) {
	b := engine()
	b.say(&TrayMade{Mark: "JFX"}, &TrayMade{Mark: "14", Name: "Caps"}, &PartMoved{Part: "cover", Tray: "14"}, &TrayMade{Mark: "14"},
		&PartMoved{Part: "liner.1", Tray: "9"}, &PartMoved{Part: "liner.1", Tray: "rack"}, &JointOpened{Joint: "cover-bolts", Off: []PartID{"cover"}})
	m := Fold(b.entries)
	var got []string
	for _, tray := range m.Trays {
		got = append(got, tray.Mark+"/"+tray.Name)
	}
	if want := []string{"14/Caps", "JFX/", "rack/", "no tray/"}; !slices.Equal(got, want) {
		t.Errorf("trays %q, want %q", got, want)
	}
	used := m.UsedMarks()
	for _, mark := range []string{"14", "JFX", "9", "rack"} {
		if !used[mark] {
			t.Errorf("%s is not known as used", mark)
		}
	}
	if len(used) != 4 {
		t.Errorf("used: %v", used)
	}
	b.say(&TrayMade{})
	if n := len(Fold(b.entries).Questions); n != 1 {
		t.Errorf("a tray without a mark raises %d questions", n)
	}
}
