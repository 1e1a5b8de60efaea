package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"

	"matchmark/internal/bench"
	"matchmark/internal/finding/judge"
	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// fitsView is the fits of one kind of answer, a page at a time.
type fitsView struct {
	Base    string
	Filters []filter
	Groups  []assemblyRow
	Title   string
	Rows    []fitRow
	Pages   []option // Value is the address
	None    string
	Plans   []string
}

type filter struct {
	Name, At string
	Here     bool
	Count    int
}

// perPage keeps a page of fits small enough for a phone.
const perPage = 25

func fitsPage(v *visit) error {
	n, _ := strconv.Atoi(v.asked("n")) // no number is the first page
	fv := viewFits(v.view, v.base(), v.asked("v"), v.asked("a"), n)
	return v.show("fits", http.StatusOK, frame{Title: "Fits", Here: "Fits", Data: fv})
}

// answer is one filter of the page with the verdicts it means.
type answer struct {
	key, name string
	verdicts  []judge.Verdict
}

var answers = []answer{
	{"decide", "To decide", []judge.Verdict{judge.Worn, judge.Doubtful, judge.NoLimit}},
	{"sound", "Sound", []judge.Verdict{judge.Sound}},
	{"unread", "Not read", []judge.Verdict{judge.NotRead}},
}

func viewFits(v *bench.View, base, asked, assembly string, page int) fitsView {
	k := max(slices.IndexFunc(answers, func(a answer) bool { return a.key == asked }), 0)
	fv := fitsView{Base: base, Title: answers[k].name}
	var found []*judge.Finding
	counts := map[machine.AssemblyID]int{}
	totals := make([]int, len(answers))
	for _, f := range v.Judged().List {
		for i, a := range answers {
			if slices.Contains(a.verdicts, f.Verdict) {
				totals[i]++
				if i == k {
					counts[f.Check.Assembly]++
				}
			}
		}
		if slices.Contains(answers[k].verdicts, f.Verdict) && (assembly == "" || f.Check.Assembly == machine.AssemblyID(assembly)) {
			found = append(found, f)
		}
	}
	if k == 0 {
		slices.SortStableFunc(found, func(a, b *judge.Finding) int { return rankOf(a.Verdict) - rankOf(b.Verdict) })
	}
	for i, a := range answers {
		fv.Filters = append(fv.Filters, filter{a.name, base + "/fits?v=" + a.key, i == k, totals[i]})
	}
	here := base + "/fits?v=" + answers[k].key
	for _, a := range v.Machine.Assemblies {
		if n := counts[a.ID]; n > 0 {
			fv.Groups = append(fv.Groups, assemblyRow{Name: a.Name, At: here + "&a=" + url.QueryEscape(string(a.ID)), Here: string(a.ID) == assembly, Parts: n})
		}
	}
	fv.cut(v, base, found, here+behind("&a=", url.QueryEscape(assembly)), page)
	if k == 0 && assembly == "" && page < 2 {
		fv.Plans = plansOf(v)
	}
	if len(found) == 0 {
		fv.None = noneWords[answers[k].key]
	}
	return fv
}

var noneWords = map[string]string{
	"decide": "Nothing is worn or doubtful by what was read so far. Measure the next pair.",
	"sound":  "No fits judged sound yet. Measure the first pair.",
	"unread": "Every check has been made.",
}

func rankOf(v judge.Verdict) int {
	return slices.Index([]judge.Verdict{judge.Worn, judge.Doubtful, judge.NoLimit}, v)
}

// cut shows one page of what was found.
func (fv *fitsView) cut(v *bench.View, base string, found []*judge.Finding, here string, page int) {
	pages := (len(found) + perPage - 1) / perPage
	page = min(max(page, 1), max(pages, 1))
	for _, f := range found[(page-1)*perPage : min(page*perPage, len(found))] {
		row := fitOf(v, base, f)
		row.Back = fmt.Sprintf("%s&n=%d", here, page)
		fv.Rows = append(fv.Rows, row)
	}
	for i := range pages {
		if pages > 1 {
			fv.Pages = append(fv.Pages, option{fmt.Sprintf("%s&n=%d", here, i+1), strconv.Itoa(i + 1), i+1 == page})
		}
	}
}

// plansOf lists the sets of remedies by their figures, where anything fails.
func plansOf(v *bench.View) []string {
	var out []string
	for _, aim := range remedy.Aims() {
		p := v.Choices(aim)
		if len(p.Jobs)+len(p.Infeasible) > 0 {
			out = append(out, spelling.Head(string(aim))+": "+worthWords(p.Cost)+", "+daysWords(p.Days))
		}
	}
	return out
}

// callPost keeps the restorer's word on a part.
func callPost(v *visit) error {
	id := machine.PartID(v.typed("part"))
	if v.view.Machine.Part(id) == nil {
		return missing("the part", string(id))
	}
	call := machine.Call(v.typed("call"))
	if !slices.Contains([]machine.Call{machine.GoesBack, machine.MakeGood, machine.Renew, machine.NotJudged}, call) {
		return plight{http.StatusUnprocessableEntity, "That is no word on a part",
			"Nothing was kept. A part goes back, is made good, is renewed or is not judged."}
	}
	if _, err := v.record(&machine.CallMade{Part: id, Call: call, Why: clip(v.typed("why"), 400)}); err != nil {
		return err
	}
	return v.go303(v.back(v.base() + "/fits"))
}

// remedyPost settles what is done about a check.
func remedyPost(v *visit) error {
	c := v.view.Machine.Check(machine.CheckID(v.typed("check")))
	if c == nil {
		return missing("the check", v.typed("check"))
	}
	key := v.typed("remedy")
	r := c.Remedy(key)
	if r == nil {
		return plight{http.StatusUnprocessableEntity, c.Name + " has no such remedy", "Nothing was kept. Choose one of its own."}
	}
	body := &machine.RemedyChosen{Check: c.ID, Key: key, Why: clip(v.typed("why"), 400)}
	if len(r.Steps) > 0 {
		step, err := strconv.ParseFloat(v.typed("step"), 64)
		if err != nil || !slices.Contains(r.Steps, step) {
			return plight{http.StatusUnprocessableEntity, "No size was chosen for “" + r.Name + "”", "Nothing was kept. Go back and choose one of its sizes."}
		}
		body.Step = step
	}
	if _, err := v.record(body); err != nil {
		return err
	}
	return v.go303(v.back(v.base() + "/fits"))
}
