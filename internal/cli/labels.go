package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/book/labels"
	"matchmark/internal/machine"
	"matchmark/internal/trade/traymark"
)

type labelsCmd struct {
	Marks   []string `arg:"" optional:"" help:"Marks of the trays; all trays where none is named."`
	Out     string   `help:"File for the PDF." placeholder:"FILE" required:""`
	Size    string   `help:"Size: sheet (A4, 3 × 8 of 70 × 37 mm), roll29, roll40 or roll60 (62 mm wide)." default:"sheet" enum:"sheet,roll29,roll40,roll60"`
	Start   int      `help:"Label of the first sheet to begin at." default:"1"`
	Tags    bool     `help:"Tie-on tags of the parts with a call, in place of tray labels."`
	Make    int      `help:"Make so many empty trays, with fresh marks, and print their labels."`
	Address string   `help:"Address of the pages in the code, as a phone opens it; else the one kept on the labels page." placeholder:"URL"`
	Arrow   string   `help:"Arrow: up, left or right." enum:",up,left,right" default:""`
	Toward  string   `help:"What the arrow points to." placeholder:"WORD"`
	Proof   bool     `help:"The page to try a printer with, in place of labels."`
}

// labelsJSON is the answer in JSON (docs/JSON.md).
type labelsJSON struct {
	File   string   `json:"file"`
	Labels []string `json:"labels"` // mark of the tray, or name of the part
	Pages  int      `json:"pages"`
	Codes  bool     `json:"codes"` // the labels carry a code
	Made   []string `json:"made,omitempty"`
	Notes  []string `json:"notes,omitempty"`
}

// Run writes the PDF. Nothing is recorded but the trays made with --make.
func (c *labelsCmd) Run(r *run) error {
	if err := c.agree(); err != nil {
		return err
	}
	shop, done, err := r.open(false)
	if err != nil {
		return err
	}
	defer done()
	id, err := r.pick(shop)
	if err != nil {
		return err
	}
	b, err := shop.Bench(r.ctx, id)
	if err != nil {
		return err
	}
	setup, address, err := c.setup(r, shop)
	if err != nil {
		return err
	}
	v, made, err := c.make(r, b)
	if err != nil {
		return err
	}
	setup.AsOf = v.AsOf
	all, err := c.choose(v, address, made)
	if err != nil {
		return err
	}
	layout, err := labels.Lay(all, setup)
	if c.Proof {
		layout, err = labels.Proof(setup)
	}
	if err != nil {
		return err
	}
	data, err := layout.PDF()
	if err != nil {
		return err
	}
	if err := writeWhole(c.Out, data); err != nil {
		return err
	}
	return c.tell(r, labelsJSON{File: c.Out, Labels: namesOf(all), Pages: len(layout.Pages), Codes: address != "" && !c.Proof, Made: made, Notes: layout.Notes})
}

// agree refuses options that ask for two things at once.
func (c *labelsCmd) agree() error {
	asked := 0
	for _, on := range []bool{len(c.Marks) > 0, c.Tags, c.Make != 0, c.Proof} {
		if on {
			asked++
		}
	}
	switch {
	case asked > 1:
		return errors.New("marks, --tags, --make and --proof each say what is printed; give one of them")
	case c.Make < 0 || c.Make > labels.MostLabels:
		return fmt.Errorf("%d trays cannot be made at once; make 1 to %d", c.Make, labels.MostLabels)
	}
	return nil
}

// setup reads what the shop keeps about its printers, and the address.
func (c *labelsCmd) setup(r *run, shop *bench.Shop) (labels.Setup, string, error) {
	data, err := shop.Log().Paper(r.ctx, labels.SettingsPaper)
	if err != nil {
		return labels.Setup{}, "", err
	}
	kept, err := labels.ReadSettings(data)
	if err != nil {
		return labels.Setup{}, "", err
	}
	address := kept.Address
	if c.Address != "" {
		if address, err = labels.ReadAddress(c.Address); err != nil {
			return labels.Setup{}, "", err
		}
	}
	size, _ := labels.SizeOf(c.Size) // the command line takes known sizes only
	off := kept.Offsets[size.ID]
	return labels.Setup{Size: size, Start: c.Start, OffX: off.X, OffY: off.Y, Arrow: labels.Arrow(c.Arrow), Toward: c.Toward}, address, nil
}

