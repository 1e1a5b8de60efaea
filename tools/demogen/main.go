// Command demogen plays the story of the demo machine and writes the files that
// internal/demo embeds. Run it from the top of the project after a kit or the
// story has changed:
//
//	go run ./tools/demogen
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"matchmark/tools/demogen/play"
)

func main() {
	if err := write(filepath.Join("internal", "demo")); err != nil {
		fmt.Fprintln(os.Stderr, "demogen:", err)
		os.Exit(1)
	}
}

// write puts the files into a directory, and takes away drawings of before.
func write(dir string) error {
	p, err := play.Play()
	if err != nil {
		return err
	}
	log, err := p.Log()
	if err != nil {
		return err
	}
	truth, err := p.TruthText()
	if err != nil {
		return err
	}
	pictures := filepath.Join(dir, "drawings")
	if err := os.RemoveAll(pictures); err != nil {
		return err
	}
	if err := os.MkdirAll(pictures, 0o755); err != nil {
		return err
	}
	for name, data := range p.Drawings {
		if err := os.WriteFile(filepath.Join(pictures, name), data, 0o644); err != nil {
			return err
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "truth.json"), truth, 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "log.jsonl"), log, 0o644)
}
