package web

import "net/http"

// The two grounds: layout blue for the bench, drafting film for the office.
const (
	blue = "blue"
	film = "film"
)

// ground is the one this device chose, blue until it chose.
func ground(r *http.Request) string {
	if c, err := r.Cookie("ground"); err == nil && c.Value == film {
		return film
	}
	return blue
}

// groundPost swaps the ground and comes back.
func groundPost(v *visit) error {
	to := film
	if ground(v.r) == film {
		to = blue
	}
	http.SetCookie(v.w, &http.Cookie{Name: "ground", Value: to, Path: "/", MaxAge: 365 * 24 * 3600, HttpOnly: true, SameSite: http.SameSiteLaxMode})
	return v.go303(v.back("/"))
}
