package remedy

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// solver is a general MILP solver: how it is called, and how its answer file
// is read. Outside check: GLPK 5.0 and CBC 2.10 as Debian packs them
// (glpk-utils, coinor-cbc).
type solver struct {
	name string
	args func(problem, answer string) []string
	read func(text []byte) (goal float64, possible bool, err error)
}

var solvers = []solver{
	{"glpsol", func(p, a string) []string { return []string{"--lp", p, "-w", a} }, readGLPK},
	{"cbc", func(p, a string) []string { return []string{p, "solve", "solu", a} }, readCBC},
}

// readGLPK finds the line "s mip ROWS COLUMNS STATUS GOAL"; status o is optimal,
// n is none possible.
func readGLPK(text []byte) (float64, bool, error) {
	for line := range strings.Lines(string(text)) {
		var rows, columns int
		var status string
		var goal float64
		if n, _ := fmt.Sscanf(line, "s mip %d %d %s %g", &rows, &columns, &status, &goal); n == 4 {
			if status == "o" {
				return goal, true, nil
			}
			if status == "n" || status == "u" {
				return 0, false, nil
			}
			return 0, false, fmt.Errorf("status %s", status)
		}
	}
	return 0, false, fmt.Errorf("no answer in %q", text)
}

// readCBC reads the first line, "Optimal - objective value 123.00000000".
func readCBC(text []byte) (float64, bool, error) {
	first, _, _ := bytes.Cut(text, []byte("\n"))
	words := strings.Fields(string(first))
	if len(words) < 1 {
		return 0, false, fmt.Errorf("no answer")
	}
	switch words[0] {
	case "Infeasible", "Integer":
		return 0, false, nil
	case "Optimal":
		var goal float64
		_, err := fmt.Sscan(words[len(words)-1], &goal)
		return goal, true, err
	}
	return 0, false, fmt.Errorf("%s", first)
}

// present lists the solvers that are installed; without any the test is
// skipped with what to install.
func present(t *testing.T) []solver {
	t.Helper()
	var out []solver
	for _, s := range solvers {
		if _, err := exec.LookPath(s.name); err == nil {
			out = append(out, s)
		}
	}
	if len(out) == 0 {
		t.Skip("SKIPPED: no general MILP solver here; install the Debian package glpk-utils or coinor-cbc to compare with one")
	}
	return out
}

// solve runs a solver on a program and gives its goal as a whole number.
func (s solver) solve(t *testing.T, text string) (goal int64, possible bool) {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "case.lp"), filepath.Join(dir, "answer.txt")
	if err := os.WriteFile(in, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	said, err := exec.Command(s.name, s.args(in, out)...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", s.name, err, said)
	}
	answer, err := os.ReadFile(out)
	if err != nil {
		t.Fatalf("%s wrote no answer: %v\n%s", s.name, err, said)
	}
	v, possible, err := s.read(answer)
	if err != nil {
		t.Fatalf("%s: %v\n%s", s.name, err, said)
	}
	if math.Abs(v-math.Round(v)) > 1e-4 {
		t.Fatalf("%s: goal %v is no whole number of hundredths", s.name, v)
	}
	return int64(math.Round(v)), possible
}

// goalOf is what the program of an aim counts, for a set of acts.
func goalOf(p *problem, aim Aim, acts []int) int64 {
	cost := p.priceOf(acts)
	switch aim {
	case Soonest:
		return cost + p.scale()*p.daysOf(acts)
	case LongestLived:
		return cost - p.scale()*levelOf(p, acts)
	}
	return cost
}

