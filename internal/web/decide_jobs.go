package web

import (
	"slices"
	"strconv"
	"strings"

	"matchmark/internal/finding/remedy"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// setJob is one job of a set; like jobs on several parts are told once.
type setJob struct {
	key    string
	Name   string
	Size   string
	Place  string
	Times  int
	Cost   string // of all of them
	Days   string
	For    string
	Beware string
	Own    bool // the person's word
	cost   float64
	serves []machine.CheckID
}

// placeJobs are the jobs of one place of work.
type placeJobs struct {
	Place string
	Jobs  []setJob
}

// jobsOfSet lists what a set does, in the order of the plan.
func jobsOfSet(m *machine.Machine, p remedy.Plan) []setJob {
	var out []setJob
	for i, j := range p.Jobs {
		key := strings.Join([]string{j.Remedy, j.Name, sizeWords(j.Step), j.Where}, "|")
		k := slices.IndexFunc(out, func(s setJob) bool { return s.key == key })
		if k < 0 {
			k = len(out)
			out = append(out, setJob{key: key, Name: spelling.Head(j.Name), Size: strings.TrimPrefix(sizeWords(j.Step), ", "), Place: placeOfWork(j.Where), Days: daysWords(j.Days), Beware: spelling.Head(j.Beware)})
		}
		out[k].Times++
		out[k].cost += j.Cost
		out[k].serves = append(out[k].serves, j.Serves...)
		out[k].Own = out[k].Own || slices.ContainsFunc(p.Choices, func(c remedy.Choice) bool { return c.Job == i && c.ByHand })
	}
	for i := range out {
		out[i].Cost, out[i].For = worthWords(out[i].cost), checkNames(m, out[i].serves)
	}
	return out
}

// worthWords says a price in bench hours: "1 hour's worth", "0.6 hours' worth".
func worthWords(h float64) string {
	if h == 1 {
		return "1 hour's worth"
	}
	return figure(h, "h") + " hours' worth"
}

// placeOfWork is where a job is done, as a heading.
func placeOfWork(where string) string {
	switch where {
	case "", "bench":
		return "On your own bench"
	case "buy":
		return "To buy"
	}
	return spelling.Head(where)
}

// byPlace gathers jobs by their place of work, in the order they come.
func byPlace(jobs []setJob) []placeJobs {
	var out []placeJobs
	for _, j := range jobs {
		i := slices.IndexFunc(out, func(p placeJobs) bool { return p.Place == j.Place })
		if i < 0 {
			i = len(out)
			out = append(out, placeJobs{Place: j.Place})
		}
		out[i].Jobs = append(out[i].Jobs, j)
	}
	return out
}

// times tells how often a set does a job.
func times(jobs []setJob, key string) int {
	for _, j := range jobs {
		if j.key == key {
			return j.Times
		}
	}
	return 0
}

// everySet tells a job that all sets do as often.
func everySet(sets [][]setJob, key string) bool {
	for _, jobs := range sets {
		if times(jobs, key) != times(sets[0], key) {
			return false
		}
	}
	return true
}

func sameJobs(sets [][]setJob) bool {
	for _, jobs := range sets {
		for _, j := range jobs {
			if !everySet(sets, j.key) {
				return false
			}
		}
	}
	return true
}

// differOf is the small table of what the sets do otherwise.
func differOf(jobs [][]setJob, sets []setView) []differRow {
	var out []differRow
	seen := map[string]bool{}
	for _, list := range jobs {
		for _, j := range list {
			if seen[j.key] || everySet(jobs, j.key) {
				continue
			}
			seen[j.key] = true
			row := differRow{Name: j.Name + behind(", ", j.Size), Words: j.Place + ", " + j.Cost + ", " + j.Days, For: j.For}
			for i, s := range sets {
				n := times(jobs[i], j.key)
				cell := differCell{Set: s.Name, In: n > 0, Word: "no"}
				if n > 0 {
					cell.Word = "yes"
				}
				if n > 1 {
					cell.Word = strconv.Itoa(n) + " times"
				}
				row.Cells = append(row.Cells, cell)
			}
			out = append(out, row)
		}
	}
	return out
}

// checkNames tells checks shortly, the places of one sort together: "Bore
// taper, cylinder 2; king pin to bush, at the lower-left and upper-left".
func checkNames(m *machine.Machine, ids []machine.CheckID) string {
	type sort struct {
		name   string
		places []string
	}
	var sorts []sort
	for _, id := range ids {
		c := m.Check(id)
		if c == nil {
			continue
		}
		name, at := plainName(c.Name, c.Place), ""
		if name != c.Name {
			at = placeWord(c.Name, c.Place)
		}
		i := slices.IndexFunc(sorts, func(s sort) bool { return s.name == name })
		if i < 0 {
			i = len(sorts)
			sorts = append(sorts, sort{name: name})
		}
		if at != "" && !slices.Contains(sorts[i].places, at) {
			sorts[i].places = append(sorts[i].places, at)
		}
	}
	words := make([]string, len(sorts))
	for i, s := range sorts {
		words[i] = s.name + behind(", ", placesTogether(s.places))
		if i > 0 {
			words[i] = spelling.Inside(words[i])
		}
	}
	return strings.Join(words, "; ")
}

// placesTogether says places of one family with its name once: "cylinder 1, 2
// and 3".
func placesTogether(places []string) string {
	if len(places) == 0 {
		return ""
	}
	front := places[0][:strings.LastIndexByte(places[0], ' ')+1]
	words := []string{places[0]}
	for _, p := range places[1:] {
		words = append(words, strings.TrimPrefix(p, front))
	}
	return andWords(words)
}
