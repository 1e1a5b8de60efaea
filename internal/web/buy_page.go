package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/book"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// buyView answers: what to order, who has it, what is late.
type buyView struct {
	Base    string
	Aim     string
	Aims    []filter // empty where the three sets are one
	Away    []awayRow
	Late    int
	Shops   []shopRow
	Groups  []itemGroup // not ordered yet
	Lines   int         // in them
	Ordered []itemRow   // ordered or here already
	Notes   []string
	Here    []string // arrived
	Query   string   // "?aim=soonest"
	Fault   string
	From    string // typed, shown again
	Due     string
	What    string
}

// awayRow is an order that has not arrived.
type awayRow struct {
	ID, What, Words, Due string
	Late                 bool
	Promises             []string
	Parts                string
}

// shopRow is the order to one place of work.
type shopRow struct {
	Where, Name, At string
	Jobs            []string
	Words           string
	Send            []string // parts that go out
	Away            int      // of them away already
}

// itemGroup is what is to be bought for one sort of reason.
type itemGroup struct {
	Name  string
	Items []itemRow
}

// itemRow is one thing to buy.
type itemRow struct {
	Key, Name, Size string
	Qty             int
	Standard        string
	Why             []string
	Limits          []string
	Mind            []string
	OnOrder         string
	Chosen          bool
}

func buyPage(v *visit) error { return v.showBuy(viewBuy(v.view, v.base(), aimAsked(v)), http.StatusOK) }

func (v *visit) showBuy(bv buyView, status int) error {
	return v.show("buy", status, frame{Title: "Buy and send out", Here: "Buy", Back: v.base(), Data: bv})
}

// aimAsked is the aim of the address, the cheapest where none is named.
func aimAsked(v *visit) remedy.Aim {
	for _, aim := range remedy.Aims() {
		if v.r.FormValue("aim") == string(aim) {
			return aim
		}
	}
	return remedy.Cheapest
}

func viewBuy(v *bench.View, base string, aim remedy.Aim) buyView {
	plan := v.Choices(aim)
	bv := buyView{Base: base, Aim: string(aim), Query: "?aim=" + url.QueryEscape(string(aim))}
	for _, a := range remedy.Aims() {
		bv.Aims = append(bv.Aims, filter{Name: spelling.Head(string(a)) + " set", At: base + "/buy?aim=" + url.QueryEscape(string(a)), Here: a == aim})
	}
	if oneSet(v) {
		bv.Aims = nil
	}
	bv.addOrders(v)
	for _, s := range book.ShopOrder(v.Machine, v.Judged(), plan) {
		bv.Shops = append(bv.Shops, shopOf(v.Machine, base, bv.Query, s))
	}
	list := book.BuyingList(v.Machine, v.Judged(), plan)
	for _, it := range list.Items {
		if row := itemOf(it); row.OnOrder != "" {
			bv.Ordered = append(bv.Ordered, row)
		} else {
			bv.addItem(groupOf(v.Machine, it), row)
		}
	}
	slices.SortStableFunc(bv.Groups, func(a, b itemGroup) int { return slices.Index(groupNames, a.Name) - slices.Index(groupNames, b.Name) })
	bv.Notes = list.Notes
	return bv
}

// oneSet tells whether the three aims lead to the same jobs.
func oneSet(v *bench.View) bool {
	var sets [][]setJob
	for _, aim := range remedy.Aims() {
		sets = append(sets, jobsOfSet(v.Machine, v.Choices(aim)))
	}
	return sameJobs(sets)
}

// addOrders lists what is away, the late ones first, and what is here.
func (bv *buyView) addOrders(v *bench.View) {
	for _, o := range v.Machine.Orders {
		if o.Received != nil {
			bv.Here = append(bv.Here, spelling.Head(o.What)+behind(", from ", o.From)+", "+day(o.Received.At))
			continue
		}
		row := awayRow{ID: string(o.Order), What: spelling.Head(o.What), Words: "Ordered " + day(o.Stamp.At) + behind(", from ", o.From), Due: "no date given", Parts: partsTogether(v.Machine, o.Parts)}
		if o.Out {
			row.Words = "Sent out " + day(o.Stamp.At) + behind(", to ", o.From)
		}
		if due := o.DueBy(); !due.IsZero() {
			row.Due, row.Late = "due "+due.Format("Mon 2 Jan 2006"), late(due, v.AsOf)
		}
		dates := []time.Time{o.Due}
		for _, p := range o.Promises {
			if was := dates[len(dates)-1]; !was.IsZero() {
				row.Promises = append(row.Promises, "Was due "+was.Format("2 Jan")+", put off "+day(p.At)+behind(": ", p.Why))
			}
			dates = append(dates, p.Due)
		}
		if row.Late {
			bv.Late++
		}
		bv.Away = append(bv.Away, row)
	}
	slices.SortStableFunc(bv.Away, func(a, b awayRow) int {
		if a.Late != b.Late {
			if a.Late {
				return -1
			}
			return 1
		}
		return 0
	})
}

