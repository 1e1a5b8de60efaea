package web

import (
	"errors"
	"fmt"
	"math"
	"net/http"
	"strconv"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/spelling"
	"matchmark/internal/trade/wedge"
)

// toolsView is the shop's tools that type: the one in the hand, the teaching
// of another, and what a lesson taught.
type toolsView struct {
	Back    string
	Taught  []toolRow
	Keyed   bool // no tool in the hand
	Sound   bool
	Gloves  bool
	Closed  arrivalField
	Piece   arrivalField
	Size    string
	Ends    []option
	Fault   string
	Lesson  *lessonView
	Instrus []option // instruments that a tool can be
}

type toolRow struct {
	ID, Name string
	Words    []string
	Chosen   bool
}

// arrivalField is one reading as it came, and where it is asked for.
type arrivalField struct {
	Name, Label, Say string
	Raw, End         string
	Chars            []charBox
}

// charBox is one character that arrived; an unseen one goes by its name.
type charBox struct {
	Text   string
	Unseen bool
}

// lessonView is what two readings taught, to be mended and kept.
type lessonView struct {
	Words                     []string
	Errors                    []string
	Name, Prefix              string
	Units, Marks, Ends        []option
	Instrument                string
	Step, Nominal, Read, Zero string
	Machines                  []link // where the piece can be noted as a setting piece
}

func toolsPage(v *visit) error {
	tv, err := v.viewTools()
	if err != nil {
		return err
	}
	return v.showTools(tv, http.StatusOK)
}

func (v *visit) showTools(tv toolsView, status int) error {
	script, err := v.assets.address("tools.js")
	if err != nil {
		return err
	}
	return v.show("tools", status, frame{Title: "Tools that type", Back: tv.Back, Scripts: []string{script}, Data: tv})
}

func (v *visit) viewTools() (toolsView, error) {
	tv := toolsView{Back: ownAddress(v.r.FormValue("back"), "/"), Sound: remembered(v.r, soundCookie) != "off", Gloves: gloves(v.r) != ""}
	tools, err := v.shop.Tools(v.r.Context())
	if err != nil {
		return tv, err
	}
	in := remembered(v.r, toolCookie)
	tv.Keyed = true
	for _, t := range tools {
		tv.Taught = append(tv.Taught, toolRow{t.ID, t.Name, append(profileWords(t.Profile), "read as with: "+toolName(t.Instrument)), t.ID == in})
		tv.Keyed = tv.Keyed && t.ID != in
	}
	tv.Closed = arrivalField{Name: "closed", Label: "Jaws closed", Say: "Close the jaws on nothing, touch the field, and press the tool's key once."}
	tv.Piece = arrivalField{Name: "piece", Label: "Known piece", Say: "Measure the piece and press once."}
	for _, a := range []*arrivalField{&tv.Closed, &tv.Piece} {
		a.Raw, a.End = v.r.PostFormValue(a.Name), v.typed(a.Name+"-end")
		if a.Raw != "" {
			a.Chars = charsOf(a.Raw, wedge.End(a.End))
		}
	}
	tv.Size = v.typed("size")
	tv.Ends = endOptions(v.typed("piece-end"))
	for _, i := range metrology.Instruments() {
		if i.Unit == wedge.MM {
			tv.Instrus = append(tv.Instrus, option{i.ID, i.Name, i.ID == cmpInstrument(v.typed("instrument"))})
		}
	}
	return tv, nil
}

// cmpInstrument takes a calliper where nothing is said.
func cmpInstrument(id string) string {
	if id == "" {
		return "digital-calliper"
	}
	return id
}

