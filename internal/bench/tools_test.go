package bench

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"matchmark/internal/machine"
	"matchmark/internal/store"
	"matchmark/internal/trade/wedge"
)

// TestReadingsOfATool: every form of the wedge corpus that is a figure becomes
// a reading with the raw text kept as it came, and the value in mm.
func TestReadingsOfATool(t *testing.T) {
	data, err := os.ReadFile("../trade/wedge/testdata/corpus.json")
	if err != nil {
		t.Fatal(err)
	}
	var rows []struct {
		ID           string
		Profile      wedge.Profile
		Raw          string
		Figure, Unit string
	}
	if err := json.Unmarshal(data, &rows); err != nil {
		t.Fatal(err)
	}
	b := tractor(t, store.OpenMemory())
	v, _ := b.View(t.Context())
	kept := 0
	for _, row := range rows {
		r, err := v.Reading(Typed{Feature: "liner.2/bore", Level: "middle", Axis: "pin", Text: row.Raw, Wedge: &row.Profile, Sure: true})
		if row.Figure == "" {
			if err == nil {
				t.Errorf("%s: %q was kept as %v", row.ID, row.Raw, r.Amount)
			}
			continue
		}
		kept++
		want, _ := InUnit(row.Figure+" "+row.Unit, "mm")
		if err != nil || r.Amount.Typed != row.Raw || math.Abs(r.Amount.Value-want) > 1e-12 || r.Amount.Unit != "mm" {
			t.Errorf("%s: %q gives %+v, %v; want %v mm and the raw text", row.ID, row.Raw, r, err, want)
		}
	}
	if kept < 50 {
		t.Errorf("only %d rows of the corpus are figures", kept)
	}
}

// TestUnitsOfATool: what unit a figure is in, and when it is asked about.
func TestUnitsOfATool(t *testing.T) {
	b := tractor(t, store.OpenMemory())
	v := record(t, b, &machine.NominalSet{Feature: "liner.2/bore", Amount: machine.Amount{Value: 76, Unit: "mm", Typed: "76"}, From: machine.Unworn})
	mm, inch := &wedge.Profile{Unit: "mm", End: "enter"}, &wedge.Profile{Unit: "in", End: "enter"}
	for _, row := range []struct {
		text  string
		tool  *wedge.Profile
		unit  string
		want  float64 // 0: asked about
		other string
	}{
		{"76.03", mm, "", 76.03, ""},
		{"2.9933", mm, "", 0, "in"},
		{"2.9933", mm, "in", 2.9933 * 25.4, ""},
		{"2.9933", inch, "", 2.9933 * 25.4, ""},
		{"76.03", inch, "", 0, "mm"},
		{"76.03", inch, "mm", 76.03, ""},
		{"76.03mm", inch, "", 76.03, ""},
		{"2.9933", nil, "in", 2.9933 * 25.4, ""},
		{"76.03 ,MM\r\n", nil, "", 76.03, ""},
		{"81.00", mm, "", 0, ""},
	} {
		r, err := v.Reading(Typed{Feature: "liner.2/bore", Level: "middle", Axis: "pin", Text: row.text, Wedge: row.tool, Unit: row.unit})
		var asked *InputError
		switch {
		case row.want == 0 && (!errors.As(err, &asked) || !asked.Doubt || asked.Fits != row.other):
			t.Errorf("%q on %+v: %v, %+v; want to be asked whether it is %q", row.text, row.tool, r, asked, row.other)
		case row.want != 0 && (err != nil || math.Abs(r.Amount.Value-row.want) > 1e-9 || r.Amount.Typed != row.text):
			t.Errorf("%q on %+v, in %q: %+v, %v; want %v mm", row.text, row.tool, row.unit, r, err, row.want)
		}
	}
}

