package trial

import (
	"context"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// Keys types text as a person would; kb.Enter, kb.Tab and their like are text
// too.
func (tab *Tab) Keys(text string) {
	tab.t.Helper()
	tab.Do(chromedp.KeyEvent(text))
}

// Burst types text at one key every gap, as a tool that plays keyboard does.
// The time each event carries (event.timeStamp) is exactly gap after the last
// however busy the machine is; the events arrive no faster than that.
func (tab *Tab) Burst(text string, gap time.Duration) {
	tab.t.Helper()
	tab.Do(chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		start := time.Now()
		for i, r := range []rune(text) {
			at := start.Add(time.Duration(i) * gap)
			time.Sleep(time.Until(at))
			for _, k := range kb.Encode(r) {
				k.Timestamp = input.TimeSinceEpoch(float64(at.UnixNano()) / 1e9)
				if _, err := cdp.Call(ctx, target, input.DispatchKeyEvent, *k); err != nil {
					return err
				}
			}
		}
		return nil
	}))
}

// SelectAll marks all of the field that has the focus, so that typing replaces
// it.
func (tab *Tab) SelectAll() {
	tab.t.Helper()
	tab.Do(chromedp.KeyEvent("a", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
}

// Focused is the id of the element that has the focus, or its name in small
// letters.
func (tab *Tab) Focused() string {
	tab.t.Helper()
	return Ask[string](tab, "document.activeElement.id || document.activeElement.localName")
}