// teachPost shows what two readings of a tool teach. Nothing is kept yet.
func teachPost(v *visit) error {
	tv, err := v.viewTools()
	if err != nil {
		return err
	}
	closed, piece := wedge.Arrival{Raw: tv.Closed.Raw, End: endOf(tv.Closed.End)}, wedge.Arrival{Raw: tv.Piece.Raw, End: endOf(tv.Piece.End)}
	size, err := bench.InUnit(tv.Size, wedge.MM)
	var lesson wedge.Lesson
	if err == nil {
		lesson, err = wedge.Learn(closed, piece, size)
	} else {
		err = fmt.Errorf("the size of the known piece: %w", err)
	}
	if err != nil {
		tv.Fault = spelling.Head(err.Error()) + "."
		return v.showTools(tv, http.StatusUnprocessableEntity)
	}
	if tv.Lesson, err = v.viewLesson(lesson); err != nil {
		return err
	}
	return v.showTools(tv, http.StatusOK)
}

// endOf is what ended a reading; Enter where nothing is said.
func endOf(said string) wedge.End {
	for _, e := range wedge.Ends() {
		if string(e) == said {
			return e
		}
	}
	return wedge.Enter
}

// viewLesson puts a lesson into words and into fields to be mended.
func (v *visit) viewLesson(l wedge.Lesson) (*lessonView, error) {
	lv := &lessonView{Words: profileWords(l.Profile), Prefix: l.Profile.Prefix, Instrument: cmpInstrument(v.typed("instrument")),
		Units: unitOptions(l.Profile.Unit), Marks: markOptions(l.Profile.Mark), Ends: endOptions(string(l.Profile.End)),
		Step: withUnit(l.Step, "mm"), Nominal: v.typed("size"), Read: l.Piece.String(), Zero: withUnit(l.ZeroMM, "mm")}
	said := "It does not say its unit"
	if l.Says {
		said = "It says its unit"
	}
	lv.Words = append(lv.Words, said, "its last digit is worth "+withUnit(l.Step, "mm"))
	for i, w := range lv.Words {
		lv.Words[i] = spelling.Head(w)
	}
	lv.Errors = errorWords(l)
	if math.Abs(l.ErrorMM) <= l.Step/2 {
		return lv, nil // nothing to take off
	}
	machines, err := v.shop.Machines(v.r.Context())
	if err != nil {
		return nil, err
	}
	for _, m := range machines {
		lv.Machines = append(lv.Machines, link{m.Name, "/m/" + escape(string(m.ID)) + "/instruments"})
	}
	return lv, nil
}

// errorWords say what the tool shows wrong, and what to do about it.
func errorWords(l wedge.Lesson) []string {
	over := func(mm float64) string {
		switch {
		case math.Abs(mm) <= l.Step/2:
			return "right to its last digit"
		case mm > 0:
			return withUnit(mm, "mm") + " too much"
		}
		return withUnit(-mm, "mm") + " too little"
	}
	out := []string{"Jaws closed it shows " + over(l.ZeroMM) + ".", "At " + withUnit(l.SizeMM, "mm") + " it shows " + over(l.ErrorMM) + "."}
	switch {
	case l.OneError:
		out = append(out, "Both are off alike: clean the jaws, close them, press its zero key, and teach it again.")
	case math.Abs(l.ErrorMM) > l.Step/2:
		out = append(out, "What it shows too much at the piece can be taken off the readings: note the piece as a setting piece.")
	}
	return out
}

// profileWords say what a tool types.
func profileWords(p wedge.Profile) []string {
	unit := map[string]string{wedge.MM: "a figure without a unit is in millimetres", wedge.Inch: "a figure without a unit is in inches"}[p.Unit]
	mark := map[wedge.Mark]string{wedge.Either: "its decimal mark is not known yet", wedge.Point: "its decimal mark is a point", wedge.Comma: "its decimal mark is a comma"}[p.Mark]
	end := map[wedge.End]string{wedge.Enter: "Enter ends a reading", wedge.Tab: "Tab ends a reading", wedge.Quiet: "nothing ends a reading: a third of a second without a key does"}[p.End]
	out := []string{spelling.Head(unit), mark, end}
	if p.Prefix != "" {
		out = append(out, "before each figure stands "+p.Prefix)
	}
	return out
}

func unitOptions(chosen string) []option {
	return []option{{wedge.MM, "millimetres", chosen == wedge.MM}, {wedge.Inch, "inches", chosen == wedge.Inch}}
}

