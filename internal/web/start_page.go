package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/demo"
	"matchmark/internal/kit"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// machinesView is the shop: its machines, or the first run.
type machinesView struct {
	Machines []machineRow
	Demo     bool // one of them is the demo
}

type machineRow struct{ Name, At, Words string }

func machinesPage(v *visit) error {
	list, err := v.shop.Machines(v.r.Context())
	if err != nil {
		return err
	}
	mv := machinesView{}
	for _, l := range list {
		row := machineRow{Name: l.Name, At: "/m/" + url.PathEscape(string(l.ID)), Words: plural(int(l.Entries), "entry", "entries") + " in the book"}
		mv.Demo = mv.Demo || l.ID == demo.ID
		if !l.Last.IsZero() {
			row.Words += ", last " + day(l.Last)
		}
		mv.Machines = append(mv.Machines, row)
	}
	return v.show("machines", http.StatusOK, frame{Title: "Matchmark", Data: mv})
}

// startView is the form that makes a machine from kits. A question that
// several kits ask is asked once.
type startView struct {
	Name, Serial, Owner string
	Counts              []countForm
	Choices             []choiceForm
	Kits                []kitForm
	Fault               string
}

type kitForm struct {
	ID, Title, About string
	Taken            bool
}

type countForm struct {
	Field, Ask, Value string
	Least, Most       int
}

type choiceForm struct {
	Field, Ask string
	Answers    []option
}

func startPage(v *visit) error { return showStart(v, "", http.StatusOK) }

// showStart shows the form with what was typed; at first every kit is ticked.
func showStart(v *visit, fault string, status int) error {
	sheets, err := kit.Library()
	if err != nil {
		return err
	}
	sv := startView{Name: v.typed("name"), Serial: v.typed("serial"), Owner: v.typed("owner"), Fault: fault}
	for _, s := range sheets {
		k := s.File.Kit
		sv.Kits = append(sv.Kits, kitForm{ID: k.ID, Title: k.Title, About: k.About, Taken: v.r.Method == http.MethodGet || v.typed("take:"+k.ID) != ""})
		sv.ask(v, s)
	}
	return v.show("start", status, frame{Title: "Start a machine", Back: "/", Data: sv})
}

// ask adds the questions of a kit that no kit before it asked.
func (sv *startView) ask(v *visit, s *kit.Sheet) {
	for _, c := range s.File.Counts {
		field := questionField("count", c.ID)
		if slices.ContainsFunc(sv.Counts, func(f countForm) bool { return f.Field == field }) {
			continue
		}
		cf := countForm{Field: field, Ask: c.Ask, Value: v.typed(field), Least: c.Least, Most: c.Most}
		if cf.Value == "" {
			cf.Value = strconv.Itoa(c.Default)
		}
		sv.Counts = append(sv.Counts, cf)
	}
	for _, c := range s.File.Choices {
		field := questionField("choice", c.ID, c.Answers...)
		if slices.ContainsFunc(sv.Choices, func(f choiceForm) bool { return f.Field == field }) {
			continue
		}
		chosen := v.typed(field)
		if chosen == "" {
			chosen = c.Default
		}
		cf := choiceForm{Field: field, Ask: c.Ask}
		for _, a := range c.Answers {
			cf.Answers = append(cf.Answers, option{a, a, a == chosen})
		}
		sv.Choices = append(sv.Choices, cf)
	}
}

// questionField names a question of the form: alike where the id and the
// answers are alike.
func questionField(sort, id string, answers ...string) string {
	return strings.Join(append([]string{sort, id}, answers...), ":")
}

// startPost makes the machine and opens its bench.
func startPost(v *visit) error {
	name := clip(v.typed("name"), 80)
	if name == "" {
		return showStart(v, "The machine has no name yet, so nothing was made. Give it the name you call it by.", http.StatusUnprocessableEntity)
	}
	bodies, fault, err := takeKits(v)
	if err != nil {
		return err
	}
	if fault != "" {
		return showStart(v, fault, http.StatusUnprocessableEntity)
	}
	named := &machine.MachineNamed{Name: name, Serial: clip(v.typed("serial"), 60), Owner: clip(v.typed("owner"), 80)}
	bodies = append([]machine.Body{named}, bodies...)
	id, made, err := freeID(v, name, bodies)
	if err != nil {
		return err
	}
	if made {
		return v.go303("/m/" + url.PathEscape(string(id)) + "/survey")
	}
	if _, err := v.shop.StartOnce(v.r.Context(), id, name, v.who(), v.typed(onceField), bodies); err != nil {
		return err
	}
	return v.go303("/m/" + url.PathEscape(string(id)) + "/survey")
}

// takeKits expands the kits that were ticked, with their counts and choices.
func takeKits(v *visit) (bodies []machine.Body, fault string, err error) {
	sheets, err := kit.Library()
	if err != nil {
		return nil, "", err
	}
	taking := kit.Taking{Counts: map[string]map[string]int{}, Choices: map[string]map[string]string{}}
	var taken []*kit.Sheet
	for _, s := range sheets {
		f := s.File
		if v.typed("take:"+f.Kit.ID) == "" {
			continue
		}
		taken = append(taken, s)
		taking.Counts[f.Kit.ID], taking.Choices[f.Kit.ID] = map[string]int{}, map[string]string{}
		for _, c := range f.Counts {
			text := v.typed(questionField("count", c.ID))
			n, err := strconv.Atoi(text)
			if err != nil {
				return nil, fmt.Sprintf("“%s” is no count for “%s”. Nothing was made; give a whole number from %d to %d.", clip(text, 20), c.Ask, c.Least, c.Most), nil
			}
			taking.Counts[f.Kit.ID][c.ID] = n
		}
		for _, c := range f.Choices {
			if a := v.typed(questionField("choice", c.ID, c.Answers...)); a != "" {
				taking.Choices[f.Kit.ID][c.ID] = a
			}
		}
	}
	if len(taken) == 0 {
		return nil, "No kit was chosen, so nothing was made. Tick at least one; more can be left out later.", nil
	}
	bodies, _, err = kit.Expand(taken, taking)
	var bad kit.TakingError
	if errors.As(err, &bad) {
		return nil, spelling.Head(bad.Error()) + ". Nothing was made; change it and start again.", nil
	}
	return bodies, "", err
}

// freeID makes an address of a name: letters and figures, and a number behind
// it where the shop has that one already. made tells that this very form made
// it before.
func freeID(v *visit, name string, bodies []machine.Body) (id machine.MachineID, made bool, err error) {
	list, err := v.shop.Machines(v.r.Context())
	if err != nil {
		return "", false, err
	}
	have := map[machine.MachineID]bool{}
	for _, l := range list {
		have[l.ID] = true
	}
	word := wordOf(name, "machine")
	id = machine.MachineID(word)
	for n := 2; have[id]; n++ {
		b, err := v.shop.Bench(v.r.Context(), id)
		if err != nil {
			return "", false, err
		}
		if made, err := b.Kept(v.r.Context(), v.typed(onceField), bodies...); made || err != nil {
			return id, made, err
		}
		id = machine.MachineID(fmt.Sprintf("%s-%d", word, n))
	}
	return id, false, nil
}

// wordOf makes a word for an address of a name: small letters, figures and
// strokes; otherwise, where nothing is left of it.
func wordOf(name, otherwise string) string {
	word := strings.Trim(strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		}
		return '-'
	}, name), "-")
	if word == "" {
		return otherwise
	}
	return word
}
