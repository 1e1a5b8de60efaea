package web

import (
	"net/http"
	"net/url"
)

// lockView is how a device comes to trust the bench lock.
type lockView struct {
	Have        bool // there is a lock
	Secure      bool // this page came by it
	Name, Print string
	Ends        string
	Onward      string // the page wanted, by https
}

func lockPage(v *visit) error {
	lv := lockView{Have: v.opt.Lock != nil, Secure: v.r.TLS != nil}
	if lv.Have {
		lv.Name, lv.Print, lv.Ends = v.opt.Lock.Name(), v.opt.Lock.Fingerprint(), day(v.opt.Lock.Ends())
		lv.Onward = "https://" + v.r.Host + ownAddress(v.asked("to"), "/pair")
	}
	return v.show("lock", http.StatusOK, frame{Title: "The bench lock", Back: "/", Data: lv})
}

// lockFile gives the authority's certificate; its media type makes phones offer
// to keep it.
func lockFile(v *visit) error {
	if v.opt.Lock == nil {
		return plight{http.StatusNotFound, "There is no bench lock here", "Nothing was changed. The program makes one when it is started with --lock."}
	}
	v.w.Header().Set("Content-Type", "application/x-x509-ca-cert")
	v.w.Header().Set("Cache-Control", "no-cache")
	_, err := v.w.Write(v.opt.Lock.Certificate())
	gone(v.r, err)
	return nil
}

// sendToLock answers what came without TLS where there is a lock.
func (s *site) sendToLock(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		s.refuse(w, r, http.StatusForbidden, "That came outside the bench lock",
			"It was not kept, as others could have read or changed it. Open the page by https and record it again.")
		return
	}
	http.Redirect(w, r, "/lock?to="+url.QueryEscape(ownAddress(r.URL.RequestURI(), "/")), http.StatusSeeOther)
}
