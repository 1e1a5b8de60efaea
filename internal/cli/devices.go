package cli

import (
	"errors"
	"fmt"

	"matchmark/internal/door"
)

type devicesCmd struct {
	List devicesListCmd `cmd:"" help:"Devices that were let in."`
	Drop devicesDropCmd `cmd:"" help:"Let a device out, at once."`
}

type devicesListCmd struct{}

func (devicesListCmd) Run(r *run) error {
	shop, done, err := r.open(false)
	if err != nil {
		return err
	}
	defer done()
	list, err := door.New(shop.Log(), r.Now).Devices(r.ctx)
	if err != nil {
		return err
	}
	if r.json {
		return r.print(append([]door.Device{}, list...))
	}
	if len(list) == 0 {
		fmt.Fprintln(r.Out, "No device was let in.")
	}
	for _, d := range list {
		fmt.Fprintf(r.Out, "%s  %s, records as %s, let in %s, last seen %s\n", d.ID, d.Name, d.By,
			d.Since.In(r.Now().Location()).Format("2 Jan 2006"), d.Seen.In(r.Now().Location()).Format("2 Jan 2006, 15:04"))
	}
	return nil
}

type devicesDropCmd struct {
	ID string `arg:"" help:"The device, by its id in the list."`
}

func (c *devicesDropCmd) Run(r *run) error {
	shop, done, err := r.open(false)
	if err != nil {
		return err
	}
	defer done()
	d, err := door.New(shop.Log(), r.Now).LetOut(r.ctx, c.ID)
	if errors.Is(err, door.ErrNoDevice) {
		return fmt.Errorf("no device %q was let in; `matchmark devices list` shows them", c.ID)
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(r.Out, "%s of %s is out. What it recorded stays in the book.\n", d.Name, d.By)
	return nil
}
