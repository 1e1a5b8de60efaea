package web

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"

	"matchmark/internal/book"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// buyPost records an order: things bought, work sent out, or anything else in
// words; or a new date for one that is away.
func buyPost(v *visit) error {
	due, fault := dayTyped(v.typed("due"))
	var body machine.Body
	if fault == "" {
		switch v.typed("do") {
		case "buy":
			body, fault = v.orderItems(due)
		case "send":
			body, fault = v.orderWork(due)
		case "promise":
			body, fault = v.newDate(due)
		default:
			fault = "The page did not say what to keep, so nothing was kept. Use one of the buttons."
		}
	}
	if fault != "" {
		bv := viewBuy(v.view, v.base(), aimAsked(v))
		bv.Fault, bv.From, bv.Due, bv.What = fault, v.typed("from"), v.typed("due"), v.typed("what")
		for _, g := range bv.Groups {
			for i := range g.Items {
				g.Items[i].Chosen = slices.Contains(v.r.PostForm["item"], g.Items[i].Key)
			}
		}
		return v.showBuy(bv, http.StatusUnprocessableEntity)
	}
	if _, err := v.record(body); err != nil {
		return err
	}
	return v.go303(v.base() + "/buy?aim=" + string(aimAsked(v)))
}

// dayTyped reads a day; nothing typed is no day.
func dayTyped(text string) (time.Time, string) {
	if text == "" {
		return time.Time{}, ""
	}
	for _, form := range []string{time.DateOnly, "2 Jan 2006", "2 January 2006", "2.1.2006", "2/1/2006"} {
		if t, err := time.Parse(form, text); err == nil && t.Year() > 1990 && t.Year() < 2200 {
			return t, ""
		}
	}
	return time.Time{}, "“" + clip(text, 30) + "” is no day, so nothing was kept. Give it as 2026-12-24, or leave it empty."
}

// orderItems is the order of what was ticked on the list and of what was typed
// beside it.
func (v *visit) orderItems(due time.Time) (machine.Body, string) {
	o := &machine.Ordered{From: clip(v.typed("from"), 120), Due: due}
	var what []string
	list := book.BuyingList(v.view.Machine, v.view.Judged(), v.view.Choices(aimAsked(v)))
	for _, it := range list.Items {
		if slices.Contains(v.r.PostForm["item"], keyOf(it)) {
			what = append(what, howMany(it.Qty)+it.Name+behind(", ", it.Size))
			o.Parts = append(o.Parts, it.Parts...)
		}
	}
	if other := clip(v.typed("what"), 200); other != "" {
		what = append(what, other)
	}
	if len(what) == 0 {
		return nil, "Nothing was ticked or named, so nothing was kept. Tick what was ordered."
	}
	o.What = strings.Join(what, "; ")
	o.Order = v.orderID(what[0])
	return o, ""
}

// howMany stands before a name: nothing for one, "3 × " for three.
func howMany(n int) string {
	if n == 1 {
		return ""
	}
	return strconv.Itoa(n) + " × "
}

// orderWork is the order to a shop: its parts are away from then on.
func (v *visit) orderWork(due time.Time) (machine.Body, string) {
	for _, s := range book.ShopOrder(v.view.Machine, v.view.Judged(), v.view.Choices(aimAsked(v))) {
		if s.Where != v.typed("where") {
			continue
		}
		var what []string
		for _, j := range s.Jobs {
			what = append(what, spelling.Inside(j.Name))
		}
		o := &machine.Ordered{Order: v.orderID(s.Where), What: strings.Join(counted(what), "; "), Out: true, From: clip(v.typed("from"), 120), Due: due}
		if o.From == "" {
			o.From = s.Where
		}
		for _, id := range partsSent(s) {
			if p := v.view.Machine.Part(id); p != nil && (p.Away == "" || p.Away == o.Order) {
				o.Parts = append(o.Parts, id)
			}
		}
		return o, ""
	}
	return nil, "Nothing goes to that place by this set, so nothing was kept. Look at the list again."
}

// newDate puts an order off.
func (v *visit) newDate(due time.Time) (machine.Body, string) {
	id := machine.OrderID(v.typed("order"))
	switch {
	case v.view.Machine.Order(id) == nil:
		return nil, "That order is not on this machine, so nothing was kept."
	case due.IsZero():
		return nil, "No day was given, so nothing was kept. Give the day it is now promised for."
	}
	return &machine.Promised{Order: id, Due: due, Why: clip(v.typed("why"), 200)}, ""
}

// orderID names an order after what it is; the form's own word tells it from
// others of the same name, and makes it the same when the form comes again.
func (v *visit) orderID(what string) machine.OrderID {
	sum := sha256.Sum256([]byte(v.typed(onceField) + "|" + what + "|" + v.view.AsOf.Format(time.DateOnly)))
	return machine.OrderID(wordOf(clip(what, 24), "order") + "-" + hex.EncodeToString(sum[:3]))
}
