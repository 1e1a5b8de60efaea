package cli

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"matchmark/internal/benchlock"
	"matchmark/internal/door"
	"matchmark/internal/store"
)

type pairCmd struct {
	At string `help:"Address that the phone calls, where this computer has several." placeholder:"ADDRESS"`
}

// Run makes a code for one more device, beside the server.
func (c *pairCmd) Run(r *run) error {
	shop, done, err := r.open(false)
	if err != nil {
		return err
	}
	defer done()
	at, err := r.served(shop.Log())
	if err != nil {
		return err
	}
	reach := at.reach()
	if len(reach) == 0 {
		return fmt.Errorf("%s is served at %s, which only this computer reaches; stop it and start it with --addr 0.0.0.0:7462", r.bookPath(), at.Addr)
	}
	if c.At != "" {
		i := slices.IndexFunc(reach, func(a string) bool {
			return strings.Contains(a, "//"+c.At+":") || strings.Contains(a, "//["+c.At+"]:") || a == c.At
		})
		if i < 0 {
			return fmt.Errorf("this computer is not served at %q; it is at %s", c.At, strings.Join(reach, ", "))
		}
		reach = []string{reach[i]}
	}
	return r.showCode(door.New(shop.Log(), r.Now), reach)
}

// served is where the book is served now.
func (r *run) served(shelf store.Shelf) (place, error) {
	release, err := store.Claim(r.bookPath(), "a look whether it is served")
	if err == nil {
		release()
		return place{}, fmt.Errorf("%s is not being served, so no device could come in; start `matchmark serve --addr 0.0.0.0:7462`, or name the book that is served with --book", r.bookPath())
	}
	if !errors.Is(err, store.ErrHeld) {
		return place{}, err
	}
	data, err := shelf.Paper(r.ctx, placePaper)
	if err != nil {
		return place{}, err
	}
	var at place
	if err := json.Unmarshal(data, &at); err != nil {
		return place{}, fmt.Errorf("where %s is served is not noted: %w; stop the server and start it again", r.bookPath(), err)
	}
	return at, nil
}

// welcome prints, at the start of a server that other devices reach, a code
// for the first of them.
func (r *run) welcome(at place, s Serving) error {
	reach := s.Reach()
	if r.json {
		return nil
	}
	if s.Lock != nil {
		r.tellLock(at, s.Lock)
	}
	if !at.beyond() {
		return nil
	}
	if len(reach) == 0 {
		fmt.Fprintln(r.Out, "This computer has no address now that a phone could call. When it has, the Devices page lets phones in.")
		return nil
	}
	return r.showCode(s.Door, reach)
}

func (r *run) tellLock(at place, lock *benchlock.Lock) {
	fmt.Fprintf(r.Out, "\n%s, good until %s. Its SHA-256:\n  %s\n", lock.Name(), lock.Ends().Format("2 Jan 2006"), lock.Fingerprint())
	for _, a := range at.addrs() {
		if !benchlock.Vouches(a) {
			fmt.Fprintf(r.Out, "It vouches for private IPv4 addresses only, so not for %s.\n", a)
		}
	}
	if reach := at.reach(); len(reach) > 0 {
		fmt.Fprintf(r.Out, "A device that does not trust it yet opens %s/lock first.\n", strings.Replace(reach[0], "https://", "http://", 1))
	}
}

// codeJSON is a code as docs/JSON.md has it.
type codeJSON struct {
	Address string    `json:"address"`
	Digits  string    `json:"digits"`
	Until   time.Time `json:"until"`
}

// showCode makes a code and shows it: a picture for the camera, digits for
// fingers.
func (r *run) showCode(d *door.Door, reach []string) error {
	code, err := d.NewCode(r.ctx)
	if err != nil {
		return err
	}
	if r.json {
		return r.print(codeJSON{code.Address(reach[0]), code.Digits, code.Until})
	}
	pic, err := door.Picture(code.Address(reach[0]))
	if err != nil {
		return err
	}
	fmt.Fprintf(r.Out, "\nTo let a phone in, point its camera at this:\n\n%s\nor open %s/pair on it and type %s\nGood once, until %s. `matchmark pair` or the Devices page makes another.\n",
		halfBlocks(pic, terminal(r.Out)), reach[0], code.Spaced(), code.Until.Format("15:04"))
	if len(reach) > 1 {
		fmt.Fprintf(r.Out, "This computer also answers at %s.\n", strings.Join(reach[1:], ", "))
	}
	return nil
}

// halfBlocks draws a QR code, two rows to a line. Blocks are the light modules:
// a terminal is dark. inColour says so to terminals of any colour.
func halfBlocks(s door.Squares, inColour bool) string {
	var out strings.Builder
	for y := 0; y < len(s); y += 2 {
		if inColour {
			out.WriteString("\x1b[97;40m")
		}
		for x := range s {
			above, below := !s.Dark(x, y), !s.Dark(x, y+1)
			switch {
			case above && below:
				out.WriteRune('█')
			case above:
				out.WriteRune('▀')
			case below:
				out.WriteRune('▄')
			default:
				out.WriteRune(' ')
			}
		}
		if inColour {
			out.WriteString("\x1b[0m")
		}
		out.WriteByte('\n')
	}
	return out.String()
}

// terminal tells whether a person sees what is written.
func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
