package web

import (
	"cmp"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"net/url"
	"strings"
	"time"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// handler answers one request; an error it returns becomes a page that says
// what happened, what is safe and what to do.
type handler func(*visit) error

// visit is one request with the machine it is about.
type visit struct {
	*site
	w     http.ResponseWriter
	r     *http.Request
	bench *bench.Bench
	view  *bench.View
	made  time.Time // when a record of the outbox was made; zero for a form sent at once
}

// open runs a handler outside any machine.
func (s *site) open(do handler) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		v := &visit{site: s, w: w, r: r}
		v.answer(v.parsed(do))
	}
}

// at runs a handler on the machine of the address.
func (s *site) at(do handler) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		v := &visit{site: s, w: w, r: r}
		b, err := s.shop.Bench(r.Context(), machine.MachineID(r.PathValue("id")))
		if err == nil {
			v.bench = b
			v.view, err = b.View(r.Context())
		}
		if err == nil {
			err = v.parsed(do)
		}
		v.answer(err)
	}
}

// parsed reads the form before the handler runs, within the limits of guard.
func (v *visit) parsed(do handler) error {
	if v.r.Method == http.MethodPost {
		var err error
		if strings.HasPrefix(v.r.Header.Get("Content-Type"), "multipart/form-data") {
			err = v.r.ParseMultipartForm(2 << 20)
			defer func() {
				if v.r.MultipartForm != nil {
					v.r.MultipartForm.RemoveAll()
				}
			}()
		} else {
			err = v.r.ParseForm()
		}
		if tooBig := new(http.MaxBytesError); errors.As(err, &tooBig) {
			return plight{http.StatusRequestEntityTooLarge, "That is more than this box takes at once",
				"Nothing of it was kept. A photo may have 20 MB; send a smaller one."}
		}
		if err != nil {
			return plight{http.StatusBadRequest, "The form did not arrive whole", "Nothing was kept. Go back and send it again."}
		}
		if v.made, err = v.madeAt(); err != nil {
			return err
		}
	}
	return do(v)
}

// plight is an answer that is no page: what happened, and what is safe and to
// be done.
type plight struct {
	status    int
	What, Say string
}

func (p plight) Error() string { return p.What + ". " + p.Say }

// answer turns an error into its page.
func (v *visit) answer(err error) {
	if err == nil {
		return
	}
	var p plight
	var unknown *bench.UnknownMachineError
	switch {
	case errors.As(err, &p):
	case v.r.Context().Err() != nil:
		slog.Debug("client went away", "path", v.r.URL.Path, "err", err)
		return
	case errors.As(err, &unknown):
		p = plight{http.StatusNotFound, "There is no such machine here", "Nothing was changed. Choose one from the list."}
	default:
		slog.Error("page", "path", v.r.URL.Path, "err", err)
		p = plight{http.StatusInternalServerError, "The page could not be made",
			"What was kept before is safe. Go back and try again; the log of the program says more."}
	}
	if v.view == nil {
		v.refuse(v.w, v.r, p.status, p.What, p.Say)
		return
	}
	f := frame{Title: p.What, Back: v.base(), Data: p.Say}
	if err := v.show("plight", p.status, f); err != nil {
		http.Error(v.w, p.Error(), p.status)
	}
}

// refuse shows a plight; it works before any machine is known.
func (s *site) refuse(w http.ResponseWriter, r *http.Request, status int, what, say string) {
	f := frame{Title: what, Ground: ground(r), Gloves: gloves(r), Path: "/", Data: say}
	if err := s.send(w, r, "plight", status, f); err != nil {
		http.Error(w, what+". "+say, status)
	}
}

// nowhere answers an address that is no page.
func nowhere(*visit) error {
	return plight{http.StatusNotFound, "There is no such page", "Nothing was changed. Go back to the bench."}
}

// missing names an item that is not on this machine.
func missing(sort, id string) error {
	return plight{http.StatusNotFound, spelling.Head(fmt.Sprintf("%s “%s” is not on this machine", sort, clip(id, 60))),
		"Nothing was changed. Find it on the Machine page."}
}

