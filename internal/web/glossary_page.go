package web

import (
	"net/http"
	"strings"

	"matchmark/docs"
	"matchmark/internal/trade/spelling"
)

// term is one word of the glossary as shown.
type term struct{ Name, Unit, Means string }

// glossaryPage shows what the words of the pages mean.
func glossaryPage(v *visit) error {
	return v.show("glossary", http.StatusOK, frame{Title: "Words", Back: ownAddress(v.asked("back"), "/"), Data: terms(docs.Glossary)})
}

// terms reads the table of the glossary; what a word is called in the program
// is of no use at the bench.
func terms(text string) []term {
	var out []term
	for line := range strings.Lines(text) {
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		if len(cells) != 4 || strings.HasPrefix(cells[0], "--") || strings.TrimSpace(cells[0]) == "term" {
			continue
		}
		for i := range cells {
			cells[i] = strings.TrimSpace(strings.ReplaceAll(cells[i], "`", ""))
		}
		unit := cells[2]
		if unit == "–" {
			unit = ""
		}
		out = append(out, term{spelling.Head(cells[0]), unit, cells[3]})
	}
	return out
}
