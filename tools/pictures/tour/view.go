package tour

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"strings"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

// View is one picture: a page on one ground in a window of one size.
type View struct {
	Path          string
	Ground        string // "blue" or "film"
	Width, Height int64  // CSS px, of which one is one dot
}

// sizes are a phone, a tablet and a laptop.
var sizes = [][2]int64{{390, 844}, {1024, 768}, {1440, 900}}

// Views are the pictures of one page: three sizes on blue, then on film.
func Views(path string) []View {
	var out []View
	for _, ground := range []string{"blue", "film"} {
		for _, s := range sizes {
			out = append(out, View{path, ground, s[0], s[1]})
		}
	}
	return out
}

func (v View) String() string { return fmt.Sprintf("%s, %s, %d", v.Path, v.Ground, v.Width) }

// PageName tells pages apart by the words of their address: "/m/codlin/fits?v=unread"
// is "fits-v-unread", the bench "bench" and the list of machines "machines".
func PageName(path string) string {
	switch path {
	case "/":
		return "machines"
	case "/m/codlin":
		return "bench"
	}
	path = strings.TrimPrefix(strings.TrimPrefix(path, "/m/codlin/"), "/")
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, strings.ReplaceAll(path, "%20", "-"))
}

// still gives the focus a place that does not depend on haste, stops the
// blinking of the caret, waits for what a page is still busy with and tells
// whether the page is set in its own letters. A face that comes too late for the
// first painting is left out of that showing of the page: then the two widths
// of a word, each with another face to fall back on, differ.
const still = `(() => {
  document.documentElement.style.caretColor = 'transparent'
  const reading = document.getElementById('reading')
  if (reading) reading.focus({ preventScroll: true })
  else if (document.activeElement) document.activeElement.blur()
  const idle = () => document.querySelector('[aria-busy=true]') ? new Promise(done => setTimeout(done, 20)).then(idle) : document.fonts.ready
  const width = (face, other) => {
    const word = Object.assign(document.createElement('span'), { textContent: 'Wilma iii' })
    word.style.cssText = 'position:absolute;font:' + face + ',' + other
    document.body.append(word)
    const wide = word.getBoundingClientRect().width
    word.remove()
    return wide
  }
  const lettered = () => ['40px "Scribe Text"', 'bold 40px "Scribe Text"', '40px "Scribe Heading"'].every(f => width(f, 'monospace') === width(f, 'serif'))
  return idle().then(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(lettered())))))
})()`

// Take opens the page of a view in a tab and gives what the window shows. base
// is the address of the site.
func (v View) Take(tab context.Context, base string) (image.Image, error) {
	base = strings.TrimSuffix(base, "/")
	cookie := network.SetCookieParams{Name: "ground", Value: v.Ground, URL: base + "/"}
	if _, err := chromedp.Call(tab, network.SetCookie, cookie); err != nil {
		return nil, err
	}
	if err := chromedp.Do(tab, chromedp.EmulateViewport(v.Width, v.Height)); err != nil {
		return nil, err
	}
	if err := open(tab, base+v.Path); err != nil {
		return nil, err
	}
	data, err := chromedp.Run(tab, chromedp.CaptureScreenshot())
	if err != nil {
		return nil, err
	}
	return png.Decode(bytes.NewReader(data))
}

// open shows a page, again where its letters came too late.
func open(tab context.Context, url string) error {
	for range 20 {
		if err := chromedp.Do(tab, chromedp.Navigate(url)); err != nil {
			return err
		}
		lettered, err := chromedp.Run(tab, chromedp.Evaluate[bool](still, chromedp.EvalAwaitPromise))
		if err != nil || lettered {
			return err
		}
	}
	return fmt.Errorf("%s is never set in its own letters", url)
}

// Flags keep Chromium on this computer and its pictures alike from run to run.
func Flags() []chromedp.ExecAllocatorOption {
	return []chromedp.ExecAllocatorOption{chromedp.NoSandbox, chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("hide-scrollbars", true), chromedp.Flag("disable-gpu", true),
		chromedp.Flag("font-render-hinting", "none"), chromedp.Flag("disable-lcd-text", true)}
}
