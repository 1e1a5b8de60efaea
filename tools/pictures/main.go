// Command pictures takes a picture of every page of the demo machine with
// Chromium, on both grounds, on a phone, a tablet and a laptop, for
// docs/pictures. It prints what the folder holds and weighs.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/chromedp/chromedp"

	"matchmark/tools/pictures/tour"
)

func main() {
	into := flag.String("into", "docs/pictures", "folder for the pictures; what it holds of *.png goes")
	only := flag.String("only", "", "take only pages whose name holds this, and keep the other pictures")
	flag.Parse()
	if err := take(context.Background(), *into, *only); err != nil {
		fmt.Fprintln(os.Stderr, "pictures:", err)
		os.Exit(1)
	}
}

func take(ctx context.Context, into, only string) error {
	url, stopServing, err := tour.Serve(ctx)
	if err != nil {
		return err
	}
	defer stopServing()
	if err := clear(into, only == ""); err != nil {
		return err
	}
	alloc, stop := chromedp.NewExecAllocator(ctx, append(chromedp.DefaultExecAllocatorOptions[:], tour.Flags()...)...)
	defer stop()
	tab, end := chromedp.NewContext(alloc)
	defer end()
	weight, pages := 0, tour.Pages()
	pages = slices.DeleteFunc(pages, func(path string) bool { return !strings.Contains(tour.PageName(path), only) })
	for _, path := range pages {
		sheet, err := tour.TakeSheet(tab, url, path)
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		data, err := tour.PNG(sheet.Lay())
		if err != nil {
			return err
		}
		weight += len(data)
		if err := os.WriteFile(filepath.Join(into, tour.PageName(path)+".png"), data, 0o644); err != nil {
			return err
		}
	}
	fmt.Printf("%d sheets of %d pictures in %s, %.1f MB\n", len(pages), len(pages)*len(tour.Views("/")), into, float64(weight)/1e6)
	return nil
}

// clear makes the folder and, where all are taken anew, takes old pictures out.
func clear(into string, all bool) error {
	if err := os.MkdirAll(into, 0o755); err != nil || !all {
		return err
	}
	old, err := filepath.Glob(filepath.Join(into, "*.png"))
	if err != nil {
		return err
	}
	for _, name := range old {
		if err := os.Remove(name); err != nil {
			return err
		}
	}
	return nil
}