// make makes the empty trays asked for and gives the machine after that.
func (c *labelsCmd) make(r *run, b *bench.Bench) (*bench.View, []string, error) {
	v, err := b.View(r.ctx)
	if err != nil || c.Make == 0 {
		return v, nil, err
	}
	used := v.Machine.UsedMarks()
	made := traymark.Next(c.Make, string(b.ID()), func(mark string) bool { return used[mark] || used[strings.ToLower(mark)] })
	if len(made) < c.Make {
		return nil, nil, fmt.Errorf("only %d marks are left on this machine; nothing was made", len(made))
	}
	var bodies []machine.Body
	for _, m := range made {
		bodies = append(bodies, &machine.TrayMade{Mark: m})
	}
	v, err = b.Record(r.ctx, r.who(), bodies...)
	return v, made, err
}

// choose lists the labels asked for.
func (c *labelsCmd) choose(v *bench.View, address string, made []string) ([]labels.Label, error) {
	m := v.Machine
	var out []labels.Label
	add := func(l labels.Label, what string) {
		l.Link = labels.Link(address, v.ID, what)
		out = append(out, l)
	}
	switch wanted := append(slices.Clone(c.Marks), made...); {
	case c.Proof:
		return nil, nil
	case c.Tags:
		for _, p := range m.Parts {
			if p.Call != machine.NotJudged {
				add(labels.TagOf(m, p), string(machine.RefPart(p.ID)))
			}
		}
	default:
		for _, mark := range wanted {
			if !slices.ContainsFunc(m.Trays, func(t machine.Tray) bool { return t.Mark == traymark.Read(mark) }) {
				return nil, fmt.Errorf("there is no tray %q on this machine; nothing was written", mark)
			}
		}
		for i := range m.Trays {
			t := &m.Trays[i]
			chosen := len(wanted) == 0 || slices.ContainsFunc(wanted, func(mark string) bool { return traymark.Read(mark) == t.Mark })
			if chosen && t.Mark != machine.NoTray {
				add(labels.Of(m, t), t.Mark)
			}
		}
	}
	if len(out) == 0 {
		return nil, errors.New("there is nothing to label: no tray is in use, or no part has a call. `--make 6` makes six empty trays")
	}
	return out, nil
}

func namesOf(all []labels.Label) []string {
	out := []string{}
	for _, l := range all {
		if l.Tag {
			out = append(out, l.Name)
			continue
		}
		out = append(out, l.Mark)
	}
	return out
}

// tell says what was written, and what is to be known about it.
func (c *labelsCmd) tell(r *run, said labelsJSON) error {
	if r.json {
		return r.print(said)
	}
	if c.Proof {
		fmt.Fprintf(r.Out, "%s: the page to try a printer with. Print it at actual size; its rule is 50 mm long\n", said.File)
		return nil
	}
	fmt.Fprintf(r.Out, "%s: %d labels on %d pages. Print at actual size\n", said.File, len(said.Labels), said.Pages)
	if len(said.Made) > 0 {
		fmt.Fprintf(r.Out, "made: %s\n", strings.Join(said.Made, " "))
	}
	if !said.Codes {
		fmt.Fprintln(r.Out, "no code: no address of the pages is known; give --address, or keep one on the labels page")
	}
	for _, n := range said.Notes {
		fmt.Fprintf(r.Out, "note: %s\n", n)
	}
	return nil
}

// writeWhole writes a file in one move, so that a failure leaves what was there.
func writeWhole(path string, data []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".labels-*")
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w; name another place with --out", path, err)
	}
	_, err = f.Write(data)
	err = errors.Join(err, f.Close())
	if err == nil {
		err = os.Chmod(f.Name(), 0o644)
	}
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		_ = os.Remove(f.Name())
		return fmt.Errorf("%s cannot be written: %w; name another place with --out", path, err)
	}
	return nil
}
