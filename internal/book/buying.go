package book

import (
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/finding/balance"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
)

// List is what is to be bought.
type List struct {
	Machine string     `json:"machine"`
	Serial  string     `json:"serial,omitempty"`
	Aim     remedy.Aim `json:"aim"`
	Items   []Item     `json:"items"`
	Notes   []string   `json:"notes"`
}

// Item is one thing to buy: like parts of several places that are bought in one
// size stand together.
type Item struct {
	Name     string            `json:"name"`
	Parts    []machine.PartID  `json:"parts"` // empty for fasteners and things no part stands for
	Places   string            `json:"places,omitempty"`
	Qty      int               `json:"qty"`
	Size     string            `json:"size,omitempty"` // "0.25 mm undersize, to suit …"
	Material string            `json:"material,omitempty"`
	Standard *Standard         `json:"standard,omitempty"`
	Why      []string          `json:"why"`
	For      []machine.CheckID `json:"for"`
	Limits   []string          `json:"limits"`            // that it fell by, each with its provenance
	OnOrder  string            `json:"onOrder,omitempty"` // ordered already, or arrived
	Mind     []string          `json:"mind"`
}

// Standard is the standard part that an item was identified as.
type Standard struct {
	What        string   `json:"what"`
	Designation string   `json:"designation"`
	Probability float64  `json:"probability"`
	Equivalents []string `json:"equivalents"`
	Settled     bool     `json:"settled"` // 95 % or more
	Source      string   `json:"source,omitempty"`
}

// settledAt is the probability from which an identification is called settled,
// as in package identify.
const settledAt = 0.95

// BuyingList draws up what is to be bought: parts that the plan or the
// restorer's call renews, one-use parts that came off, pieces that are missing,
// and fasteners that came out unfit. Parts come in the machine's order, then
// what the plan buys that is no part of the machine, then fasteners by size.
// The restorer's call rules: a part that the plan would renew and that is
// called otherwise is left out and noted. Cost: linear in parts and checks.
func BuyingList(m *machine.Machine, judged judge.Findings, plan remedy.Plan) List {
	b := &buyer{sheet: newSheet(m, judged, plan), calls: remedy.Calls(m, plan)}
	b.list = List{Machine: m.Name, Serial: m.Serial, Aim: plan.Aim, Items: []Item{}, Notes: []string{}}
	for _, p := range m.Parts {
		b.part(p)
	}
	for _, j := range plan.Jobs {
		b.partless(j)
	}
	b.fasteners()
	for i := range b.list.Items {
		it := &b.list.Items[i]
		it.Places = b.places(it.Parts)
	}
	return b.list
}

type buyer struct {
	*sheet
	calls map[machine.PartID]remedy.Proposal
	list  List
}

// part adds a part that is to be renewed, and pieces of it that are missing.
func (b *buyer) part(p *machine.Part) {
	want := b.calls[p.ID].Call == machine.Renew
	switch {
	case p.Call == machine.Renew || want && p.Call == machine.NotJudged:
		b.add(b.renewal(p))
	case want:
		b.list.Notes = append(b.list.Notes, fmt.Sprintf("%s is left out: the plan would renew it (%s), but it is called %q.", p.Name, strings.TrimSuffix(b.calls[p.ID].Why, "."), p.Call))
		b.missing(p)
	default:
		b.missing(p)
	}
}

// missing adds pieces that were counted missing.
func (b *buyer) missing(p *machine.Part) {
	if p.Found == nil || *p.Found >= p.Qty {
		return
	}
	it := b.item(p)
	it.Qty = p.Qty - *p.Found
	it.Why = []string{fmt.Sprintf("%d of %d found.", *p.Found, p.Qty)}
	it.Limits = []string{"counted at this machine"}
	b.add(it)
}

func (b *buyer) item(p *machine.Part) Item {
	it := Item{Name: b.typeName(p), Parts: []machine.PartID{p.ID}, Qty: p.Qty, Material: p.Material, For: []machine.CheckID{}, Limits: []string{}, Mind: []string{},
		OnOrder: b.onOrder(p)}
	if id := p.Identified; id != nil {
		it.Standard = &Standard{What: id.What, Designation: id.Designation, Probability: id.Probability,
			Equivalents: append([]string{}, id.Equivalents...), Settled: id.Probability >= settledAt, Source: id.Source}
	}
	return it
}

// renewal says why a part is renewed and in which size.
func (b *buyer) renewal(p *machine.Part) Item {
	it := b.item(p)
	for _, j := range b.plan.Jobs {
		if slices.Contains(j.Renews, p.ID) {
			b.byJob(&it, j)
		}
	}
	if len(it.Why) == 0 && p.Call == machine.Renew {
		it.Why, it.Limits = []string{"Called renew by " + orSomebody(p.CallBy.By) + behind(": ", p.CallWhy) + "."}, []string{string(machine.OwnDecision)}
	}
	if len(it.Why) == 0 {
		it.Why, it.Limits = []string{b.calls[p.ID].Why}, []string{"used once only, by the kit"}
	}
	return it
}

