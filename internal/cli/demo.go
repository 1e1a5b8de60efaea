package cli

import (
	"fmt"
	"os"
	"path/filepath"

	"matchmark/internal/bench"
	"matchmark/internal/demo"
	"matchmark/internal/store"
)

type demoCmd struct {
	listening
	Fresh   bool `help:"Begin the demo anew; what was tried out in it goes."`
	NoServe bool `name:"no-serve" help:"Run the main job, print its figures and stop."`
}

// Run loads the demo machine once into a book of its own and keeps what is
// tried out there until --fresh is given.
func (c *demoCmd) Run(r *run) error {
	if r.book == "" {
		r.book = filepath.Join(r.DataDir, "demo.db")
	}
	if c.Fresh {
		if err := r.forget(); err != nil {
			return err
		}
	}
	shop, done, err := r.open(true)
	if err != nil {
		return err
	}
	defer done()
	if err := demo.Load(r.ctx, shop.Log()); err != nil {
		return err
	}
	b, err := shop.Bench(r.ctx, demo.ID)
	if err != nil {
		return err
	}
	v, err := b.View(r.ctx)
	if err != nil {
		return err
	}
	if c.NoServe {
		return c.show(r, v, "")
	}
	var failed error
	err = r.serve(shop, c.listening, func(url string) { failed = c.show(r, v, url) })
	if err == nil {
		err = failed
	}
	return err
}

// show prints the figures of the main job and where the pages are.
func (c *demoCmd) show(r *run, v *bench.View, url string) error {
	s := figuresOf(v)
	if r.json {
		return r.print(struct {
			figuresJSON
			URL string `json:"url,omitempty"`
		}{s, url})
	}
	fmt.Fprintf(r.Out, "%s, the demo machine, half stripped\n", v.Machine.Name)
	s.write(r.Out)
	if url != "" {
		fmt.Fprintf(r.Out, "Serving at %s\nStop it with Ctrl-C; `matchmark demo --fresh` begins anew.\n", url)
	}
	return nil
}

// forget removes the demo's own file, unless a server holds it.
func (r *run) forget() error {
	release, err := store.Claim(r.bookPath(), "demo --fresh")
	if err != nil {
		return err
	}
	defer release()
	for _, tail := range []string{"", "-wal", "-shm"} {
		if err := os.Remove(r.bookPath() + tail); err != nil && !os.IsNotExist(err) {
			return fmt.Errorf("the old demo could not be removed: %w", err)
		}
	}
	return nil
}