// levelOf is the number of the highest level at which every need without a word
// lasts, or lasts as long as it can.
func levelOf(p *problem, acts []int) int64 {
	g, lives, levels := &program{p: p}, p.lives(acts), []int64{0}
	for _, act := range p.acts {
		for _, c := range act.covers {
			levels = append(levels, c.life)
		}
	}
	slices.Sort(levels)
	levels = slices.Compact(levels)
	for k := len(levels) - 1; k > 0; k-- {
		holds := true
		for n, need := range p.needs {
			holds = holds && (!need.must || need.word >= 0 || lives[n] >= min(levels[k], g.mostLife(n)))
		}
		if holds {
			return int64(k)
		}
	}
	return 0
}

// sides are the problems that an aim can be compared on: the whole, or for the
// longest-lived set its pieces, which have a life of their own each.
func sides(p *problem, aim Aim) []*problem {
	if aim != LongestLived {
		return []*problem{p}
	}
	var out []*problem
	for _, c := range split(p) {
		if slices.ContainsFunc(c.needs, func(n need) bool { return n.must || n.judged }) {
			out = append(out, c.problem)
		}
	}
	return out
}

// sameOptimum compares the own search with every solver on one problem, and
// adds the times up.
func sameOptimum(t *testing.T, label string, p *problem, aim Aim, using []solver, took map[string][]time.Duration) (met bool) {
	t.Helper()
	spent, met := map[string]time.Duration{}, true
	for _, side := range sides(p, aim) {
		start := time.Now()
		got := decide(side, aim, plenty)
		spent["own"] += time.Since(start)
		want := goalOf(side, aim, got.best.acts)
		met = met && len(got.conflicts) == 0
		text := milpOf(side, aim)
		for _, s := range using {
			start = time.Now()
			goal, possible := s.solve(t, text)
			spent[s.name] += time.Since(start)
			if possible != (len(got.conflicts) == 0) {
				t.Errorf("%s, %s: %s says possible %v, conflicts here %v", label, aim, s.name, possible, got.conflicts)
			} else if possible && goal != want {
				t.Errorf("%s, %s: %s finds %d, we find %d (hundredths)", label, aim, s.name, goal, want)
			}
		}
	}
	for name, d := range spent {
		took[name] = append(took[name], d)
	}
	return met
}

func tellTimes(t *testing.T, what string, took map[string][]time.Duration) {
	t.Helper()
	names := []string{"own"}
	for _, s := range solvers {
		names = append(names, s.name)
	}
	for _, name := range names {
		if all := took[name]; len(all) > 0 {
			slices.Sort(all)
			t.Logf("%s, %s: %d cases, median %v, worst %v", what, name, len(all), all[len(all)/2].Round(10*time.Microsecond), all[len(all)-1].Round(10*time.Microsecond))
		}
	}
}

// The cases of the benchmark: 60 checks of five remedies, 12 kits, three size
// families; the own time holds three next-best sets and all flips as well, the
// solver's its start and the reading of a file.
func TestSameOptimumAsMILPSolver(t *testing.T) {
	using := present(t)
	for _, aim := range Aims() {
		took := map[string][]time.Duration{}
		for seed := range uint64(20) {
			p := sixtyChecks(rand.New(rand.NewPCG(seed, 3)))
			sameOptimum(t, fmt.Sprintf("case %d", seed), p, aim, using, took)
		}
		tellTimes(t, string(aim)+", 60 checks", took)
	}
}

// Small cases have all that the large ones lack: words, demanded sizes, jobs
// that several decisions share, values pushed out and pulled back, conflicts.
func TestSameOptimumAsMILPSolverSmall(t *testing.T) {
	using := present(t)
	for _, aim := range Aims() {
		took, met := map[string][]time.Duration{}, 0
		for seed := range uint64(40) {
			p := randomProblem(rand.New(rand.NewPCG(seed, 31)), seed%4 != 0)
			if sameOptimum(t, fmt.Sprintf("small case %d", seed), p, aim, using, took) {
				met++
			}
		}
		tellTimes(t, string(aim)+", small", took)
		if met < 10 || met > 35 {
			t.Errorf("%s: %d of 40 cases can be met; too one-sided to test anything", aim, met)
		}
	}
}
