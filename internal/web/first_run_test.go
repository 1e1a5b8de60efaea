package web

import (
	"testing"

	"matchmark/internal/bench"
	"matchmark/internal/store"
)

// TestFirstRun: a shop without a machine offers three ways to begin, each with
// what it really takes.
func TestFirstRun(t *testing.T) {
	h := &house{t: t}
	h.site = New(bench.NewShop(store.OpenMemory(), fixed), Options{Now: fixed})
	p := h.ask("GET", "/", nil).is(200)
	p.says("Start a machine", "Look round the demo", "Open a backup", "matchmark serve --book FILE")
	leads := map[string]bool{}
	for _, e := range p.elements {
		for _, name := range []string{"href", "action"} {
			if to, ok := attr(e, name); ok {
				leads[to] = true
			}
		}
	}
	if !leads["/start"] || !leads["/demo"] {
		t.Errorf("the ways lead to %v", leads)
	}
	h.ask("POST", "/demo", nil).is(303)
	h.ask("GET", "/", nil).is(200).says("Wendle Codlin 18")
}
