package judge

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"
)

// methodRows reads id and expected value of the method checks. The file has
// no column of its own for how an answer is rounded.
func methodRows(t *testing.T, path string) map[string]string {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord, r.LazyQuotes = -1, true
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, l := range lines[1:] {
		if len(l) > 3 {
			out[l[0]] = l[3]
		}
	}
	return out
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
