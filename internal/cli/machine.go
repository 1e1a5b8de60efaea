package cli

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"matchmark/internal/kit"
	"matchmark/internal/machine"
)

type machineCmd struct {
	New  machineNewCmd  `cmd:"" help:"Start a machine from kits."`
	List machineListCmd `cmd:"" help:"List the machines of the file."`
	Show machineShowCmd `cmd:"" help:"Show one machine in figures."`
}

type machineNewCmd struct {
	Name   string            `arg:"" help:"What the machine is called."`
	ID     string            `help:"Its id in addresses and commands; made from the name when left out."`
	Serial string            `help:"Number on its plate."`
	Owner  string            `help:"Whose it is."`
	Kits   []string          `help:"Kits to take, parted by commas; all of them when left out." placeholder:"KIT,…"`
	Count  map[string]int    `help:"A count of a kit, such as cylinders=2." placeholder:"NAME=N"`
	Choice map[string]string `help:"A choice of a kit, such as charging=alternator." placeholder:"NAME=WORD"`
}

func (c *machineNewCmd) Run(r *run) error {
	library, err := kit.Library()
	if err != nil {
		return err
	}
	sheets, take, err := kit.Choose(library, c.Kits, c.Count, c.Choice)
	if err != nil {
		return err
	}
	bodies, notes, err := kit.Expand(sheets, take)
	if err != nil {
		return err
	}
	id := machine.MachineID(c.ID)
	if id == "" {
		id = idFrom(c.Name)
	}
	named := &machine.MachineNamed{Name: c.Name, Serial: c.Serial, Owner: c.Owner}
	shop, done, err := r.open(true)
	if err != nil {
		return err
	}
	defer done()
	b, err := shop.Start(r.ctx, id, c.Name, r.who(), append([]machine.Body{named}, bodies...))
	if err != nil {
		return err
	}
	v, err := b.View(r.ctx)
	if err != nil {
		return err
	}
	s := figuresOf(v)
	if r.json {
		return r.print(s)
	}
	fmt.Fprintf(r.Out, "%s is started as %s in %s.\n", c.Name, id, r.bookPath())
	s.write(r.Out)
	for _, n := range notes {
		fmt.Fprintf(r.Out, "note: kit %s, %s: %s\n", n.Kit, n.Item, n.Text)
	}
	return nil
}

// idFrom makes an id of a name: lower case, words joined by hyphens.
func idFrom(name string) machine.MachineID {
	words := strings.FieldsFunc(strings.ToLower(name), func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) })
	if len(words) == 0 {
		return "machine"
	}
	return machine.MachineID(strings.Join(words, "-"))
}

type machineListCmd struct{}

func (c *machineListCmd) Run(r *run) error {
	shop, done, err := r.open(false)
	if err != nil {
		return err
	}
	defer done()
	list, err := shop.Machines(r.ctx)
	if err != nil {
		return err
	}
	if r.json {
		out := []listedJSON{}
		for _, l := range list {
			out = append(out, listedJSON{ID: l.ID, Name: l.Name, Entries: l.Entries})
		}
		return r.print(out)
	}
	for _, l := range list {
		fmt.Fprintf(r.Out, "%-24s %s, %s\n", l.ID, l.Name, plural(int(l.Entries), "entry", "entries"))
	}
	return nil
}

type machineShowCmd struct{}

func (c *machineShowCmd) Run(r *run) error {
	v, done, err := r.view()
	if err != nil {
		return err
	}
	defer done()
	s := figuresOf(v)
	if r.json {
		return r.print(s)
	}
	s.write(r.Out)
	for _, q := range v.Machine.Questions {
		fmt.Fprintf(r.Out, "question (entry %s): %s\n", q.Entry, q.Text)
	}
	return nil
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
