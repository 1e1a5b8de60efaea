package web

import (
	"encoding/csv"
	"net/url"
	"strings"
	"testing"
	"time"

	"matchmark/internal/book"
	"matchmark/internal/demo"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
)

// TestBuyAndSendOut orders what is ticked, sends work out, puts an order off
// and takes it in; each form sent twice is kept once.
func TestBuyAndSendOut(t *testing.T) {
	h := newDemoHouse(t)
	base := "/m/" + string(demo.ID)
	p := h.ask("GET", base+"/buy", nil).is(200)
	p.says("To buy", "Away", "To send out", "Machine shop", "Used once only", "For worn fits")
	v := h.view()
	list := book.BuyingList(v.Machine, v.Judged(), v.Choices(remedy.Cheapest))
	var item book.Item
	for _, it := range list.Items {
		if it.OnOrder == "" && len(it.Parts) > 1 {
			item = it
			break
		}
	}
	post := func(form url.Values, status int) *page {
		form.Set(onceField, p.formOn(base+"/buy"))
		h.ask("POST", base+"/buy", form).is(status)
		return h.ask("POST", base+"/buy", form).is(status)
	}
	before := len(v.Machine.Orders)
	post(url.Values{"do": {"buy"}}, 422).says("nothing was kept", "Tick what was ordered")
	post(url.Values{"do": {"buy"}, "item": {keyOf(item)}, "due": {"soon"}}, 422).says("“soon” is no day")
	post(url.Values{"do": {"promise"}, "order": {"none"}, "due": {"2026-12-24"}}, 422).says("nothing was kept")
	post(url.Values{"do": {"send"}, "where": {"the moon"}}, 422).says("nothing was kept")
	if n := len(h.view().Machine.Orders); n != before {
		t.Fatalf("%d orders after refusals, want %d", n, before)
	}
	post(url.Values{"do": {"buy"}, "item": {keyOf(item)}, "from": {"the counter"}, "due": {"2026-12-24"}}, 303)
	orders := h.view().Machine.Orders
	if len(orders) != before+1 {
		t.Fatalf("%d orders, want %d", len(orders), before+1)
	}
	o := orders[before]
	if len(o.Parts) != len(item.Parts) || o.From != "the counter" || o.DueBy().Format(time.DateOnly) != "2026-12-24" {
		t.Errorf("ordered %+v", o.Ordered)
	}
	post(url.Values{"do": {"promise"}, "order": {string(o.Order)}, "due": {"2026-11-01"}, "why": {"strike"}}, 303)
	h.ask("GET", base+"/buy", nil).is(200).says(item.Name, "Late", "due Sun 1 Nov 2026", "Was due 24 Dec", "strike", "2 late")
	post(url.Values{"do": {"send"}, "where": {"machine shop"}, "from": {"Beck Lane"}}, 303)
	out := h.view().Machine.Orders[before+1]
	if !out.Out || out.From != "Beck Lane" || len(out.Parts) == 0 {
		t.Errorf("sent out %+v", out.Ordered)
	}
	for _, id := range out.Parts {
		if got := h.view().Machine.Part(id).Away; got != out.Order {
			t.Errorf("%s is away with %q, want %q", id, got, out.Order)
		}
	}
	h.ask("POST", base+"/received", url.Values{"order": {string(o.Order)}, "back": {base + "/buy"}}).is(303)
	h.ask("GET", base+"/buy", nil).is(200).says("have arrived", "of 10 parts away already")
}

// TestPapers: what the papers say stands on the sheets and in the files.
func TestPapers(t *testing.T) {
	h := newDemoHouse(t)
	base := "/m/" + string(demo.ID) + "/buy"
	v := h.view()
	for _, aim := range remedy.Aims() {
		shops := book.ShopOrder(v.Machine, v.Judged(), v.Choices(aim))
		if len(shops) == 0 {
			t.Fatal("no order to show")
		}
		for _, s := range shops {
			p := h.ask("GET", base+"/order/"+url.PathEscape(s.Where)+"?aim="+url.QueryEscape(string(aim)), nil).is(200)
			p.says(s.Guess, v.Machine.Name, v.Machine.Serial)
			for _, j := range s.Jobs {
				p.says(j.Name)
				p.says(j.PartNames...)
				p.says(j.SendAlong...)
				for _, sf := range j.Surfaces {
					p.says(sf.Name, sf.From.Words, sf.To, sf.Tolerance)
				}
			}
		}
		list := book.BuyingList(v.Machine, v.Judged(), v.Choices(aim))
		p := h.ask("GET", base+"/list?aim="+url.QueryEscape(string(aim)), nil).is(200)
		for _, it := range list.Items {
			p.says(it.Name, strings.TrimSpace(it.Size))
		}
		for path, columns := range map[string][]string{"/list.csv": book.BuyingColumns(), "/orders.csv": book.ShopColumns()} {
			p := h.ask("GET", base+path+"?aim="+url.QueryEscape(string(aim)), nil).is(200)
			rows, err := csv.NewReader(strings.NewReader(string(p.raw))).ReadAll()
			if err != nil || len(rows) < 2 || strings.Join(rows[0], ",") != strings.Join(columns, ",") {
				t.Errorf("%s: %d rows, %v", path, len(rows), err)
			}
			if d := p.header.Get("Content-Disposition"); !strings.HasPrefix(d, "attachment") || !strings.HasSuffix(d, `.csv"`) {
				t.Errorf("%s is sent as %q", path, d)
			}
		}
	}
	h.ask("GET", base+"/order/nowhere", nil).is(404).says("Nothing was changed")
}

// TestLate: an order is late once its day is over, not during it.
func TestLate(t *testing.T) {
	due := time.Date(2026, 12, 4, 0, 0, 0, 0, time.UTC)
	for hours, want := range map[int]bool{-1: false, 0: false, 23: false, 24: true, 500: true} {
		if got := late(due, due.Add(time.Duration(hours)*time.Hour)); got != want {
			t.Errorf("%d hours after the day began: late is %v", hours, got)
		}
	}
}

// TestNothingToBuy: a machine as it came.
func TestNothingToBuy(t *testing.T) {
	h := newHouse(t)
	h.ask("GET", "/m/codlin/buy", nil).is(200).says("Nothing is away", "Nothing goes out by this set")
	h.record(&machine.Ordered{Order: "o1", What: "gasket set"})
	h.ask("GET", "/m/codlin/buy", nil).is(200).says("Gasket set", "no date given")
}
