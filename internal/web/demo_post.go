package web

import (
	"net/url"

	"matchmark/internal/demo"
)

// demoPost puts the demo machine into the shop, where it is not there yet, and
// opens it.
func demoPost(v *visit) error {
	if err := demo.Load(v.r.Context(), v.shop.Log()); err != nil {
		return err
	}
	return v.go303("/m/" + url.PathEscape(string(demo.ID)))
}
