package book

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"matchmark/internal/finding/remedy"
)

// String is the check with what it should come to: "Big end oil clearance,
// cylinder 1, when built: 0.029 to 0.063 mm (common practice, no source)".
func (b BackCheck) String() string {
	text := b.Name + ", " + b.When
	if b.Wanted == nil {
		return text + ": no limit known"
	}
	return text + ": " + b.Wanted.String()
}

// WriteShopText writes orders as plain text, one place of work after another.
// Errors: the writer's.
func WriteShopText(w io.Writer, shops []Shop) error {
	p := &page{w: bufio.NewWriter(w)}
	if len(shops) == 0 {
		p.line("Nothing goes out to a shop.")
	}
	for i, s := range shops {
		if i > 0 {
			p.line("")
		}
		p.line("ORDER, %s: %s%s (%s set)", s.Where, s.Machine, behind(", number ", s.Serial), s.Aim)
		p.line("%.2f bench hours' worth, %.0f days. %s", s.CostHours, s.Days, s.Guess)
		for n, j := range s.Jobs {
			p.job(n+1, j)
		}
	}
	return p.w.Flush()
}

// mindLabel stands before what the kit tells to mind; figures in it are rules of
// thumb.
const mindLabel = "mind (kit's advice, common practice)"

// page writes lines; its writer keeps the first error for Flush.
type page struct{ w *bufio.Writer }

func (p *page) line(format string, args ...any) {
	_, _ = fmt.Fprintf(p.w, format+"\n", args...)
}

// with writes a labelled line where there is something to say.
func (p *page) with(label, text string) {
	if text != "" {
		p.line("   %s: %s", label, text)
	}
}

func (p *page) job(n int, j ShopJob) {
	p.line("")
	p.line("%d. %s (%.2f hours' worth, %.0f days, guessed)", n, j.Name, j.CostHours, j.Days)
	p.with("sent", strings.Join(j.PartNames, "; "))
	p.with("sent along, to fit to", strings.Join(j.SendAlong, "; "))
	p.with("renewed with it", strings.Join(j.NewNames, "; "))
	for _, s := range j.Surfaces {
		p.line("   surface: %s", s.Name)
		p.line("     as it is: %s", s.From.Words)
		p.line("     size: %s", s.To)
		p.line("     tolerance: %s", s.Tolerance)
	}
	for _, r := range j.Why {
		p.with("why", r.Says+behind(" Judged by ", limitText(r.Limit)))
	}
	for _, b := range j.Back {
		p.with("checked after", b.String())
	}
	p.with(mindLabel, j.Mind)
	for _, n := range j.Notes {
		p.with("note", n)
	}
}

func limitText(l *Limit) string {
	if l == nil {
		return ""
	}
	return l.String() + "."
}

// WriteBuyingText writes a buying list as plain text. Errors: the writer's.
func WriteBuyingText(w io.Writer, l List) error {
	p := &page{w: bufio.NewWriter(w)}
	p.line("BUYING LIST: %s%s (%s set)", l.Machine, behind(", number ", l.Serial), aimWords(l.Aim))
	if len(l.Items) == 0 {
		p.line("Nothing to buy.")
	}
	for _, it := range l.Items {
		p.line("")
		p.line("%3d × %s%s%s", it.Qty, it.Name, behind(", ", it.Places), behind(", ", it.Size))
		if s := it.Standard; s != nil {
			p.with("standard part", standardWords(s))
		}
		p.with("why", strings.Join(it.Why, " "))
		p.with("by", strings.Join(it.Limits, "; "))
		p.with(mindLabel, strings.Join(unique(it.Mind), "; "))
		p.with("already", it.OnOrder)
	}
	if len(l.Notes) > 0 {
		p.line("")
	}
	for _, n := range l.Notes {
		p.line("note: %s", n)
	}
	return p.w.Flush()
}

func standardWords(s *Standard) string {
	text := fmt.Sprintf("%s %s (%.1f %% sure", s.What, s.Designation, min(99.9, 100*s.Probability))
	if !s.Settled {
		text += ", not settled: measure more before buying"
	}
	text += ")"
	if len(s.Equivalents) > 0 {
		text += "; same size: " + strings.Join(s.Equivalents, ", ") + "; the mark decides"
	}
	return text + behind("; table: ", s.Source)
}

func aimWords(a remedy.Aim) string {
	if a == "" {
		return "no"
	}
	return string(a)
}
