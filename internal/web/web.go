package web

import (
	"net/http"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/benchlock"
	"matchmark/internal/door"
	"matchmark/internal/web/language"
)

// Options of the site.
type Options struct {
	Hosts []string         // host names served besides the loopback ones
	By    string           // author of what is recorded here
	Now   func() time.Time // clock of the pages

	Door  *door.Door      // who was let in; one on the shop's own shelf when nil
	Reach func() []string // where other devices open the pages, such as "http://192.168.1.5:7462"; none when nil
	Lock  *benchlock.Lock // nil without
}

// site is the shop with everything its pages need.
type site struct {
	shop      *bench.Shop
	opt       Options
	assets    *assetSet
	pages     pageSet
	thumbs    thumbs
	live      streams
	languages []*language.Language
	posts     *door.Pace // of each device let in
	tries     *door.Pace // at pairing, of each stranger and of all
}

// New gives the pages of a shop. It panics where an embedded template or
// asset is broken, which a test catches before a release does.
func New(shop *bench.Shop, opt Options) http.Handler {
	if opt.Now == nil {
		opt.Now = time.Now
	}
	if opt.By == "" {
		opt.By = "bench"
	}
	if opt.Door == nil {
		opt.Door = door.New(shop.Log(), opt.Now)
	}
	if opt.Reach == nil {
		opt.Reach = func() []string { return nil }
	}
	assets := loadAssets()
	s := &site{shop: shop, opt: opt, assets: assets, pages: loadPages(assets), languages: language.Load(), posts: newPosts(), tries: newTries()}
	return s.guard(s.routes())
}

// routes lists every address of the site.
func (s *site) routes() *roads {
	mux := &roads{}
	mux.Handle("GET /a/{hash}/{name}", s.assets)
	mux.HandleFunc("GET /{$}", s.open(machinesPage))
	mux.HandleFunc("GET /start", s.open(startPage))
	mux.HandleFunc("POST /start", s.open(startPost))
	mux.HandleFunc("POST /demo", s.open(demoPost))
	mux.HandleFunc("GET /sw.js", s.workerPage)
	mux.HandleFunc("GET /outbox", s.open(outboxPage))
	mux.HandleFunc("POST /ground", s.open(groundPost))
	mux.HandleFunc("POST /language", s.open(languagePost))
	mux.HandleFunc("GET /words", s.open(glossaryPage))
	mux.HandleFunc("GET /tools", s.open(toolsPage))
	mux.HandleFunc("POST /tools", s.open(toolsPost))
	mux.HandleFunc("POST /tools/teach", s.open(teachPost))
	mux.HandleFunc("POST /tools/device", s.open(devicePost))
	mux.HandleFunc("POST /tools/drop", s.open(dropPost))
	mux.HandleFunc("GET /pair", s.open(pairPage))
	mux.HandleFunc("POST /pair", s.open(pairPost))
	mux.HandleFunc("GET /devices", s.open(devicesPage))
	mux.HandleFunc("POST /devices", s.open(devicesPost))
	mux.HandleFunc("GET /lock", s.open(lockPage))
	mux.HandleFunc("GET /lock.crt", s.open(lockFile))
	for pattern, do := range map[string]handler{
		"GET /m/{id}":                       benchPage,
		"GET /m/{id}/machine":               machinePage,
		"GET /m/{id}/part/{part}":           partPage,
		"POST /m/{id}/part/{part}":          partPost,
		"GET /m/{id}/joint/{joint}":         jointPage,
		"POST /m/{id}/joint/{joint}":        jointPost,
		"GET /m/{id}/figures":               figuresPage,
		"POST /m/{id}/figures":              figuresPost,
		"POST /m/{id}/fits/limit":           limitPost,
		"GET /m/{id}/trays":                 traysPage,
		"GET /m/{id}/instruments":           instrumentsPage,
		"POST /m/{id}/instruments":          instrumentsPost,
		"GET /m/{id}/tray/{mark}":           trayPage,
		"POST /m/{id}/tray/{mark}":          trayPost,
		"GET /t/{id}/{mark}":                shortPage,
		"GET /m/{id}/labels":                labelsPage,
		"POST /m/{id}/labels":               labelsPost,
		"GET /m/{id}/labels.pdf":            labelsPDF,
		"GET /m/{id}/labels.svg":            labelsSVG,
		"GET /m/{id}/run/{sort}/{what...}":  runPage,
		"POST /m/{id}/run/{sort}/{what...}": runPost,
		"GET /m/{id}/fits":                  fitsPage,
		"GET /m/{id}/part/{part}/what":      whatPage,
		"POST /m/{id}/part/{part}/what":     whatPost,
		"GET /m/{id}/buy":                   buyPage,
		"POST /m/{id}/buy":                  buyPost,
		"GET /m/{id}/buy/list":              listPage,
		"GET /m/{id}/buy/list.csv":          listCSV,
		"GET /m/{id}/buy/orders.csv":        ordersCSV,
		"GET /m/{id}/buy/order/{place}":     orderPage,
		"GET /m/{id}/decide":                decidePage,
		"POST /m/{id}/decide":               decidePost,
		"POST /m/{id}/fits/call":            callPost,
		"POST /m/{id}/fits/remedy":          remedyPost,
		"POST /m/{id}/fits/done":            donePost,
		"POST /m/{id}/received":             receivedPost,
		"GET /m/{id}/prove":                 provePage,
		"POST /m/{id}/prove":                provePost,
		"GET /m/{id}/build":                 buildPage,
		"GET /m/{id}/close/{joint}":         closePage,
		"POST /m/{id}/close/{joint}":        closePost,
		"GET /m/{id}/why/{step}":            whyPage,
		"GET /m/{id}/book":                  bookPage,
		"GET /m/{id}/book/file":             bookFilePage,
		"GET /m/{id}/live":                  livePage,
		"GET /m/{id}/survey":                surveyPage,
		"POST /m/{id}/survey":               surveyPost,
		"GET /m/{id}/questions":             questionsPage,
		"POST /m/{id}/clash":                clashPost,
		"POST /m/{id}/withdraw":             withdrawPost,
		"GET /m/{id}/photo":                 photoPage,
		"POST /m/{id}/photo":                photoPost,
		"GET /m/{id}/heard":                 heardPart,
		"GET /m/{id}/sound":                 soundPage,
		"POST /m/{id}/sound":                soundPost,
		"GET /m/{id}/s/{sum}":               playSound,
		"GET /m/{id}/p/{sum}":               showPicture,
		"GET /m/{id}/p/{sum}/small":         showPicture,
	} {
		mux.HandleFunc(pattern, s.at(do))
	}
	mux.HandleFunc("/", s.open(nowhere))
	return mux
}
