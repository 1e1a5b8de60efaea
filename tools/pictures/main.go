// Command pictures serves the demo machine from memory and takes pictures of
// the main pages with Chromium, for docs/pictures. The clock stands at the
// demo's last evening, so that the pictures change only when the pages do.
package main

import (
	"context"
	"flag"
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"
	"time"

	"github.com/chromedp/chromedp"

	"matchmark/internal/bench"
	"matchmark/internal/demo"
	"matchmark/internal/store"
	"matchmark/internal/web"
)

// view is one picture: a page on one ground at one size.
type view struct {
	name, path    string
	width, height int64
	film          bool
}

// views are the pictures kept with the project.
func views() []view {
	pages := []struct{ name, path string }{
		{"bench", ""}, {"run", "/run/f/liner/bore"}, {"fits", "/fits"}, {"decide", "/decide"}, {"build", "/build"},
	}
	sizes := [][2]int64{{390, 844}, {1024, 768}, {1440, 900}}
	var out []view
	for _, p := range pages {
		for _, s := range sizes {
			out = append(out, view{p.name, p.path, s[0], s[1], false}, view{p.name, p.path, s[0], s[1], true})
		}
	}
	return out
}

func (v view) file() string {
	ground := ""
	if v.film {
		ground = "-film"
	}
	return fmt.Sprintf("%s-%dx%d%s.png", v.name, v.width, v.height, ground)
}

func main() {
	into := flag.String("into", "docs/pictures", "folder for the pictures")
	flag.Parse()
	if err := take(context.Background(), *into); err != nil {
		fmt.Fprintln(os.Stderr, "pictures:", err)
		os.Exit(1)
	}
}

func take(ctx context.Context, into string) error {
	clock := func() time.Time { return time.Date(2026, 11, 24, 17, 0, 0, 0, time.UTC) }
	log := store.OpenMemory()
	if err := demo.Load(ctx, log); err != nil {
		return err
	}
	server := httptest.NewUnstartedServer(nil)
	server.Config.Handler = web.New(bench.NewShop(log, clock), web.Options{Hosts: []string{server.Listener.Addr().String()}, By: "Ansa", Now: clock})
	server.Start()
	defer server.Close()
	if err := os.MkdirAll(into, 0o755); err != nil {
		return err
	}
	alloc, stop := chromedp.NewExecAllocator(ctx, append(chromedp.DefaultExecAllocatorOptions[:], chromedp.NoSandbox,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("hide-scrollbars", true))...)
	defer stop()
	tab, end := chromedp.NewContext(alloc)
	defer end()
	for _, v := range views() {
		if err := v.take(tab, server.URL, into); err != nil {
			return fmt.Errorf("%s: %w", v.file(), err)
		}
		fmt.Println(v.file())
	}
	return nil
}

// take opens the page, on film where wanted, and writes what is on screen.
func (v view) take(tab context.Context, base, into string) error {
	ground := "blue"
	if v.film {
		ground = "film"
	}
	swap := fmt.Sprintf("document.cookie = 'ground=%s; path=/'; true", ground)
	if err := chromedp.Do(tab, chromedp.EmulateViewport(v.width, v.height), chromedp.Navigate(base+"/")); err != nil {
		return err
	}
	if _, err := chromedp.Run(tab, chromedp.Evaluate[bool](swap)); err != nil {
		return err
	}
	if err := chromedp.Do(tab, chromedp.Navigate(base+"/m/"+string(demo.ID)+v.path)); err != nil {
		return err
	}
	png, err := chromedp.Run(tab, chromedp.CaptureScreenshot())
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(into, v.file()), png, 0o644)
}
