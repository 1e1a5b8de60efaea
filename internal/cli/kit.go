package cli

import (
	"fmt"
	"os"
	"slices"

	"matchmark/internal/kit"
)

type kitCmd struct {
	List  kitListCmd  `cmd:"" help:"List the kits, with their counts and choices."`
	Check kitCheckCmd `cmd:"" help:"Name line and cure for each fault of a kit file."`
}

type kitListCmd struct{}

func (c *kitListCmd) Run(r *run) error {
	sheets, err := kit.Library()
	if err != nil {
		return err
	}
	if r.json {
		out := []kitJSON{}
		for _, s := range sheets {
			out = append(out, kitJSONOf(s))
		}
		return r.print(out)
	}
	for _, s := range sheets {
		f := s.File
		fmt.Fprintf(r.Out, "%-12s %s: %d parts, %d joints, %d checks\n", f.Kit.ID, f.Kit.Title, len(f.Parts), len(f.Joints), len(f.Checks))
		for _, n := range f.Counts {
			fmt.Fprintf(r.Out, "             --count %s=%d   %s (%d to %d)\n", n.ID, n.Default, n.Ask, n.Least, n.Most)
		}
		for _, n := range f.Choices {
			fmt.Fprintf(r.Out, "             --choice %s=%s   %s (%v)\n", n.ID, n.Default, n.Ask, n.Answers)
		}
	}
	return nil
}

type kitCheckCmd struct {
	Files []string `arg:"" help:"Kit files; kits of the library they use are found by themselves."`
}

func (c *kitCheckCmd) Run(r *run) error {
	var sheets []*kit.Sheet
	var faults kit.Faults
	for _, name := range c.Files {
		text, err := os.ReadFile(name)
		if err != nil {
			return fmt.Errorf("the kit could not be read: %w", err)
		}
		s, found := kit.Read(name, text)
		faults = append(faults, found...)
		if s != nil {
			sheets = append(sheets, s)
		}
	}
	library, err := kit.Library()
	if err != nil {
		return err
	}
	if len(faults) == 0 {
		faults = inspect(library, sheets)
	}
	if r.json {
		out := []faultJSON{}
		for _, f := range faults {
			out = append(out, faultJSON{f.File, f.Line, f.Item, f.Problem, f.Cure})
		}
		if err := r.print(out); err != nil {
			return err
		}
	} else {
		for _, f := range faults {
			fmt.Fprintln(r.Out, f)
		}
	}
	if len(faults) > 0 {
		return &toldError{"the kit has faults"}
	}
	if !r.json {
		fmt.Fprintf(r.Out, "%s without fault.\n", plural(len(sheets), "kit", "kits"))
	}
	return nil
}

// inspect checks kits together with those of the library that they do not
// replace, and gives the faults of the former only.
func inspect(library, sheets []*kit.Sheet) kit.Faults {
	mine := map[string]bool{}
	ids := map[string]bool{}
	for _, s := range sheets {
		mine[s.Name], ids[s.Kit.ID] = true, true
	}
	all := slices.Clone(sheets)
	for _, s := range library {
		if !ids[s.Kit.ID] {
			all = append(all, s)
		}
	}
	var out kit.Faults
	for _, f := range kit.Inspect(all...) {
		if mine[f.File] {
			out = append(out, f)
		}
	}
	return out
}
