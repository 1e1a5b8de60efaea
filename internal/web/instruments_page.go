package web

import (
	"errors"
	"net/http"
	"strconv"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/spelling"
)

// instrumentsView lists the instruments that readings of a machine may name,
// with what one reading of each is worth, and the setting pieces read.
type instrumentsView struct {
	Base     string
	List     []instrumentRow
	Settings []string
	Tools    []option // for the setting piece
	SetBy    []option
	Units    []option
	Asked    map[string]string // fields of either form as typed
	Fault    string
	At       string // which form is at fault: instrument, setting
}

type instrumentRow struct {
	ID, Name, Words, Source string
	Own                     bool
}

func instrumentsPage(v *visit) error { return v.showInstruments("", "", http.StatusOK) }

// fieldsOf are the fields of the two forms.
var fieldsOf = []string{"id", "name", "looks", "unit", "step", "limit", "share", "repeats", "set-by", "source", "tool", "setting", "nominal", "read", "temp", "note"}

func (v *visit) showInstruments(at, fault string, status int) error {
	m := v.view.Machine
	iv := instrumentsView{Base: v.base(), Asked: map[string]string{}, Fault: fault, At: at}
	for _, f := range fieldsOf {
		iv.Asked[f] = v.r.FormValue(f)
	}
	for _, in := range judge.Instruments(m) {
		iv.List = append(iv.List, rowOfInstrument(m, in))
		iv.SetBy = append(iv.SetBy, option{in.ID, in.Name, in.ID == iv.Asked["set-by"]})
		if in.Unit == "mm" {
			iv.Tools = append(iv.Tools, option{in.ID, in.Name, in.ID == iv.Asked["tool"]})
		}
	}
	if id := v.asked("own"); id != "" { // give a usual one its own figures
		iv.fill(m, id)
	}
	for _, unit := range []string{"mm", "N·m", "N", "bar", "V", "A", "Ω", "°C", "deg", "g", "s", "rpm"} {
		iv.Units = append(iv.Units, option{unit, unit, unit == iv.Asked["unit"]})
	}
	for _, s := range m.Settings {
		iv.Settings = append(iv.Settings, s.Setting+": "+amountWords(&s.Nominal)+", read as "+amountWords(&s.Read)+" with "+toolOf(m, s.Tool)+", "+minute(s.At)+", "+s.By)
	}
	return v.show("instruments", status, frame{Title: "Instruments", Here: "Machine", Back: v.base() + "/machine", Data: iv})
}

// fill puts the figures of an instrument into the form.
func (iv *instrumentsView) fill(m *machine.Machine, id string) {
	for _, in := range judge.Instruments(m) {
		if in.ID == id {
			for k, val := range map[string]string{"id": in.ID, "name": in.Name, "looks": in.Kind, "unit": in.Unit, "set-by": in.SetBy,
				"step": plainFigure(in.Step), "limit": plainFigure(in.HalfWidth), "share": plainFigure(in.Relative)} {
				iv.Asked[k] = val
			}
		}
	}
	for i := range iv.SetBy {
		iv.SetBy[i].Chosen = iv.SetBy[i].Value == iv.Asked["set-by"]
	}
}

// rowOfInstrument says what one reading is worth.
func rowOfInstrument(m *machine.Machine, in metrology.Instrument) instrumentRow {
	row := instrumentRow{ID: in.ID, Name: spelling.Head(in.Name), Source: in.Source}
	for _, own := range m.Tools {
		row.Own = row.Own || own.ID == in.ID
	}
	row.Words = "reads to " + fine(in.Step, in.Unit)
	if in.HalfWidth > 0 {
		row.Words += ", right within " + fine(in.HalfWidth, in.Unit)
	}
	if in.Relative > 0 {
		row.Words += ", and within " + figure(100*in.Relative, "") + " % of the reading"
	}
	if in.Repeat > 0 {
		row.Words += ", the hand repeats to " + fine(in.Repeat, in.Unit)
	}
	return row
}

// fine prints a small figure of an instrument, which may lie below what a
// reading shows.
func fine(v float64, unit string) string {
	return strconv.FormatFloat(v, 'g', 3, 64) + " " + unit
}

// instrumentsPost keeps an instrument of the workshop, or a setting piece as
// read.
func instrumentsPost(v *visit) error {
	at := "instrument"
	var body machine.Body
	var err error
	if v.typed("do") == "setting" {
		at = "setting"
		body, err = v.view.Setting(bench.TypedSetting{Tool: v.typed("tool"), Setting: v.typed("setting"), Nominal: v.typed("nominal"),
			Read: v.typed("read"), Temp: v.typed("temp"), Note: v.typed("note")})
	} else {
		body, err = bench.TypedInstrument{ID: v.typed("id"), Name: v.typed("name"), Looks: v.typed("looks"), Unit: v.typed("unit"), Step: v.typed("step"),
			Limit: v.typed("limit"), Share: v.typed("share"), Repeats: v.typed("repeats"), SetBy: v.typed("set-by"), Source: v.typed("source")}.Instrument(v.view.Machine)
	}
	if bad := new(bench.InputError); errors.As(err, &bad) {
		return v.showInstruments(at, spelling.Head(bad.Say)+". Nothing was kept.", http.StatusUnprocessableEntity)
	}
	if err != nil {
		return err
	}
	if _, err := v.record(body); err != nil {
		return err
	}
	return v.go303(v.base() + "/instruments#" + at)
}
