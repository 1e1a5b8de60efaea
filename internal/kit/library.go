package kit

import (
	"embed"
	"strings"
)

//go:embed kits
var files embed.FS

// Library reads the kits that come with the program, in the order of their
// file names. It reads them anew at each call, so that no two callers share
// what they are given. Errors: Faults, were a file unreadable.
// Cost: linear in the files; see BenchmarkLibraryAndExpand.
func Library() ([]*Sheet, error) {
	list, err := files.ReadDir("kits")
	if err != nil {
		return nil, err
	}
	var out []*Sheet
	var faults Faults
	for _, f := range list {
		if !strings.HasSuffix(f.Name(), ".toml") {
			continue
		}
		text, err := files.ReadFile("kits/" + f.Name())
		if err != nil {
			return nil, err
		}
		s, fs := Read(f.Name(), text)
		faults = append(faults, fs...)
		if s != nil {
			out = append(out, s)
		}
	}
	return out, faults.Err()
}

// Titles lists the heads of the kits that come with the program.
func Titles() ([]Head, error) {
	sheets, err := Library()
	var out []Head
	for _, s := range sheets {
		out = append(out, s.Kit)
	}
	return out, err
}

// Whole is what makes a whole small tractor: every kit of the library, with
// three cylinders, and the usual answers to all else.
func Whole() ([]*Sheet, Taking, error) {
	sheets, err := Library()
	take := Taking{Counts: map[string]map[string]int{}, Choices: map[string]map[string]string{}}
	for _, s := range sheets {
		counts, choices := map[string]int{}, map[string]string{}
		for _, c := range s.Counts {
			counts[c.ID] = c.Default
			if c.ID == "cylinders" {
				counts[c.ID] = 3
			}
		}
		for _, c := range s.Choices {
			choices[c.ID] = c.Default
		}
		take.Counts[s.Kit.ID], take.Choices[s.Kit.ID] = counts, choices
	}
	return sheets, take, err
}
