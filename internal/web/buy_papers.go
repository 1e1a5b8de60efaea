package web

import (
	"bytes"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"matchmark/internal/book"
	"matchmark/internal/machine"
)

// orderView is the order to one place of work, as it is printed.
type orderView struct {
	Where string
	Words string
	Guess string
	Jobs  []orderJob
	CSV   string
}

type orderJob struct {
	book.ShopJob
	Nth   int
	Price string
	Why   []string
	Back  []string
}

// orderPage is the sheet that goes to a shop with the parts.
func orderPage(v *visit) error {
	shops := v.shops()
	i := slices.IndexFunc(shops, func(s book.Shop) bool { return s.Where == v.r.PathValue("place") })
	if i < 0 {
		return plight{http.StatusNotFound, "Nothing goes to " + clip(v.r.PathValue("place"), 60), "Nothing was changed. See what goes out on Buy and send out."}
	}
	s := shops[i]
	aim := string(aimAsked(v))
	ov := orderView{Where: s.Where, Words: plural(len(s.Jobs), "job", "jobs") + ", " + worthWords(s.CostHours) + " of bench work, " + daysWords(s.Days),
		Guess: s.Guess, CSV: v.base() + "/buy/orders.csv?aim=" + url.QueryEscape(aim)}
	for i, j := range s.Jobs {
		job := orderJob{ShopJob: j, Nth: i + 1, Price: worthWords(j.CostHours) + ", " + daysWords(j.Days)}
		for _, r := range j.Why {
			job.Why = append(job.Why, r.Says)
		}
		job.Back = checksTogether(v.view.Machine, j.Back)
		ov.Jobs = append(ov.Jobs, job)
	}
	return v.show("order", http.StatusOK, frame{Title: "Order, " + s.Where, Here: "Buy", Back: v.base() + "/buy?aim=" + url.QueryEscape(aim), Data: ov})
}

func (v *visit) shops() []book.Shop {
	return book.ShopOrder(v.view.Machine, v.view.Judged(), v.view.Choices(aimAsked(v)))
}

// checksTogether tells checks of one sort that are held to one limit in one
// line.
func checksTogether(m *machine.Machine, back []book.BackCheck) []string {
	type line struct {
		ids  []machine.CheckID
		rest string
	}
	var lines []line
	for _, b := range back {
		rest := strings.TrimPrefix(b.String(), b.Name)
		i := slices.IndexFunc(lines, func(l line) bool {
			a, c := m.Check(l.ids[0]), m.Check(b.Check)
			return l.rest == rest && a != nil && c != nil && a.Type == c.Type
		})
		if i < 0 {
			i = len(lines)
			lines = append(lines, line{rest: rest})
		}
		lines[i].ids = append(lines[i].ids, b.Check)
	}
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = checkNames(m, l.ids) + l.rest
	}
	return out
}

// listPage is the buying list, as it is printed and taken along.
func listPage(v *visit) error {
	bv := viewBuy(v.view, v.base(), aimAsked(v))
	return v.show("list", http.StatusOK, frame{Title: "Buying list", Here: "Buy", Back: v.base() + "/buy" + bv.Query, Data: bv})
}

// listCSV and ordersCSV give the papers for a spreadsheet.
func listCSV(v *visit) error {
	list := book.BuyingList(v.view.Machine, v.view.Judged(), v.view.Choices(aimAsked(v)))
	var out bytes.Buffer
	if err := book.WriteBuyingCSV(&out, list); err != nil {
		return err
	}
	return v.download("buying-list.csv", out.Bytes())
}

func ordersCSV(v *visit) error {
	var out bytes.Buffer
	if err := book.WriteShopCSV(&out, v.shops()); err != nil {
		return err
	}
	return v.download("shop-orders.csv", out.Bytes())
}

// download sends a file to be kept, named after the machine.
func (v *visit) download(name string, data []byte) error {
	head := v.w.Header()
	head.Set("Content-Type", "text/csv; charset=utf-8")
	head.Set("Content-Disposition", `attachment; filename="`+wordOf(string(v.view.ID), "machine")+"-"+name+`"`)
	head.Set("Cache-Control", "no-cache")
	_, err := v.w.Write(data)
	gone(v.r, err)
	return nil
}
