package web

import (
	"net/http"

	"matchmark/internal/web/language"
)

// tongue is a language of the pages, offered at their foot.
type tongue struct{ Code, Name string }

// english is the language the pages are written in.
var english = tongue{"en", "English"}

const languageCookie = "language"

// spoken is the language this device chose, nil for English.
func (s *site) spoken(r *http.Request) *language.Language {
	c, err := r.Cookie(languageCookie)
	if err != nil {
		return nil
	}
	for _, l := range s.languages {
		if l.Code == c.Value {
			return l
		}
	}
	return nil
}

// inLanguage puts what a template wrote into the language of the device.
func (s *site) inLanguage(r *http.Request, html []byte) []byte {
	if l := s.spoken(r); l != nil {
		return l.Page(html, nil)
	}
	return html
}

// tongues tells which language a page is in and lists the others.
func (s *site) tongues(now *language.Language) (lang string, others []tongue) {
	all := []tongue{english}
	for _, l := range s.languages {
		all = append(all, tongue{l.Code, l.Name})
	}
	lang = english.Code
	if now != nil {
		lang = now.Code
	}
	for _, t := range all {
		if t.Code != lang {
			others = append(others, t)
		}
	}
	return lang, others
}

// languagePost keeps the language of this device and comes back.
func languagePost(v *visit) error {
	http.SetCookie(v.w, &http.Cookie{Name: languageCookie, Value: v.typed("to"), Path: "/", MaxAge: 365 * 24 * 3600, HttpOnly: true, SameSite: http.SameSiteLaxMode})
	return v.go303(v.back("/"))
}
