package trial

import (
	"context"
	"os/exec"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
)

// browser is one Chromium process, started when first wanted.
type browser struct {
	mu   sync.Mutex
	ctx  context.Context
	stop context.CancelFunc
}

// flags keep Chromium on this computer and its pictures alike from run to run.
var flags = []chromedp.ExecAllocatorOption{chromedp.NoSandbox, chromedp.Flag("disable-quic", true),
	chromedp.Flag("disable-component-update", true), chromedp.Flag("hide-scrollbars", true),
	chromedp.Flag("font-render-hinting", "none"), chromedp.Flag("disable-lcd-text", true), chromedp.Flag("disable-gpu", true),
	chromedp.Flag("autoplay-policy", "no-user-gesture-required")}

// start gives the context of the running browser.
func (b *browser) start(t testing.TB, path string, more ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.ctx != nil {
		return b.ctx
	}
	options := append(append(chromedp.DefaultExecAllocatorOptions[:], flags...), more...)
	alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), append(options, chromedp.ExecPath(path))...)
	ctx, stop := chromedp.NewContext(alloc)
	if err := chromedp.Do(ctx); err != nil { // starts the browser, so it is not timed
		stop()
		stopAlloc()
		t.Fatalf("chromium does not start: %v", err)
	}
	b.ctx, b.stop = ctx, func() { stop(); stopAlloc() }
	return ctx
}

func (b *browser) shut() {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.stop != nil {
		b.stop()
		b.ctx, b.stop = nil, nil
	}
}

// chromium is the path of the browser; the test is skipped without one and
// under -short.
func chromium(t testing.TB) string {
	t.Helper()
	needMain(t)
	if testing.Short() {
		t.Skip("SKIPPED under -short: needs a browser")
	}
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("SKIPPED: no chromium on this machine; ./test installs it where it can")
	}
	return path
}

// Browser is a Chromium process of a test's own, for flags that would bear on
// other tests. It is shut when the test ends.
type Browser struct{ browser browser }

// OwnBrowser starts one with flags of the command line, such as
// "ignore-certificate-errors" → true.
func OwnBrowser(t testing.TB, with map[string]any) *Browser {
	t.Helper()
	b := &Browser{}
	var more []chromedp.ExecAllocatorOption
	for name, value := range with {
		more = append(more, chromedp.Flag(name, value))
	}
	b.browser.start(t, chromium(t), more...)
	t.Cleanup(b.browser.shut)
	return b
}

// Tab opens a tab of this browser; see Tab.
func (b *Browser) Tab(t testing.TB, width, height int64) *Tab {
	t.Helper()
	return newTab(t, b.browser.ctx, width, height)
}
