package cli

import (
	"errors"

	"matchmark/internal/bench"
	"matchmark/internal/book"
	"matchmark/internal/finding/remedy"
)

type papersCmd struct {
	ShopOrder  shopOrderCmd  `cmd:"" help:"What goes to the shops: part, surface, size, fit wanted, mating part, checks afterwards."`
	BuyingList buyingListCmd `cmd:"" help:"What is to be bought: parts, sizes, standard numbers, fasteners."`
	Book       bookFileCmd   `cmd:"" help:"The book as one HTML file that opens without this program."`
}

// form is how a paper is wanted.
type form struct {
	Aim string `help:"What the set of remedies is judged by." enum:"cheapest,soonest,longest" default:"cheapest"`
	CSV bool   `name:"csv" help:"Write CSV, for a spreadsheet."`
}

// plan opens the machine and decides for the aim.
func (f *form) plan(r *run) (*bench.View, remedy.Plan, func(), error) {
	if f.CSV && r.json {
		return nil, remedy.Plan{}, nil, errors.New("a paper is written either as CSV or as JSON: leave out --csv or --json")
	}
	v, done, err := r.view()
	if err != nil {
		return nil, remedy.Plan{}, nil, err
	}
	return v, v.Choices(aims[f.Aim]), done, nil
}

type shopOrderCmd struct{ form }

func (c *shopOrderCmd) Run(r *run) error {
	v, plan, done, err := c.plan(r)
	if err != nil {
		return err
	}
	defer done()
	shops := book.ShopOrder(v.Machine, v.Judged(), plan)
	switch {
	case r.json:
		return r.print(shops)
	case c.CSV:
		return book.WriteShopCSV(r.Out, shops)
	}
	return book.WriteShopText(r.Out, shops)
}

type buyingListCmd struct{ form }

func (c *buyingListCmd) Run(r *run) error {
	v, plan, done, err := c.plan(r)
	if err != nil {
		return err
	}
	defer done()
	list := book.BuyingList(v.Machine, v.Judged(), plan)
	switch {
	case r.json:
		return r.print(list)
	case c.CSV:
		return book.WriteBuyingCSV(r.Out, list)
	}
	return book.WriteBuyingText(r.Out, list)
}
