package web

import (
	"encoding/json"
	"net/http"
	"net/url"
	"strconv"
	"time"
)

// A form sent by the outbox of a page carries outboxHeader. A kept one is then
// answered by the address of the next page instead of a redirect; a refused
// one by its page, as ever.
const (
	outboxHeader = "X-Outbox"
	ageField     = "age"    // ms since the form was filled in, whatever the device's clock says
	behindField  = "behind" // word of the form that this device filled in before it
)

// longestKept is how old a record may be when it comes in.
const longestKept = 60 * 24 * time.Hour

// outboxed tells whether the outbox sent this.
func (v *visit) outboxed() bool { return v.r.Header.Get(outboxHeader) != "" }

// madeAt is when a record was made, zero where it does not say its age.
func (v *visit) madeAt() (time.Time, error) {
	text := v.typed(ageField)
	if text == "" {
		return time.Time{}, nil
	}
	ms, err := strconv.ParseInt(text, 10, 64)
	if err != nil || ms < 0 || ms > longestKept.Milliseconds() {
		return time.Time{}, plight{http.StatusUnprocessableEntity, "That record does not say when it was made",
			"Nothing was kept here. It says it is " + clip(text, 30) + " ms old; the box takes records up to 60 days old. Open its page and record it again."}
	}
	return v.opt.Now().Add(-time.Duration(ms) * time.Millisecond), nil
}

// known tells whether the outbox's record is in the book already, whatever
// became of it since. A record of the outbox never changes, so its word is
// enough; a form without one may say something new under the same word.
func (v *visit) known() bool {
	if !v.outboxed() || v.bench == nil {
		return false
	}
	in, err := v.bench.Said(v.r.Context(), v.typed(onceField))
	return err == nil && in != ""
}

// inTheBook answers the outbox.
func (v *visit) inTheBook(next string) error {
	v.w.Header().Set("Content-Type", "application/json")
	v.w.Header().Set("Cache-Control", "no-store")
	err := json.NewEncoder(v.w).Encode(struct {
		Next string `json:"next"`
	}{next})
	gone(v.r, err)
	return nil
}

// answered tells the outbox that a record is in the book, where its copy would
// be refused by now because of that.
func (v *visit) answered(status int) bool {
	return status >= 400 && status < 500 && v.r.Method == http.MethodPost && v.known()
}

// filledIn is the page that a form was filled in on.
func (v *visit) filledIn() string {
	from, err := url.Parse(v.r.Referer())
	if err != nil || from.Path == "" {
		return v.base()
	}
	return ownAddress(from.RequestURI(), v.base())
}

// outboxPage is the frame of what a device has kept: its own script fills it,
// for the box does not have it.
func outboxPage(v *visit) error {
	script, err := v.assets.address("asked.js")
	if err != nil {
		return err
	}
	return v.show("outbox", http.StatusOK, frame{Title: "Kept here", Back: "/", Scripts: []string{script}})
}

// takenAt is when a photo or a recording was taken: by its own word, else by
// the device that sent it. Zero where neither says.
func (v *visit) takenAt(own time.Time) time.Time {
	if !own.IsZero() {
		return own
	}
	at, err := time.Parse(time.RFC3339, v.typed("taken"))
	if err != nil || at.Year() < 1990 || at.After(v.opt.Now().Add(24*time.Hour)) {
		return time.Time{}
	}
	return at.UTC()
}
