package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
)

type bookFileCmd struct {
	Into string `help:"File to write; it must not be there yet." placeholder:"FILE" required:""`
}

// Run writes the book as one HTML file. A file that is there stays as it is.
func (c *bookFileCmd) Run(r *run) error {
	shop, done, err := r.open(false)
	if err != nil {
		return err
	}
	defer done()
	id, err := r.pick(shop)
	if err != nil {
		return err
	}
	data, err := r.BookFile(r.ctx, shop, id)
	if err != nil {
		return err
	}
	file, err := os.OpenFile(c.Into, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s is there already and was left as it is; name another file", c.Into)
	}
	if err != nil {
		return fmt.Errorf("the book cannot be written: %w; name a file in a folder that takes it", err)
	}
	_, err = file.Write(data)
	if err = errors.Join(err, file.Close()); err != nil {
		return fmt.Errorf("%s is not whole: %w; take it away and try again where there is room", c.Into, err)
	}
	if r.json {
		return r.print(struct {
			File  string `json:"file"`
			Bytes int    `json:"bytes"`
		}{c.Into, len(data)})
	}
	fmt.Fprintf(r.Out, "The book is in %s, %d kB. Any browser opens it, without this program.\n", c.Into, (len(data)+500)/1000)
	return nil
}
