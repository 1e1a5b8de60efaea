package cli

import (
	"fmt"
	"os"
	"path/filepath"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/store"
)

// bookPath is the file named by --book, else the shop's own.
func (r *run) bookPath() string {
	if r.book != "" {
		return r.book
	}
	return filepath.Join(r.DataDir, "book.db")
}

// open opens the store; a file that is not there yet is made only when make
// is set, so that a slip of the pen does not leave empty files behind.
func (r *run) open(make bool) (*bench.Shop, func(), error) {
	path := r.bookPath()
	if _, err := os.Stat(path); os.IsNotExist(err) {
		if !make {
			return nil, nil, fmt.Errorf("there is no book at %s yet; `matchmark machine new` makes one, or name another with --book", path)
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return nil, nil, fmt.Errorf("no folder for the book at %s: %w; name another place with --book", path, err)
		}
	}
	log, err := store.Open(path)
	if err != nil {
		return nil, nil, err
	}
	return bench.NewShop(log, r.Now), func() { _ = log.Close() }, nil
}

// view opens the machine that is meant and gives its present view; done closes
// the store.
func (r *run) view() (v *bench.View, done func(), err error) {
	b, done, err := r.bench()
	if err != nil {
		return nil, nil, err
	}
	v, err = b.View(r.ctx)
	if err != nil {
		done()
		return nil, nil, err
	}
	return v, done, nil
}

// bench opens the machine that is meant: the one named, else the only one.
func (r *run) bench() (*bench.Bench, func(), error) {
	shop, done, err := r.open(false)
	if err != nil {
		return nil, nil, err
	}
	id, err := r.pick(shop)
	if err == nil {
		var b *bench.Bench
		if b, err = shop.Bench(r.ctx, id); err == nil {
			return b, done, nil
		}
	}
	done()
	return nil, nil, err
}

func (r *run) pick(shop *bench.Shop) (machine.MachineID, error) {
	if r.on != "" {
		return machine.MachineID(r.on), nil
	}
	list, err := shop.Machines(r.ctx)
	if err != nil {
		return "", err
	}
	switch len(list) {
	case 0:
		return "", fmt.Errorf("%s holds no machine yet; start one with `matchmark machine new NAME`", r.bookPath())
	case 1:
		return list[0].ID, nil
	}
	ids := ""
	for _, l := range list {
		ids += " " + string(l.ID)
	}
	return "", fmt.Errorf("%s holds %d machines; say which with --on:%s", r.bookPath(), len(list), ids)
}

func (r *run) who() bench.Who { return bench.Who{By: r.By, Device: r.Device} }
