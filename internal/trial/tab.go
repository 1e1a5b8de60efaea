package trial

import (
	"context"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// patience is how long one step of a page may take on a busy machine.
const patience = 60 * time.Second

// Tab is one tab with cookies and storage of its own, and what it complained
// about. It belongs to one goroutine.
type Tab struct {
	Ctx context.Context // for steps that Tab has no method for
	t   testing.TB

	media map[string]string

	mu      sync.Mutex
	allowed []string
	wrong   []string
}

// NewTab opens a tab of the shared browser, width × height CSS px of which one
// is one dot of the picture. It is closed when the test ends.
func NewTab(t testing.TB, width, height int64) *Tab {
	t.Helper()
	return newTab(t, house.browser.start(t, chromium(t)), width, height)
}

// Beside opens another tab that shares cookies and storage with this one, as a
// second tab of one person does.
func (tab *Tab) Beside(width, height int64) *Tab {
	tab.t.Helper()
	ctx, end := chromedp.NewContext(tab.Ctx)
	return newTabIn(tab.t, ctx, end, width, height)
}

func newTab(t testing.TB, browser context.Context, width, height int64) *Tab {
	t.Helper()
	ctx, end := chromedp.NewContext(browser, chromedp.WithNewBrowserContext())
	return newTabIn(t, ctx, end, width, height)
}

func newTabIn(t testing.TB, ctx context.Context, end func(), width, height int64) *Tab {
	t.Helper()
	t.Cleanup(end)
	tab := &Tab{Ctx: ctx, t: t, media: map[string]string{}, allowed: []string{"409", "422"}}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, height)); err != nil {
		t.Fatal(err)
	}
	go tab.listen(chromedp.Console(ctx))
	return tab
}

// listen notes what the console calls an error.
func (tab *Tab) listen(messages func(func(chromedp.ConsoleMessage, error) bool)) {
	for m, err := range messages {
		if err != nil {
			return
		}
		if m.Type == "error" || m.Exception != nil {
			tab.mu.Lock()
			tab.wrong = append(tab.wrong, m.Text)
			tab.mu.Unlock()
		}
	}
}

// Allow names words of console errors that are expected, such as those of a
// server that was killed. A form answered 409 or 422 is a refusal, which is
// always allowed.
func (tab *Tab) Allow(words ...string) {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	tab.allowed = append(tab.allowed, words...)
}

// Wrong is what the console called an error and was not allowed.
func (tab *Tab) Wrong() []string {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	var out []string
	for _, w := range tab.wrong {
		if !slices.ContainsFunc(tab.allowed, func(a string) bool { return strings.Contains(w, a) }) {
			out = append(out, w)
		}
	}
	return out
}

// Quiet fails the test where the console complained.
func (tab *Tab) Quiet() {
	tab.t.Helper()
	for _, w := range tab.Wrong() {
		tab.t.Errorf("the browser says: %s", w)
	}
}

// Do takes steps one after the other and fails the test at the first that
// cannot be done.
func (tab *Tab) Do(steps ...chromedp.Action[chromedp.Void]) {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.Ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		tab.t.Fatal(err)
	}
}

// Open goes to an address and waits until it is loaded.
func (tab *Tab) Open(url string) {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.Ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, chromedp.Navigate(url)); err != nil {
		tab.t.Fatalf("%s: %v", url, err)
	}
}

// Size changes the window, in CSS px.
func (tab *Tab) Size(width, height int64) {
	tab.t.Helper()
	tab.Do(chromedp.EmulateViewport(width, height))
}

// Click clicks the first element of a CSS selector.
func (tab *Tab) Click(css string) {
	tab.t.Helper()
	tab.Do(chromedp.Click(chromedp.CSS(css)))
}

// Set puts a value into the first field of a CSS selector, without key events.
func (tab *Tab) Set(css, value string) {
	tab.t.Helper()
	tab.Do(chromedp.SetValue(chromedp.CSS(css), value))
}

// Ask works out a line of script in the page. A promise is waited for.
func Ask[T any](tab *Tab, script string) T {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.Ctx, patience)
	defer cancel()
	answer, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		tab.t.Fatalf("%.300s: %v", script, err)
	}
	return answer
}

// Says is the text of the page as a reader sees it.
func (tab *Tab) Says() string {
	tab.t.Helper()
	return Ask[string](tab, "document.body.innerText")
}

// Until waits until a condition of the page holds. A page that is just being
// replaced, or whose scripts are not awake, counts as one that does not hold yet.
func (tab *Tab) Until(what, condition string) {
	tab.t.Helper()
	for end := time.Now().Add(patience / 2); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		ctx, cancel := context.WithTimeout(tab.Ctx, patience)
		yes, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.readyState === "complete" && !!(`+condition+`)`, chromedp.EvalAwaitPromise))
		cancel()
		if err == nil && yes {
			return
		}
	}
	tab.t.Fatalf("waited in vain for %s; the page says:\n%s", what, tab.Says())
}