func markOptions(chosen wedge.Mark) []option {
	return []option{{string(wedge.Point), "point", chosen == wedge.Point}, {string(wedge.Comma), "comma", chosen == wedge.Comma}, {"", "either, while not known", chosen == wedge.Either}}
}

func endOptions(chosen string) []option {
	end := endOf(chosen)
	return []option{{string(wedge.Enter), "Enter", end == wedge.Enter}, {string(wedge.Tab), "Tab", end == wedge.Tab}, {string(wedge.Quiet), "nothing", end == wedge.Quiet}}
}

// charsOf shows what arrived, character by character, and what ended it.
func charsOf(raw string, end wedge.End) []charBox {
	var out []charBox
	for _, r := range raw {
		name := map[rune]string{' ': "space", '\t': "Tab", '\r': "CR", '\n': "LF", '\u2212': "minus, U+2212", '\u2013': "dash, U+2013", '\u00a0': "space, U+00A0"}[r]
		if name == "" && !strconv.IsPrint(r) {
			name = fmt.Sprintf("U+%04X", r)
		}
		if name == "" {
			out = append(out, charBox{string(r), false})
		} else {
			out = append(out, charBox{name, true})
		}
	}
	if word := map[wedge.End]string{wedge.Enter: "Enter", wedge.Tab: "Tab", wedge.Quiet: "nothing more"}[end]; word != "" {
		out = append(out, charBox{word, true})
	}
	return out
}

// toolsPost keeps a taught tool and takes it in hand.
func toolsPost(v *visit) error {
	t := bench.Tool{Name: v.typed("name"), Instrument: v.typed("instrument"),
		Profile: wedge.Profile{Prefix: v.typed("prefix"), Unit: v.typed("unit"), Mark: wedge.Mark(v.typed("mark")), End: wedge.End(v.typed("end"))}}
	id, err := v.shop.KeepTool(v.r.Context(), t)
	if bad := new(bench.InputError); errors.As(err, &bad) {
		tv, err := v.viewTools()
		if err != nil {
			return err
		}
		tv.Fault = spelling.Head(bad.Say) + "."
		tv.Lesson = &lessonView{Words: profileWords(t.Profile), Name: t.Name, Prefix: t.Profile.Prefix, Instrument: t.Instrument,
			Units: unitOptions(t.Profile.Unit), Marks: markOptions(t.Profile.Mark), Ends: endOptions(string(t.Profile.End))}
		return v.showTools(tv, http.StatusUnprocessableEntity)
	}
	if err != nil {
		return err
	}
	v.remember(toolCookie, id)
	return v.go303("/tools?back=" + strings.ReplaceAll(v.back("/"), "&", "%26"))
}

// devicePost sets what this device remembers: the tool in the hand, the click,
// the gloves. A form says which of them it is about.
func devicePost(v *visit) error {
	if _, says := v.r.PostForm["tool"]; says {
		id := v.typed("tool")
		tool, err := v.shop.Tool(v.r.Context(), id)
		if err != nil {
			return err
		}
		if tool == nil {
			id = ""
		}
		v.remember(toolCookie, id)
	}
	v.remember(soundCookie, map[bool]string{false: "off"}[v.typed("sound") != ""])
	if v.typed("run") == "" { // the run's own form has no question about gloves
		v.remember(glovesCookie, map[bool]string{true: "thick"}[v.typed("gloves") != ""])
	}
	return v.go303(v.back("/tools"))
}

// dropPost takes a tool off the shelf.
func dropPost(v *visit) error {
	if err := v.shop.DropTool(v.r.Context(), v.typed("tool")); err != nil {
		return err
	}
	return v.go303("/tools?back=" + strings.ReplaceAll(v.back("/"), "&", "%26"))
}

// gloves tells whether the device is used with thick gloves, for the style
// sheet.
func gloves(r *http.Request) string {
	if remembered(r, glovesCookie) == "thick" {
		return "thick"
	}
	return ""
}