// byJob adds the reason, the limits and the size that a job gives a part.
func (b *buyer) byJob(it *Item, j remedy.Job) {
	it.Why = append(it.Why, j.Name+forWhat(b.checkTypes(j.Serves)))
	it.For = append(it.For, j.Serves...)
	for _, id := range j.Serves {
		if f := b.judged.Of(id); f != nil {
			if l, ok := wornBy(f); ok {
				it.Limits = append(it.Limits, b.checkType(f.Check)+": "+l.String())
			} else {
				it.Limits = append(it.Limits, b.checkType(f.Check)+": no limit in figures ("+origin(f.Limit.From, f.Limit.Source)+")")
			}
		}
	}
	if len(j.Serves) == 0 {
		it.Limits = append(it.Limits, "no limit of its own passed: the kit has one size for the group "+string(j.Group))
	}
	it.Limits = unique(it.Limits)
	if j.Beware != "" {
		it.Mind = append(it.Mind, j.Beware)
	}
	if j.Step > 0 {
		it.Size = b.sizeOf(j)
	}
}

// sizeOf is the size that what goes with a reworked surface must have.
func (b *buyer) sizeOf(j remedy.Job) string {
	way := ""
	for _, id := range j.Reworks {
		if ft := b.m.Feature(id); ft != nil && ft.Sort == machine.Bore {
			way = "oversize"
		} else if ft != nil && ft.Sort == machine.Shaft {
			way = "undersize"
		}
	}
	return strings.TrimSpace(fmt.Sprintf("%.2f mm %s", j.Step, way)) + ", to suit “" + j.Name + "”"
}

// partless adds what the plan buys without naming a part of the machine.
func (b *buyer) partless(j remedy.Job) {
	if j.Where != "buy" || len(j.Renews) > 0 {
		return
	}
	it := Item{Name: j.Name, Parts: []machine.PartID{}, Qty: 1, For: []machine.CheckID{}, Limits: []string{}, Mind: []string{}}
	b.byJob(&it, j)
	b.list.Items = append(b.list.Items, it)
}

// fasteners adds those that were missing, broken or otherwise unfit.
func (b *buyer) fasteners() {
	var items []Item
	for _, line := range balance.Of(b.m).Joints {
		for _, f := range line.Fasteners {
			if f.Get == 0 {
				continue
			}
			i := slices.IndexFunc(items, func(x Item) bool { return x.Name == f.Size })
			if i < 0 {
				i = len(items)
				items = append(items, Item{Name: f.Size, Parts: []machine.PartID{}, For: []machine.CheckID{}, Limits: []string{"seen when it came out"}, Mind: []string{"same strength class as the old; read the mark on its head"}})
			}
			items[i].Qty += f.Get
			items[i].Why = append(items[i].Why, fmt.Sprintf("%d unfit or missing at %s.", f.Get, line.Joint.Name))
		}
	}
	slices.SortStableFunc(items, func(x, y Item) int { return strings.Compare(x.Name, y.Name) })
	b.list.Items = append(b.list.Items, items...)
}

// add puts a part with like ones: the same type, size, standard part and state
// of order, each reason once.
func (b *buyer) add(it Item) {
	for i := range b.list.Items {
		if o := &b.list.Items[i]; o.like(&it) {
			o.Parts = append(o.Parts, it.Parts...)
			o.Qty += it.Qty
			o.For = unique(append(o.For, it.For...))
			o.Why, o.Limits, o.Mind = unique(append(o.Why, it.Why...)), unique(append(o.Limits, it.Limits...)), unique(append(o.Mind, it.Mind...))
			return
		}
	}
	b.list.Items = append(b.list.Items, it)
}

func (it *Item) like(o *Item) bool {
	if len(it.Parts) == 0 || len(o.Parts) == 0 {
		return false
	}
	a, _ := machine.Split(it.Parts[0])
	c, _ := machine.Split(o.Parts[0])
	return a == c && it.Size == o.Size && it.OnOrder == o.OnOrder && it.Standard.same(o.Standard)
}

func (s *Standard) same(o *Standard) bool {
	if s == nil || o == nil {
		return s == o
	}
	return s.Designation == o.Designation && s.What == o.What && s.Probability == o.Probability
}

// onOrder tells how far an order for a part is.
func (b *buyer) onOrder(p *machine.Part) string {
	words := ""
	for _, o := range b.m.Orders {
		if o.Out || !slices.Contains(o.Parts, p.ID) {
			continue
		}
		words = fmt.Sprintf("ordered, %s", o.Order)
		if due := o.DueBy(); !due.IsZero() {
			words += ", due " + due.Format("2 January 2006")
		}
		if o.Received != nil {
			words = fmt.Sprintf("arrived, %s", o.Order)
		}
	}
	return words
}