// TestToolsStandOnTheShelf: kept, replaced, listed, dropped; a profile that
// would misread is refused.
func TestToolsStandOnTheShelf(t *testing.T) {
	shop := NewShop(store.OpenMemory(), func() time.Time { return time.Unix(1e9, 0) })
	good := Tool{Name: " Long calliper, 300 ", Instrument: "digital-calliper", Profile: wedge.Profile{Unit: "mm", End: "enter"}}
	id, err := shop.KeepTool(t.Context(), good)
	if err != nil || id != "long-calliper-300" {
		t.Fatalf("kept as %q, %v", id, err)
	}
	good.Profile.Unit = "in"
	if _, err := shop.KeepTool(t.Context(), good); err != nil {
		t.Fatal(err)
	}
	list, err := shop.Tools(t.Context())
	if err != nil || len(list) != 1 || list[0].Profile.Unit != "in" || list[0].Name != "Long calliper, 300" || list[0].ID != id {
		t.Fatalf("the shelf holds %+v, %v", list, err)
	}
	for _, bad := range []Tool{{Name: " ", Profile: good.Profile}, {Name: "x", Profile: wedge.Profile{Unit: "mm", End: "enter", Prefix: "##"}}} {
		var refused *InputError
		if _, err := shop.KeepTool(t.Context(), bad); !errors.As(err, &refused) {
			t.Errorf("%+v was kept: %v", bad, err)
		}
	}
	if err := shop.Log().PutPaper(t.Context(), "tool/broken", []byte("no json")); err != nil {
		t.Fatal(err)
	}
	if list, err := shop.Tools(t.Context()); err != nil || len(list) != 1 {
		t.Errorf("a broken paper gives %+v, %v", list, err)
	}
	if err := shop.DropTool(t.Context(), id); err != nil {
		t.Fatal(err)
	}
	if tool, err := shop.Tool(t.Context(), id); tool != nil || err != nil {
		t.Errorf("a dropped tool is still there: %+v, %v", tool, err)
	}
}

// TestOwnInstruments: figures as typed become those the verdicts use, and a
// setting piece corrects the readings that name it.
func TestOwnInstruments(t *testing.T) {
	b := tractor(t, store.OpenMemory())
	v, _ := b.View(t.Context())
	set, err := TypedInstrument{Name: "Two-point gauge", Looks: "bore", Unit: "mm", Step: "0.001", Limit: "4 µm", Repeats: "76.001 76.003 76.002", Source: "certificate, 3 May"}.Instrument(v.Machine)
	if err != nil || set.ID != "two-point-gauge" || set.HalfWidth != 0.004 || math.Abs(set.Repeat-0.001) > 1e-9 {
		t.Fatalf("%+v, %v", set, err)
	}
	v = record(t, b, set)
	if in, ok := v.Instrument("two-point-gauge"); !ok || in.Step != 0.001 {
		t.Fatalf("the machine does not know it: %+v", in)
	}
	piece, err := v.Setting(TypedSetting{Tool: "two-point-gauge", Setting: "ring 76", Nominal: "76", Read: "76.010"})
	if err != nil {
		t.Fatal(err)
	}
	v = record(t, b, piece)
	r, err := v.Reading(Typed{Feature: "liner.2/bore", Level: "middle", Axis: "pin", Text: "76.03", Tool: "two-point-gauge", Setting: "ring 76"})
	if err != nil {
		t.Fatal(err)
	}
	v = record(t, b, r)
	if got := v.Machine.Feature("liner.2/bore").Readings[0]; got.Set == nil || got.Set.Setting != "ring 76" {
		t.Errorf("the reading does not go by its setting piece: %+v", got)
	}
	for _, bad := range []TypedInstrument{{Name: "", Unit: "mm", Step: "1"}, {Name: "x", Unit: "drops", Step: "1"}, {Name: "x", Unit: "mm", Step: ""},
		{Name: "x", Unit: "mm", Step: "-1"}, {Name: "x", Unit: "mm", Step: "0.01", SetBy: "nothing"}, {Name: "x", Unit: "mm", Step: "0.01", Repeats: "1 2"}} {
		if _, err := bad.Instrument(v.Machine); err == nil {
			t.Errorf("%+v was taken", bad)
		}
	}
	for _, bad := range []TypedSetting{{Tool: "none", Setting: "r", Nominal: "76", Read: "76"}, {Tool: "micrometer", Nominal: "76", Read: "76"},
		{Tool: "micrometer", Setting: "r", Nominal: "76", Read: "2.99"}, {Tool: "micrometer", Setting: "r", Nominal: "0", Read: "0"}} {
		if s, err := v.Setting(bad); err == nil || strings.TrimSpace(err.Error()) == "" {
			t.Errorf("%+v was taken as %+v", bad, s)
		}
	}
}
