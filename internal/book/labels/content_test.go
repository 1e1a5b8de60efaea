package labels

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"matchmark/internal/machine"
)

// bench is a small engine half apart: two trays and a stand.
func bench(t *testing.T) *machine.Machine {
	t.Helper()
	var entries []machine.Entry
	for n, b := range []machine.Body{
		&machine.MachineNamed{Name: "Wendle Codlin 18", Serial: "0418"},
		&machine.PlacesSet{Places: machine.Places{Family: "main", Name: "main", Labels: []machine.Place{"1", "2"}}},
		&machine.AssemblyAdded{ID: "bottom", Name: "Crankcase"}, &machine.AssemblyAdded{ID: "head", Name: "Cylinder head"},
		&machine.PartAdded{ID: "cap", Name: "Main cap", Assembly: "bottom", Places: "main"},
		&machine.PartAdded{ID: "crank", Name: "Crankshaft", Assembly: "bottom"},
		&machine.PartAdded{ID: "valve", Name: "Valve", Assembly: "head", Qty: 4},
		&machine.JointAdded{ID: "cap-bolts", Name: "Main cap bolts", Assembly: "bottom", Places: "main", Parts: []machine.PartID{"cap", "crank"}},
		&machine.TrayMade{Mark: "JFX", Name: "Valve gear"},
		&machine.JointOpened{Joint: "cap-bolts.1", Tray: "14", Off: []machine.PartID{"cap.1"}, MatchMark: "two dots on each",
			Fasteners: []machine.Fastener{{Size: "M12x1.25x70", Count: 2}}, Shims: []machine.Shim{{ThicknessMM: 0.15, Count: 2}}},
		&machine.JointOpened{Joint: "cap-bolts.2", Tray: "14", Off: []machine.PartID{"cap.2"}, MatchMark: "2 dots"},
		&machine.PartMoved{Part: "valve", Tray: "14"}, &machine.PartMoved{Part: "crank", Tray: "crank stand"},
		&machine.CallMade{Part: "cap.1", Call: machine.MakeGood}, &machine.CallMade{Part: "valve", Call: machine.Renew},
	} {
		entries = append(entries, machine.Entry{ID: machine.EntryID(fmt.Sprintf("e%02d", n)), At: time.Date(2026, 11, 1+n, 8, 0, 0, 0, time.UTC), By: "R.", Body: b})
	}
	m := machine.Fold(entries)
	for _, q := range m.Questions {
		t.Fatal(q.Text)
	}
	return m
}

// TestLabelSaysWhatLiesThere: name, day, dots and contents come from the log.
func TestLabelSaysWhatLiesThere(t *testing.T) {
	m := bench(t)
	at := func(mark string) Label {
		i := slices.IndexFunc(m.Trays, func(t machine.Tray) bool { return t.Mark == mark })
		if i < 0 {
			t.Fatalf("no tray %s", mark)
		}
		return Of(m, &m.Trays[i])
	}
	l := at("14")
	if l.Name != "Crankcase, cylinder head" || l.Machine != "Wendle Codlin 18" || l.Serial != "0418" || l.Dots != 2 || l.Date.Day() != 10 {
		t.Errorf("tray 14: %+v", l)
	}
	want := []string{"Main cap, main 1", "Main cap, main 2", "4 × valve", "2 × M12x1.25x70, main cap bolts, main 1", "2 × shim 0.15, main cap bolts, main 1"}
	if !slices.Equal(l.Inside, want) {
		t.Errorf("in tray 14: %q, want %q", l.Inside, want)
	}
	if made := at("JFX"); made.Name != "Valve gear" || !made.Date.IsZero() || made.Inside != nil {
		t.Errorf("an empty tray: %+v", made)
	}
	if stand := at("crank stand"); stand.Dots != 0 || stand.Date.Day() != 13 {
		t.Errorf("the stand: %+v", stand)
	}
}

// TestTagSaysItsCall: a tag bears the part's call, its number, where it lies
// and its dots; a part nobody judged has no day of judgement.
func TestTagSaysItsCall(t *testing.T) {
	m := bench(t)
	cap := TagOf(m, m.Part("cap.1"))
	if !cap.Tag || cap.Call != machine.MakeGood || cap.Number != 1 || cap.Mark != "14" || cap.Dots != 2 || cap.Date.Day() != 14 {
		t.Errorf("cap 1: %+v", cap)
	}
	if valve := TagOf(m, m.Part("valve")); valve.Name != "Valve, 4 off" || valve.Call != machine.Renew || valve.Dots != 0 {
		t.Errorf("valve: %+v", valve)
	}
	if crank := TagOf(m, m.Part("crank")); !crank.Date.IsZero() || crank.Call != machine.NotJudged || crank.Dots != 2 {
		t.Errorf("crankshaft: %+v", crank)
	}
}

func TestDots(t *testing.T) {
	for mark, want := range map[string]int{"2 dots": 2, "two dots on each": 2, "Nine punch marks": 9, "one centre-punch dot": 1, "line scribed across both": 0, "22 dots": 0, "": 0, "dots": 0} {
		if got := Dots(mark); got != want {
			t.Errorf("%q: %d dots, want %d", mark, got, want)
		}
	}
}

func TestReadAddress(t *testing.T) {
	for typed, want := range map[string]string{"": "", " 192.168.1.20:7462 ": "http://192.168.1.20:7462", "https://Bench.home.arpa/": "https://bench.home.arpa", "http://[fe80::1]:80": "http://[fe80::1]:80"} {
		if got, err := ReadAddress(typed); err != nil || got != want {
			t.Errorf("%q: %q, %v; want %q", typed, got, err, want)
		}
	}
	for _, bad := range []string{"ftp://box", "http://", "http://box/m/1", "http://box?q", "http://a:b@box", "javascript://x/%0a", "http://bo x"} {
		if got, err := ReadAddress(bad); err == nil {
			t.Errorf("%q is taken as %q", bad, got)
		}
	}
	if got := Link("http://box/", "m 1", "crank stand/2"); got != "http://box/t/m%201/crank%20stand%2F2" {
		t.Error(got)
	}
	if Link("", "m", "14") != "" {
		t.Error("a code without an address")
	}
}

func TestReadOffset(t *testing.T) {
	for typed, want := range map[string]float64{"": 0, "0.5": 0.5, "0,5 mm": 0.5, "−1.2": -1.2, "-5": -5, " 2mm ": 2} {
		if got, err := ReadOffset(typed); err != nil || got != want {
			t.Errorf("%q: %v, %v; want %v", typed, got, err, want)
		}
	}
	for _, bad := range []string{"5.1", "NaN", "Inf", "a", "1 2", "1e9"} {
		if got, err := ReadOffset(bad); err == nil {
			t.Errorf("%q is taken as %v", bad, got)
		}
	}
}

// TestSettingsKeep: what is written is read, an old or empty shelf is no error,
// a torn one is.
func TestSettingsKeep(t *testing.T) {
	s := Settings{Address: home}.With("roll40", Offset{0.4, -0.3}).With("sheet", Offset{1, 0}).With("roll40", Offset{0.5, 0})
	got, err := ReadSettings(s.Bytes())
	if err != nil || got.Address != home || got.Offsets["roll40"] != (Offset{0.5, 0}) || got.Offsets["sheet"] != (Offset{1, 0}) {
		t.Errorf("%+v, %v", got, err)
	}
	if none, err := ReadSettings(nil); err != nil || none.Address != "" {
		t.Errorf("%+v, %v", none, err)
	}
	if _, err := ReadSettings([]byte("{")); err == nil {
		t.Error("a torn paper is read")
	}
}
