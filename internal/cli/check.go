package cli

import (
	"fmt"
)

type checkCmd struct{}

// Run proves the file whole: the store's own sums, and that what is folded
// from it again is what the machine says.
func (c *checkCmd) Run(r *run) error {
	shop, done, err := r.open(false)
	if err != nil {
		return err
	}
	defer done()
	report, err := shop.Log().Check(r.ctx)
	if err != nil {
		return err
	}
	if r.json {
		if err := r.print(reportJSONOf(report)); err != nil {
			return err
		}
	} else {
		fmt.Fprintf(r.Out, "%s, %s, %s looked at\n", plural(report.Machines, "machine", "machines"),
			plural(int(report.Entries), "entry", "entries"), plural(report.Blobs, "attachment", "attachments"))
		for _, f := range report.Faults {
			fmt.Fprintf(r.Out, "fault: %s\n", f.Text)
		}
	}
	if len(report.Faults) > 0 {
		return &toldError{"the file has faults"}
	}
	if !r.json {
		fmt.Fprintln(r.Out, "The file is whole.")
	}
	return nil
}
