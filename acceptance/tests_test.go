package acceptance_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var checkTest = regexp.MustCompile(`(?m)^func TestCheck(\d\d)\w*\(t \*testing\.T\) \{\n(\tholds\(t, (\d+)\))?`)

// checkTests finds the tests of the checks in the module: number → files.
func checkTests() (map[int][]string, error) {
	found := map[int][]string{}
	err := eachTest(func(path string, n int, _ string) { found[n] = append(found[n], path) })
	return found, err
}

// eachTest sees every test of a check: its file, its number and the number it
// counts under, empty where it does not say.
func eachTest(see func(path string, n int, held string)) error {
	return filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && d.Name() == ".git" {
			return fs.SkipDir
		}
		if !strings.HasSuffix(path, "_test.go") {
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		for _, m := range checkTest.FindAllStringSubmatch(string(text), -1) {
			n, _ := strconv.Atoi(m[1]) // two digits
			see(filepath.ToSlash(strings.TrimPrefix(path, ".."+string(filepath.Separator))), n, m[3])
		}
		return nil
	})
}

// TestChecksAreCounted: each test of a check that stands here begins with
// holds and its own number.
func TestChecksAreCounted(t *testing.T) {
	err := eachTest(func(path string, n int, held string) {
		if strings.HasPrefix(path, "acceptance/") && held != strconv.Itoa(n) {
			t.Errorf("%s: TestCheck%02d does not begin with holds(t, %d), so that the tally does not count it", path, n, n)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
}
