// Package tour is a walk round the demo machine: every address of the site with
// demo values, served from memory with the clock at the demo's last evening,
// and its pictures. The acceptance tests and the project's pictures share it.
package tour

// Route is one address pattern of the site with demo values for it.
type Route struct {
	Pattern string
	Paths   []string // pages to look at; the status is 200 but for a plight
	Data    bool     // no page: a table, a picture, a file to keep, a piece of a page
}

// Routes are all addresses the site answers a GET at, most of them in more
// than one state.
var Routes = []Route{
	{Pattern: "GET /{$}", Paths: []string{"/"}},
	{Pattern: "GET /start", Paths: []string{"/start"}},
	{Pattern: "GET /sw.js", Paths: []string{"/sw.js"}, Data: true},
	{Pattern: "GET /words", Paths: []string{"/words"}},
	{Pattern: "GET /outbox", Paths: []string{"/outbox"}},
	{Pattern: "GET /tools", Paths: []string{"/tools"}},
	{Pattern: "GET /pair", Paths: []string{"/pair"}},
	{Pattern: "GET /devices", Paths: []string{"/devices"}},
	{Pattern: "GET /lock", Paths: []string{"/lock"}},
	{Pattern: "GET /m/{id}", Paths: []string{"/m/codlin"}},
	{Pattern: "GET /m/{id}/machine", Paths: []string{"/m/codlin/machine", "/m/codlin/machine?a=engine-crank", "/m/codlin/machine?q=liner"}},
	{Pattern: "GET /m/{id}/part/{part}", Paths: []string{"/m/codlin/part/crankshaft", "/m/codlin/part/rad-cap"}},
	{Pattern: "GET /m/{id}/part/{part}/what", Paths: []string{"/m/codlin/part/gen-bearing/what?d:d=25"}},
	{Pattern: "GET /m/{id}/joint/{joint}", Paths: []string{"/m/codlin/joint/head-block"}},
	{Pattern: "GET /m/{id}/figures", Paths: []string{"/m/codlin/figures"}},
	{Pattern: "GET /m/{id}/trays", Paths: []string{"/m/codlin/trays", "/m/codlin/trays?tray=99"}},
	{Pattern: "GET /m/{id}/tray/{mark}", Paths: []string{"/m/codlin/tray/14?find=liner", "/m/codlin/tray/head%20bench"}},
	{Pattern: "GET /m/{id}/labels", Paths: []string{"/m/codlin/labels", "/m/codlin/labels?what=parts&size=roll40"}},
	{Pattern: "GET /m/{id}/labels.pdf", Paths: []string{"/m/codlin/labels.pdf"}, Data: true},
	{Pattern: "GET /m/{id}/labels.svg", Paths: []string{"/m/codlin/labels.svg?page=1"}, Data: true},
	{Pattern: "GET /m/{id}/instruments", Paths: []string{"/m/codlin/instruments"}},
	{Pattern: "GET /m/{id}/survey", Paths: []string{"/m/codlin/survey"}},
	{Pattern: "GET /m/{id}/run/{sort}/{what...}", Paths: []string{"/m/codlin/run/f/liner/bore", "/m/codlin/run/c/ring-gap", "/m/codlin/run/look/main-surface"}},
	{Pattern: "GET /m/{id}/fits", Paths: []string{"/m/codlin/fits", "/m/codlin/fits?v=unread"}},
	{Pattern: "GET /m/{id}/decide", Paths: []string{"/m/codlin/decide"}},
	{Pattern: "GET /m/{id}/buy", Paths: []string{"/m/codlin/buy"}},
	{Pattern: "GET /m/{id}/buy/list", Paths: []string{"/m/codlin/buy/list"}},
	{Pattern: "GET /m/{id}/buy/list.csv", Paths: []string{"/m/codlin/buy/list.csv"}, Data: true},
	{Pattern: "GET /m/{id}/buy/orders.csv", Paths: []string{"/m/codlin/buy/orders.csv"}, Data: true},
	{Pattern: "GET /m/{id}/buy/order/{place}", Paths: []string{"/m/codlin/buy/order/machine%20shop?aim=cheapest"}},
	{Pattern: "GET /m/{id}/prove", Paths: []string{"/m/codlin/prove"}},
	{Pattern: "GET /m/{id}/build", Paths: []string{"/m/codlin/build", "/m/codlin/build?all=1"}},
	{Pattern: "GET /m/{id}/close/{joint}", Paths: []string{"/m/codlin/close/head-block", "/m/codlin/close/gallery-plug-block"}},
	{Pattern: "GET /m/{id}/why/{step}", Paths: []string{"/m/codlin/why/close:head-block"}},
	{Pattern: "GET /m/{id}/book", Paths: []string{"/m/codlin/book", "/m/codlin/book?c=what-was-measured", "/m/codlin/book?c=photos"}},
	{Pattern: "GET /m/{id}/book/file", Paths: []string{"/m/codlin/book/file"}, Data: true},
	{Pattern: "GET /m/{id}/questions", Paths: []string{"/m/codlin/questions"}},
	{Pattern: "GET /m/{id}/photo", Paths: []string{"/m/codlin/photo", "/m/codlin/photo?joint=head-block"}},
	{Pattern: "GET /m/{id}/sound", Paths: []string{"/m/codlin/sound"}},
	{Pattern: "GET /m/{id}/heard", Paths: []string{"/m/codlin/heard?line=x"}, Data: true},
	{Pattern: "GET /m/{id}/p/{sum}", Paths: []string{drawing}, Data: true},
	{Pattern: "GET /m/{id}/p/{sum}/small", Paths: []string{drawing + "/small"}, Data: true},
}

// drawing is one of the demo's pictures.
const drawing = "/m/codlin/p/944d546ad00365038e7eba6e6677e144eeb4fc412b74e40c42f38de563ac9989"

// Unlisted are addresses that are not walked: those that carry a hash of the
// build, which are read from a page; a stream that does not end; the address in a
// label's code, which leads on; and what is there only after something was recorded or switched on.
var Unlisted = []string{"GET /a/{hash}/{name}", "GET /m/{id}/live", "GET /m/{id}/s/{sum}", "GET /lock.crt", "GET /t/{id}/{mark}"}

// Astray are addresses that are no page, which a reader sees as one.
var Astray = []string{"/nowhere", "/m/nobody", "/m/codlin/part/nothing"}

// Pages are all addresses that a reader sees as a page.
func Pages() []string {
	var out []string
	for _, r := range Routes {
		if !r.Data {
			out = append(out, r.Paths...)
		}
	}
	return append(out, Astray...)
}
