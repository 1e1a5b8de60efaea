package web

import (
	"errors"
	"fmt"
	"net/http"
	"strings"

	"matchmark/internal/door"
)

// pairView is the page for a device that was not let in.
type pairView struct {
	Fault          string
	Lost           string // what came without a pass, if something did
	Again          string // address to open again, for a browser that held back its pass
	Back           string // where to go once in
	Digits, Secret string
	By, Name       string
}

// pairPage is where the camera leads; the secret is behind the address's #,
// which no browser sends.
func pairPage(v *visit) error {
	return v.showPair(http.StatusOK, pairView{Back: ownAddress(v.asked("back"), "/")})
}

func (v *visit) showPair(status int, pv pairView) error {
	if pv.Name == "" {
		pv.Name = sortOf(v.r)
	}
	script, err := v.assets.address("pair.js")
	if err != nil {
		return err
	}
	return v.show("pair", status, frame{Title: "Let this " + strings.ToLower(sortOf(v.r)) + " in", Scripts: []string{script}, Data: pv})
}

// askIn answers a stranger in place of the page that was asked for. A page is
// never cached in its stead: it comes with 401.
func (s *site) askIn(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("WWW-Authenticate", `Pairing realm="Matchmark"`)
	pv := pairView{Back: "/"}
	if r.Method == http.MethodGet {
		pv.Back = ownAddress(r.URL.RequestURI(), "/")
		pv.Again = pv.Back
	} else {
		pv.Lost = "What you sent is not in the book. Let this device in, then go back to that page and send it again; what you typed still stands there."
	}
	v := &visit{site: s, w: w, r: r}
	v.answer(v.showPair(http.StatusUnauthorized, pv))
}

// pairPost lets the device in for the code it brings.
func pairPost(v *visit) error {
	pv := pairView{Back: v.back("/"), Digits: clip(v.typed("digits"), 12), Secret: clip(v.typed("secret"), 60),
		By: clip(v.typed("by"), 40), Name: clip(v.typed("name"), 40)}
	if pv.Name == "" {
		pv.Name = sortOf(v.r)
	}
	switch {
	case pv.By == "":
		pv.Fault = "Your name is missing. Give it, or your initials: what you record here carries it."
	case pv.Secret == "" && pv.Digits == "":
		pv.Fault = "The six digits are missing. They stand beside the picture."
	}
	if pv.Fault != "" {
		return v.showPair(http.StatusUnprocessableEntity, pv)
	}
	if wait := v.tries.Wait(caller(v.r), v.opt.Now()); wait > 0 {
		v.tooFast(v.w, v.r, wait)
		return nil
	}
	dev, token, err := v.opt.Door.Join(v.r.Context(), door.Key{Secret: pv.Secret, Digits: pv.Digits}, pv.Name, pv.By)
	old, had := deviceOf(v.r)
	if errors.Is(err, door.ErrNoCode) && had && old.By == pv.By { // the same form twice
		return v.go303(pv.Back)
	}
	if err != nil {
		if pv.Fault = pairFault(err); pv.Fault == "" {
			return err
		}
		pv.Secret, pv.Digits = "", ""
		return v.showPair(http.StatusUnprocessableEntity, pv)
	}
	if had && old.ID != dev.ID { // one browser holds one pass
		if _, err := v.opt.Door.LetOut(v.r.Context(), old.ID); err != nil && !errors.Is(err, door.ErrNoDevice) {
			return err
		}
	}
	givePass(v.w, v.r, token)
	return v.go303(pv.Back)
}

// pairFault says why a code was refused; empty for a fault of another sort.
func pairFault(err error) string {
	var wrong *door.WrongCodeError
	switch {
	case errors.As(err, &wrong):
		return fmt.Sprintf("Those digits are not the ones shown. %s left, then a new code has to be made.", plural(wrong.Left, "try", "tries"))
	case errors.Is(err, door.ErrNoCode):
		return "That code is not good any more: it was used, is older than ten minutes, was missed five times, or a newer one was made. Make a new code and try again."
	}
	return ""
}

// sortOf guesses what a browser runs on, to fill in a name; the person may
// change it.
func sortOf(r *http.Request) string {
	agent := r.UserAgent()
	switch {
	case contains(agent, "tablet") || contains(agent, "ipad"):
		return "Tablet"
	case contains(agent, "mobile"):
		return "Phone"
	case contains(agent, "android"):
		return "Tablet"
	}
	return "Computer"
}
