package web

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"matchmark/internal/door"
)

// devicesView is who was let in, and how to let in another.
type devicesView struct {
	Said    string
	Devices []deviceRow
	Reach   []option // addresses that another device can open
	Code    *codeView
	Lock    string // where a phone gets the bench lock's certificate, if there is a lock
	Local   bool
}

type deviceRow struct {
	ID, Name, By, Words string
	Here                bool // the one that asks
}

// codeView is a fresh code, shown once.
type codeView struct {
	At     string // address without the secret
	Digits string
	Until  string
	Side   int    // of the picture, in modules
	Path   string // the dark modules
}

func devicesPage(v *visit) error { return v.showDevices("", nil) }

func (v *visit) showDevices(said string, code *codeView) error {
	list, err := v.opt.Door.Devices(v.r.Context())
	if err != nil {
		return err
	}
	dv := devicesView{Said: said, Code: code, Local: local(v.r)}
	me, _ := deviceOf(v.r)
	now := v.opt.Now()
	for _, d := range list {
		dv.Devices = append(dv.Devices, deviceRow{ID: d.ID, Name: d.Name, By: d.By, Here: d.ID == me.ID,
			Words: "Let in " + day(d.Since.In(now.Location())) + ", last seen " + seen(d.Seen, now)})
	}
	for i, at := range v.opt.Reach() {
		dv.Reach = append(dv.Reach, option{at, at, i == 0})
	}
	if v.opt.Lock != nil && len(dv.Reach) > 0 {
		dv.Lock = strings.Replace(dv.Reach[0].Value, "https://", "http://", 1) + "/lock"
	}
	return v.show("devices", http.StatusOK, frame{Title: "Devices", Back: "/", Data: dv})
}

// seen says when a device was last here; it is written down hourly.
func seen(t, now time.Time) string {
	if now.Sub(t) < 2*time.Hour {
		return "within two hours"
	}
	return lately(t, now)
}

// devicesPost makes a code, or lets a device out.
func devicesPost(v *visit) error {
	if id := v.typed("out"); id != "" {
		dev, err := v.opt.Door.LetOut(v.r.Context(), id)
		if errors.Is(err, door.ErrNoDevice) {
			return v.showDevices("That device was let out before.", nil)
		}
		if err != nil {
			return err
		}
		if me, ok := deviceOf(v.r); ok && me.ID == dev.ID {
			return v.go303("/devices")
		}
		return v.showDevices(fmt.Sprintf("%s of %s is out. What it recorded stays in the book.", dev.Name, dev.By), nil)
	}
	at := v.typed("at")
	if reach := v.opt.Reach(); !slices.Contains(reach, at) {
		if len(reach) == 0 {
			return v.showDevices("The pages are served on this computer only, so no other device can come in yet.", nil)
		}
		at = reach[0]
	}
	code, err := v.opt.Door.NewCode(v.r.Context())
	if err != nil {
		return err
	}
	pic, err := door.Picture(code.Address(at))
	if err != nil {
		return err
	}
	return v.showDevices("", &codeView{At: at + "/pair", Digits: code.Spaced(), Side: len(pic), Path: darkPath(pic),
		Until: code.Until.In(v.opt.Now().Location()).Format("15:04")})
}

// darkPath draws the dark modules, row by row, as SVG path data.
func darkPath(s door.Squares) string {
	var out strings.Builder
	for y := range s {
		for x := 0; x < len(s); x++ {
			from := x
			for s.Dark(x, y) {
				x++
			}
			if x > from {
				fmt.Fprintf(&out, "M%d %dh%dv1h-%dz", from, y, x-from, x-from)
			}
		}
	}
	return out.String()
}
