package web

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/book/labels"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
	"matchmark/internal/trade/traymark"
)

// labelsPost keeps what is found out once for a shop, or makes empty trays.
func labelsPost(v *visit) error {
	w, err := v.wish(v.r.PostForm)
	if err != nil {
		return err
	}
	switch v.typed("do") {
	case "keep":
		return v.keepSettings(w)
	case "make":
		return v.makeTrays(w)
	}
	return v.showLabels(w, "The page did not say what to keep, so nothing was kept. Use one of the buttons.", http.StatusUnprocessableEntity)
}

// keepSettings keeps the address in the codes and the offsets of one size.
func (v *visit) keepSettings(w wish) error {
	address, err := labels.ReadAddress(v.typed("address"))
	x, errX := labels.ReadOffset(v.typed("offx"))
	y, errY := labels.ReadOffset(v.typed("offy"))
	for _, err := range []error{err, errX, errY} {
		if err != nil {
			lv := v.viewLabels(w)
			lv.Fault = spelling.Head(err.Error()) + ". Nothing was kept yet."
			lv.Address, lv.OffX, lv.OffY = clip(v.typed("address"), 120), clip(v.typed("offx"), 20), clip(v.typed("offy"), 20)
			return v.show("labels", http.StatusUnprocessableEntity, frame{Title: "Labels", Here: "Trays", Back: v.base() + "/trays", Data: lv})
		}
	}
	s := w.kept.With(w.setup.Size.ID, labels.Offset{X: x, Y: y})
	s.Address, s.Size = address, w.setup.Size.ID
	if err := v.shop.Log().PutPaper(v.r.Context(), labels.SettingsPaper, s.Bytes()); err != nil {
		return err
	}
	return v.go303(v.base() + "/labels?size=" + w.setup.Size.ID)
}

// makeTrays makes empty trays with the marks the form was given, so that a form
// sent twice makes them once; where another page took one of them meanwhile,
// with fresh ones.
func (v *visit) makeTrays(w wish) error {
	n, err := strconv.Atoi(v.typed("n"))
	if err != nil || n < 1 || n > mostMade {
		return v.showLabels(w, "“"+clip(v.typed("n"), 20)+"” is no number of trays from 1 to "+strconv.Itoa(mostMade)+", so none was made.", http.StatusUnprocessableEntity)
	}
	marks := strings.Fields(v.typed("marks"))
	marks = marks[:min(n, len(marks))]
	bodies := madeOf(marks)
	used := v.view.Machine.UsedMarks()
	fits := len(marks) == n && !slices.ContainsFunc(marks, func(m string) bool { return !traymark.Made(m) || used[m] })
	if !fits && !v.kept(bodies...) {
		marks = v.freshMarks(n)
		bodies = madeOf(marks)
	}
	if len(bodies) == 0 {
		return v.showLabels(w, "Every mark of this machine is in use, so no tray was made. Give a tray a mark of your own where a part is laid into it.", http.StatusUnprocessableEntity)
	}
	if _, err := v.record(bodies...); err != nil {
		return err
	}
	q := url.Values{"what": {"chosen"}, "tray": marks, "size": {w.setup.Size.ID}}
	return v.go303(v.base() + "/labels?" + q.Encode())
}

func madeOf(marks []string) []machine.Body {
	var out []machine.Body
	for _, m := range marks {
		out = append(out, &machine.TrayMade{Mark: m})
	}
	return out
}

// paper sends a drawing of the labels; one with a name is offered under it.
func (v *visit) paper(kind, name string, data []byte) error {
	head := v.w.Header()
	head.Set("Content-Type", kind)
	head.Set("Cache-Control", "no-cache")
	if v.asked("v") == likeness(data) {
		head.Set("Cache-Control", "private, max-age=31536000, immutable")
	}
	if name != "" {
		head.Set("Content-Disposition", `inline; filename="`+wordOf(string(v.view.ID), "machine")+"-"+name+`"`)
	}
	if kind != "application/pdf" && strings.Contains(v.r.Header.Get("Accept-Encoding"), "gzip") {
		head.Set("Content-Encoding", "gzip")
		data = pack(data)
	}
	head.Add("Vary", "Accept-Encoding, Cookie")
	_, err := v.w.Write(data)
	gone(v.r, err)
	return nil
}
