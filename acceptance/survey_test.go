package acceptance_test

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"matchmark/internal/trial"
	"matchmark/tools/pictures/tour"
)

//go:embed audit.js
var auditScript string

// sight is one page on one ground at one width.
type sight struct {
	path, ground string
	width        int64
}

func (s sight) String() string { return fmt.Sprintf("%s, %s, %d", s.path, s.ground, s.width) }

// fault is what one look at a page found against a check.
type fault struct {
	Check int    `json:"check"`
	What  string `json:"what"`
	at    sight
}

// survey is one walk over every page on both grounds at every width, whose
// findings several checks share.
type survey struct {
	faults []fault
	looks  map[int]int // check → how many looks were made for it
}

var (
	surveyOnce sync.Once
	theSurvey  survey
)

var (
	grounds = []string{"blue", "film"}
	widths  = []int64{360, 390, 1024, 1440}
	heights = map[int64]int64{320: 640, 360: 740, 390: 844, 1024: 768, 1440: 900}
)

// surveyed gives the walk, made once.
func surveyed(t *testing.T) *survey {
	t.Helper()
	probe := trial.NewTab(t, 360, 740) // skips here where there is no browser
	surveyOnce.Do(func() {
		s := trial.Serve(t, t.TempDir())
		theSurvey.looks = map[int]int{}
		work := make(chan sight)
		found := make(chan survey)
		var crew sync.WaitGroup
		for range 3 {
			tab := trial.NewTab(t, 360, 740)
			tab.Allow("404") // pages that are not there are looked at too
			crew.Go(func() {
				for at := range work {
					found <- look(tab, s.URL, at)
				}
			})
		}
		go func() {
			for _, ground := range grounds {
				for _, path := range tour.Pages() {
					work <- sight{path: path, ground: ground}
				}
			}
			close(work)
			crew.Wait()
			close(found)
		}()
		for f := range found {
			theSurvey.faults = append(theSurvey.faults, f.faults...)
			for check, n := range f.looks {
				theSurvey.looks[check] += n
			}
		}
	})
	if theSurvey.looks == nil {
		t.Fatal("the walk over the pages was broken off")
	}
	_ = probe
	return &theSurvey
}

// look opens a page once and sees it at every width.
func look(tab *trial.Tab, base string, at sight) survey {
	out := survey{looks: map[int]int{}}
	note := func(found ...fault) {
		for _, f := range found {
			f.at = at
			out.faults = append(out.faults, f)
		}
	}
	heard := len(tab.Wrong())
	tab.Ground(base, at.ground)
	tab.Size(320, heights[320])
	tab.Open(strings.TrimSuffix(base, "/") + at.path)
	if got := trial.Ask[string](tab, "document.documentElement.dataset.ground"); got != at.ground {
		note(fault{Check: 1, What: "the page lies on " + got})
	}
	at.width = 320
	note(slices.DeleteFunc(audit(tab), func(f fault) bool { return f.Check != 3 })...)
	trial.Ask[bool](tab, axeScript+";true")
	for _, at.width = range widths {
		tab.Size(at.width, heights[at.width])
		note(audit(tab)...)
		tab.Size(at.width, trial.Ask[int64](tab, "document.documentElement.scrollHeight")) // so that no bar lies over a target for the moment
		note(axe(tab)...)
		for _, check := range []int{1, 2, 4} {
			out.looks[check]++
		}
	}
	for _, wrong := range tab.Wrong()[heard:] {
		note(fault{Check: 16, What: wrong})
	}
	out.looks[3] += 2
	out.looks[16]++
	return out
}

// audit measures the page as it stands.
func audit(tab *trial.Tab) []fault {
	return trial.Ask[[]fault](tab, auditScript)
}

// holdTo fails the test for each finding against a check. SURVEY=file keeps
// all findings for a closer look.
func (s *survey) holdTo(t *testing.T, check int) {
	t.Helper()
	if want := len(tour.Pages()) * len(grounds); s.looks[check] < want {
		t.Errorf("%d looks were made for check %d, want at least %d", s.looks[check], check, want)
	}
	seen := map[string][]string{}
	for _, f := range s.faults {
		if f.Check == check {
			seen[f.What] = append(seen[f.What], f.at.String())
		}
	}
	for what, where := range seen {
		t.Errorf("%s\n    at %s and %d more", what, where[0], len(where)-1)
	}
	if file := os.Getenv("SURVEY"); file != "" {
		data, _ := json.MarshalIndent(seen, "", " ") // strings only
		if err := os.WriteFile(fmt.Sprintf("%s-%02d.json", file, check), data, 0o644); err != nil {
			t.Error(err)
		}
	}
}
