package book

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"matchmark/internal/machine"
)

// shopColumns are the columns of a shop order as CSV: one line for each surface
// of a job, or one for a job without a surface. Sizes in mm; costs in bench
// hours' worth and days are guesses, on the first line of a job only, so that a
// column can be added up.
var shopColumns = []string{"where", "job", "part", "surface", "least_mm", "most_mm", "u_mm", "measured", "nominal_mm", "nominal_from", "step_mm", "target_mm",
	"size", "tolerance", "send_along", "renewed_with_it", "why", "limits", "checks_after", "mind_kit_advice", "cost_hours_guess", "days_guess"}

// buyingColumns are the columns of a buying list as CSV, one line an item.
var buyingColumns = []string{"qty", "name", "places", "size", "standard", "probability", "equivalents", "material", "why", "limits", "on_order", "mind_kit_advice", "parts"}

// ShopColumns lists the columns that WriteShopCSV gives.
func ShopColumns() []string { return append([]string{}, shopColumns...) }

// BuyingColumns lists the columns that WriteBuyingCSV gives.
func BuyingColumns() []string { return append([]string{}, buyingColumns...) }

// WriteShopCSV writes orders as CSV (RFC 4180) in UTF-8, with a head line. Text
// that a spreadsheet would take for a formula gets an apostrophe in front.
// Errors: the writer's.
func WriteShopCSV(w io.Writer, shops []Shop) error {
	c := csv.NewWriter(w)
	lines := [][]string{shopColumns}
	for _, s := range shops {
		for _, j := range s.Jobs {
			lines = append(lines, jobLines(s.Where, j)...)
		}
	}
	return writeAll(c, lines)
}

func jobLines(where string, j ShopJob) [][]string {
	var why, limits, back []string
	for _, r := range j.Why {
		why = append(why, r.Says)
		if r.Limit != nil {
			limits = append(limits, r.Limit.String())
		}
	}
	for _, b := range j.Back {
		back = append(back, b.String())
	}
	line := func(part string, s Surface) []string {
		from := ""
		if s.NominalMM > 0 {
			from = origin(s.NominalBy, s.NominalIn)
		}
		least, most := 0.0, 0.0
		if s.From.Known {
			least, most = s.From.LeastMM, s.From.MostMM
		}
		return []string{where, j.Name, part, s.Name, mmCell(least), mmCell(most), uCell(s.From.UMM), s.From.Words, mmCell(s.NominalMM), from,
			mmCell(s.StepMM), mmCell(s.TargetMM), s.To, s.Tolerance, strings.Join(j.SendAlong, "; "), strings.Join(j.NewNames, "; "), strings.Join(why, " "),
			strings.Join(unique(limits), "; "), strings.Join(back, "; "), j.Mind, plain(j.CostHours), plain(j.Days)}
	}
	if len(j.Surfaces) == 0 {
		return [][]string{line(strings.Join(j.PartNames, "; "), Surface{})}
	}
	var out [][]string
	for i, s := range j.Surfaces {
		cells := line(strings.Join(j.PartNames, "; "), s)
		if i > 0 {
			cells[len(cells)-2], cells[len(cells)-1] = "", ""
		}
		out = append(out, cells)
	}
	return out
}

// WriteBuyingCSV writes a buying list as CSV (RFC 4180), in the way of
// WriteShopCSV. Errors: the writer's.
func WriteBuyingCSV(w io.Writer, l List) error {
	lines := [][]string{buyingColumns}
	for _, it := range l.Items {
		name, p, same := "", "", ""
		if s := it.Standard; s != nil {
			name, p, same = s.What+" "+s.Designation, plain(s.Probability), strings.Join(s.Equivalents, "; ")
		}
		lines = append(lines, []string{strconv.Itoa(it.Qty), it.Name, it.Places, it.Size, name, p, same, it.Material, strings.Join(it.Why, " "),
			strings.Join(it.Limits, "; "), it.OnOrder, strings.Join(unique(it.Mind), "; "), ids(it.Parts)})
	}
	return writeAll(csv.NewWriter(w), lines)
}

func writeAll(c *csv.Writer, lines [][]string) error {
	for _, line := range lines {
		cells := make([]string, len(line))
		for i, v := range line {
			cells[i] = harmless(v)
		}
		if err := c.Write(cells); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// harmless puts an apostrophe before a text that a spreadsheet would take for a
// formula, also behind blanks and control characters.
func harmless(v string) string {
	t := strings.TrimLeft(v, " \t\r\n\u00a0\ufeff")
	if t == "" {
		return v
	}
	switch []rune(t)[0] {
	case '=', '+', '-', '@', '＝', '＋', '－', '＠':
		return "'" + v
	}
	if v[0] == '\t' || v[0] == '\r' || v[0] == '\n' {
		return "'" + v
	}
	return v
}

func ids(list []machine.PartID) string {
	out := make([]string, len(list))
	for i, id := range list {
		out[i] = string(id)
	}
	return strings.Join(out, " ")
}

func mmCell(v float64) string {
	if v == 0 {
		return ""
	}
	return size(v)
}

func uCell(v float64) string {
	if v == 0 {
		return ""
	}
	return strconv.FormatFloat(v, 'f', 4, 64)
}

func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
