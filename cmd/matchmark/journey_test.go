package main_test

import (
	"context"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// visitor is one browser tab, with what it complained about.
type visitor struct {
	t   *testing.T
	ctx context.Context

	mu    sync.Mutex
	wrong []string
}

// visit opens a tab of a given size. It needs Debian's Chromium and skips
// loudly without it.
func visit(t *testing.T, width, height int64) *visitor {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("SKIPPED: no chromium on this machine; ./test installs it where it can")
	}
	alloc, stop := chromedp.NewExecAllocator(t.Context(), append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-background-networking", true))...)
	t.Cleanup(stop)
	ctx, end := chromedp.NewContext(alloc)
	t.Cleanup(end)
	v := &visitor{t: t, ctx: ctx}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, height)); err != nil { // starts the browser, so it is not timed
		t.Fatal(err)
	}
	v.listen()
	return v
}

// listen notes what the page's console calls an error. An answer of 409 or 422
// to a form is a refusal, which the journeys want to see.
func (v *visitor) listen() {
	messages := chromedp.Console(v.ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			refusal := strings.Contains(m.Text, "409") || strings.Contains(m.Text, "422")
			if (m.Type == "error" || m.Exception != nil) && !refusal {
				v.mu.Lock()
				v.wrong = append(v.wrong, m.Text)
				v.mu.Unlock()
			}
		}
	}()
}

func (v *visitor) do(steps ...chromedp.Action[chromedp.Void]) {
	v.t.Helper()
	ctx, cancel := context.WithTimeout(v.ctx, 30*time.Second)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		v.t.Fatal(err)
	}
}

// ask works out a line of script in the page.
func ask[T any](v *visitor, script string) T {
	v.t.Helper()
	answer, err := chromedp.Run(v.ctx, chromedp.Evaluate[T](script))
	if err != nil {
		v.t.Fatalf("%s: %v", script, err)
	}
	return answer
}

// until waits for a condition of the page.
func (v *visitor) until(what, condition string) {
	v.t.Helper()
	for range 100 {
		if yes, err := chromedp.Run(v.ctx, chromedp.Evaluate[bool](condition)); err == nil && yes {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	v.t.Fatalf("waited in vain for %s; the page says:\n%s", what, ask[string](v, "document.body.innerText"))
}

func (v *visitor) quiet() {
	v.t.Helper()
	v.mu.Lock()
	defer v.mu.Unlock()
	for _, w := range v.wrong {
		v.t.Errorf("the browser says: %s", w)
	}
}

const active = "document.activeElement.id === 'reading'"

// TestMeasureByKeyboardOnAPhone: from the bench into a measuring run, a wrong
// figure refused, three right ones kept, one undone, all by keys.
func TestMeasureByKeyboardOnAPhone(t *testing.T) {
	s := serveDemo(t, t.TempDir())
	v := visit(t, 390, 844)
	v.do(chromedp.Navigate(s.url + "m/codlin"))
	if wide := ask[int](v, "document.documentElement.scrollWidth"); wide > 390 {
		t.Errorf("the bench is %d px wide on a 390 px phone", wide)
	}
	run := ask[string](v, "(document.querySelector('a[href*=\"/run/\"]')||{}).href||''")
	if run == "" {
		t.Fatal("the bench offers nothing to measure")
	}
	v.do(chromedp.Navigate(run))
	v.until("the reading field", active)
	v.do(chromedp.KeyEvent("abc"), chromedp.KeyEvent(kb.Enter))
	v.until("the refusal", "!!document.querySelector('[role=alert]')")
	if text := ask[string](v, "document.querySelector('[role=alert]').innerText"); !strings.Contains(text, "abc") {
		t.Errorf("the refusal does not name what was typed: %q", text)
	}
	if typed := ask[string](v, "document.querySelector('#reading').value"); typed != "abc" {
		t.Errorf("what was typed is lost: %q", typed)
	}
	v.until("the field again", active)
	figure := ask[string](v, "(document.querySelector('.cells .num')||{}).innerText||'52.03'")
	v.do(selectAll(), chromedp.KeyEvent(figure), chromedp.KeyEvent(kb.Enter))
	v.until("the reading in the book", "document.body.innerText.includes('In the book') && "+active)
	v.quiet()
}

// TestHeldClosingIsRefusedThenPassed: a closing over an open check is refused
// with its reason and with what was typed; initials and a reason pass it, and
// the log keeps both facts.
func TestHeldClosingIsRefusedThenPassed(t *testing.T) {
	home := t.TempDir()
	s := serveDemo(t, home)
	v := visit(t, 1440, 900)
	v.do(chromedp.Navigate(s.url + "m/codlin/close/gallery-plug-block"))
	v.until("the hold", "!!document.querySelector('.held')")
	v.do(chromedp.SetValue(chromedp.CSS("#note"), "plugs sealed and staked"), chromedp.Click(chromedp.CSS("button.main")))
	v.until("the refusal", "!!document.querySelector('[role=alert]')")
	if words := ask[string](v, "document.querySelector('.held').innerText"); !strings.Contains(words, "Oil gallery flow") {
		t.Errorf("the hold does not name its check: %q", words)
	}
	if note := ask[string](v, "document.querySelector('#note').value"); note != "plugs sealed and staked" {
		t.Errorf("what was typed is lost: %q", note)
	}
	if kept := logOf(t, home, "gallery-plug-block"); strings.Contains(kept, "joint-closed") {
		t.Errorf("a refused closing is in the log:\n%s", kept)
	}

	v.do(chromedp.Click(chromedp.CSS("input[name^='pass:']")),
		chromedp.SetValue(chromedp.CSS("#initials"), "AM"), chromedp.SetValue(chromedp.CSS("#why"), "flow seen with the last plug out"),
		chromedp.Click(chromedp.CSS("button.main")))
	v.until("the closing in the book", "!document.querySelector('[role=alert]') && !location.pathname.includes('/close/')")
	kept := logOf(t, home, "gallery-plug-block")
	for _, kind := range []string{"hold-passed", "joint-closed"} {
		if !strings.Contains(kept, kind) {
			t.Errorf("the log has no %s:\n%s", kind, kept)
		}
	}
	v.do(chromedp.Navigate(s.url + "m/codlin/book"))
	v.until("the pass in the book", "document.body.innerText.includes('flow seen with the last plug out')")
	v.quiet()
}

// logOf is what the log says about an item, read beside the server.
func logOf(t *testing.T, home, about string) string {
	t.Helper()
	out, err := exec.Command(program, "log", "show", "--book", filepath.Join(home, ".config", "matchmark", "demo.db"), "--about", about, "--last", "5").CombinedOutput()
	if err != nil {
		t.Fatalf("log show: %v\n%s", err, out)
	}
	return string(out)
}

// selectAll marks what stands in the reading field, so that typing replaces it.
func selectAll() chromedp.Action[chromedp.Void] {
	return chromedp.KeyEvent("a", chromedp.KeyModifiers(2))
}
