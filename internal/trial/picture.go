package trial

import (
	"bytes"
	"image"
	"image/png"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Picture is what the window shows.
func (tab *Tab) Picture() image.Image {
	tab.t.Helper()
	return tab.decode(chromedp.CaptureScreenshot())
}

// Whole is the page from top to bottom.
func (tab *Tab) Whole() image.Image {
	tab.t.Helper()
	size := Ask[[]float64](tab, "[document.documentElement.clientWidth, document.documentElement.scrollHeight]")
	beyond := true
	answer := call(tab, page.CaptureScreenshot, page.CaptureScreenshotParams{Format: page.CaptureScreenshotFormatPng,
		CaptureBeyondViewport: &beyond, Clip: &page.Viewport{Width: size[0], Height: size[1], Scale: 1}})
	return tab.read(answer.Data)
}

// Part is the first element of a CSS selector, scale times its size on screen.
func (tab *Tab) Part(css string, scale float64) image.Image {
	tab.t.Helper()
	return tab.decode(chromedp.ScreenshotScale(chromedp.CSS(css), scale))
}

func (tab *Tab) decode(take chromedp.Action[[]byte]) image.Image {
	tab.t.Helper()
	data, err := chromedp.Run(tab.Ctx, take)
	if err != nil {
		tab.t.Fatal(err)
	}
	return tab.read(data)
}

func (tab *Tab) read(data []byte) image.Image {
	tab.t.Helper()
	picture, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		tab.t.Fatal(err)
	}
	return picture
}
