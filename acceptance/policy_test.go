package acceptance_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/trial"
	"matchmark/tools/pictures/tour"
)

var (
	inlineStyle  = regexp.MustCompile(`(?i)<[^>]*\sstyle\s*=`)
	inlineOn     = regexp.MustCompile(`(?i)<[^>]*\son[a-z]+\s*=`)
	inlineScript = regexp.MustCompile(`(?i)<script(?:\s+(?:type|nonce|id|class)="[^"]*")*\s*>`)
	styleBlock   = regexp.MustCompile(`(?i)<style\b`)
	scriptURL    = regexp.MustCompile(`(?i)(?:href|src|action)\s*=\s*["']?\s*javascript:`)
	assetLink    = regexp.MustCompile(`(?:href|src)="(/a/[^"]+)"`)
)

// inline is what an answer carries that the policy forbids.
func inline(body string) []string {
	var out []string
	for what, r := range map[string]*regexp.Regexp{"style=": inlineStyle, "on…=": inlineOn, "inline script": inlineScript, "<style>": styleBlock, "javascript:": scriptURL} {
		if at := r.FindString(body); at != "" {
			out = append(out, what+" in "+at)
		}
	}
	slices.Sort(out)
	return out
}

// TestCheck16: CSP violations 0; no `style=`, `on*=`, inline script in any
// response. The console of every page is heard in the walk of checks 1 to 4.
func TestCheck16(t *testing.T) {
	holds(t, 16)
	s := trial.Serve(t, t.TempDir())
	paths := tour.Pages()
	for _, path := range tour.Pages() {
		for _, m := range assetLink.FindAllStringSubmatch(get(t, s.URL, path).body, -1) {
			if !slices.Contains(paths, m[1]) {
				paths = append(paths, m[1])
			}
		}
	}
	for _, path := range paths {
		a := get(t, s.URL, path)
		policy := a.Header.Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'none'", "script-src 'self'", "style-src 'self'", "base-uri 'none'", "form-action 'self'", "frame-ancestors 'none'"} {
			if !strings.Contains(policy, want) {
				t.Errorf("%s: the policy lacks %s: %s", path, want, policy)
			}
		}
		if strings.Contains(policy, "unsafe") {
			t.Errorf("%s: the policy is loosened: %s", path, policy)
		}
		if kind := a.Header.Get("Content-Type"); strings.Contains(kind, "html") || strings.Contains(kind, "svg") {
			for _, fault := range inline(a.body) {
				t.Errorf("%s has %s", path, fault)
			}
		}
	}
	surveyed(t).holdTo(t, 16)
}

// TestInlineBites: what is forbidden is found, and data-on is not.
func TestInlineBites(t *testing.T) {
	for body, want := range map[string]int{`<p style="x">`: 1, `<p onclick="x">`: 1, `<script>x</script>`: 1, `<script type="module" src="/a"></script>`: 0,
		`<style>p{}</style>`: 1, `<a href="javascript:x">`: 1, `<p data-on="x">`: 0, `<script type="module">x</script>`: 1} {
		if got := inline(body); len(got) != want {
			t.Errorf("%s: found %v, want %d", body, got, want)
		}
	}
}