// who records.
func (v *visit) who() bench.Who {
	return bench.Who{By: v.by(), Device: v.device(), At: v.made, Behind: v.typed(behindField)}
}

// record keeps facts under the word of the form they came with, so that a form
// sent twice is kept once.
func (v *visit) record(bodies ...machine.Body) (*bench.View, error) {
	if v.known() {
		return v.view, nil
	}
	return v.bench.RecordOnce(v.r.Context(), v.who(), v.typed(onceField), bodies...)
}

// kept tells whether the form came before and these facts were kept then: what
// it asks for may be refused by now because of that.
func (v *visit) kept(bodies ...machine.Body) bool {
	kept, err := v.bench.Kept(v.r.Context(), v.typed(onceField), bodies...)
	return err == nil && kept
}

// base is the machine's address.
func (v *visit) base() string { return "/m/" + escape(string(v.view.ID)) }

func escape(id string) string { return url.PathEscape(id) }

// typed is a field of the form, trimmed.
func (v *visit) typed(field string) string { return strings.TrimSpace(v.r.PostFormValue(field)) }

// asked is a value of the address.
func (v *visit) asked(key string) string { return strings.TrimSpace(v.r.URL.Query().Get(key)) }

// go303 answers a kept form with the page to look at next.
func (v *visit) go303(to string) error {
	if v.outboxed() {
		return v.inTheBook(to)
	}
	http.Redirect(v.w, v.r, to, http.StatusSeeOther)
	return nil
}

// back is where a form asks to return to: an address of this site only.
func (v *visit) back(otherwise string) string {
	return ownAddress(v.r.PostFormValue("back"), otherwise)
}

// ownAddress lets only a path of this site through.
func ownAddress(to, otherwise string) string {
	u, err := url.Parse(to)
	if err != nil || u.IsAbs() || u.Host != "" || !strings.HasPrefix(to, "/") || strings.HasPrefix(to, "//") || strings.ContainsAny(to, "\\\r\n") {
		return otherwise
	}
	return to
}

// show sends a page of the machine, or of the house outside one.
func (v *visit) show(name string, status int, f frame) error {
	if v.answered(status) {
		return v.inTheBook(v.filledIn())
	}
	f.Ground, f.Gloves = ground(v.r), gloves(v.r)
	f.Path = v.r.URL.RequestURI()
	if v.r.Method != http.MethodGet {
		f.Path = ownAddress(v.r.URL.Path, "/")
	}
	if v.view != nil {
		m := v.view.Machine
		f.Base, f.Demo, f.Sub = v.base(), m.Demo, cmp.Or(f.Sub, calling(m))
		f.Entries = m.Entries
		f.Nav = nav(f.Base, f.Here, len(m.Questions)+len(m.Clashes))
		f.Block = titleOf(m, v.view.AsOf)
	}
	return v.send(v.w, v.r, name, status, f)
}

// nav is the row of pages; four of them stand in the phone's bar, and some give
// way where the row is short.
func nav(base, here string, questions int) []navItem {
	items := []navItem{{Name: "Bench", At: base, Bar: true}, {Name: "Machine", At: base + "/machine", Bar: true},
		{Name: "Trays", At: base + "/trays", Bar: true}, {Name: "Fits", At: base + "/fits"},
		{Name: "Decide", At: base + "/decide", Rest: true}, {Name: "Buy", At: base + "/buy", Rest: true},
		{Name: "Build order", At: base + "/build", Rest: true}, {Name: "Proving", At: base + "/prove", Rest: true},
		{Name: "Book", At: base + "/book", Bar: true}}
	if questions > 0 {
		items = append(items, navItem{Name: fmt.Sprintf("Questions %d", questions), At: base + "/questions", Rest: true})
	}
	for i := range items {
		word, _, _ := strings.Cut(items[i].Name, " ")
		items[i].Here = word == here
	}
	return items
}