// late tells an order whose day is over.
func late(due, now time.Time) bool {
	return due.Format(time.DateOnly) < now.In(due.Location()).Format(time.DateOnly)
}

func shopOf(m *machine.Machine, base, query string, s book.Shop) shopRow {
	row := shopRow{Where: s.Where, Name: spelling.Head(s.Where), At: base + "/buy/order/" + url.PathEscape(s.Where) + query,
		Words: worthWords(s.CostHours) + ", " + daysWords(s.Days)}
	for _, j := range s.Jobs {
		row.Jobs = append(row.Jobs, spelling.Head(j.Name))
	}
	row.Jobs = counted(row.Jobs)
	for _, id := range partsSent(s) {
		p := m.Part(id)
		if p == nil {
			continue
		}
		row.Send = append(row.Send, p.Name)
		if p.Away != "" {
			row.Away++
		}
	}
	return row
}

// partsSent lists the parts that go to a shop: those worked on, and the mating
// parts that stay as they are.
func partsSent(s book.Shop) []machine.PartID {
	var out []machine.PartID
	add := func(id machine.PartID) {
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	for _, j := range s.Jobs {
		for _, id := range j.Parts {
			add(id)
		}
		for _, sf := range j.Surfaces {
			for _, f := range sf.Fits {
				for _, id := range f.Mates {
					if !slices.Contains(j.New, id) {
						add(id)
					}
				}
			}
		}
	}
	return out
}

// counted tells like lines once, with how often: "2 × Knurl the guide".
func counted(lines []string) []string {
	var out []string
	n := map[string]int{}
	for _, l := range lines {
		if n[l]++; n[l] == 1 {
			out = append(out, l)
		}
	}
	for i, l := range out {
		if n[l] > 1 {
			out[i] = fmt.Sprintf("%d × %s", n[l], l)
		}
	}
	return out
}

func itemOf(it book.Item) itemRow {
	row := itemRow{Key: keyOf(it), Name: it.Name + behind(", ", it.Places), Size: it.Size, Qty: it.Qty, Why: it.Why, Limits: it.Limits, Mind: it.Mind, OnOrder: spelling.Head(it.OnOrder)}
	if s := it.Standard; s != nil {
		row.Standard = s.What + " " + s.Designation + behind(", same size: ", strings.Join(s.Equivalents, "; "))
		if !s.Settled {
			row.Standard += ", not settled: " + percent(s.Probability)
		}
	}
	return row
}

// groupNames are the headings of the list in their order.
var groupNames = []string{"For worn fits", "By your word or missing", "Used once only", "Fasteners and small things"}

// groupOf tells why an item is bought, in the words of a heading.
func groupOf(m *machine.Machine, it book.Item) string {
	once := len(it.Parts) > 0 && len(it.For) == 0
	for _, id := range it.Parts {
		p := m.Part(id)
		once = once && p != nil && p.OneUse && p.Call != machine.Renew
	}
	switch {
	case once:
		return groupNames[2]
	case len(it.Parts) == 0:
		return groupNames[3]
	case len(it.For) > 0:
		return groupNames[0]
	}
	return groupNames[1]
}

// addItem puts a line under its heading.
func (bv *buyView) addItem(group string, row itemRow) {
	i := slices.IndexFunc(bv.Groups, func(g itemGroup) bool { return g.Name == group })
	if i < 0 {
		i = len(bv.Groups)
		bv.Groups = append(bv.Groups, itemGroup{Name: group})
	}
	bv.Groups[i].Items = append(bv.Groups[i].Items, row)
	bv.Lines++
}

// keyOf names an item in the form.
func keyOf(it book.Item) string { return it.Name + "|" + it.Places + "|" + it.Size }

// partsTogether names parts shortly.
func partsTogether(m *machine.Machine, ids []machine.PartID) string {
	var names []string
	for _, id := range ids {
		names = append(names, partName(m, id))
	}
	if len(names) > 6 {
		names = append(names[:6], plural(len(names)-6, "more", "more"))
	}
	return strings.Join(names, "; ")
}
