package sequence

import (
	"encoding/json"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"matchmark/internal/machine"
	"matchmark/internal/reftest"
)

// The rows of the engine "order" of the shared method checks.
func TestMethodChecks(t *testing.T) {
	tab := reftest.Load(t, "reference/method-checks.csv")
	for id, reach := range map[string]string{"C1a": "a c | b c", "C1b": "a c"} {
		row := tab.Row(t, id)
		want, err := strconv.Atoi(strings.Fields(row["expected"])[0])
		if err != nil {
			t.Fatalf("row %s: %v", id, err)
		}
		strip := new(book).write(joint("a", ""), joint("b", ""), joint("c", ""), joint("d", reach), joint("e", "d"))
		if got := orders(t, strip.plan(), Open); got != want {
			t.Errorf("row %s (%s): %d opening orders, want %d", id, row["inputs"], got, want)
		}
		// Turned round for building back there are as many.
		strip.write(opened("a", "b", "c", "d", "e")...)
		if got := orders(t, strip.plan(), Close); got != want {
			t.Errorf("row %s (%s): %d closing orders, want %d", id, row["inputs"], got, want)
		}
	}

	row := tab.Row(t, "C1c")
	p := new(book).write(joint("p", "q"), joint("q", "r | s"), joint("r", "p"), joint("s", "t"), joint("t", "")).plan()
	if len(p.Contradictions) > 0 {
		t.Errorf("row C1c (%s): contradiction %s", row["inputs"], p.Contradictions[0].Words)
	}
	var strip []string
	for _, s := range p.Order {
		if s.Act == Open {
			strip = append(strip, strings.ToUpper(string(s.Joint.ID)))
		}
	}
	if got := strings.Join(strip, ","); !strings.Contains(row["expected"], got) {
		t.Errorf("row C1c: opening order %s, want %s", got, row["expected"])
	}
	if b := p.Blocked(OpenID("r")); !b.Exact || len(b.Needs) != 4 {
		t.Errorf("row C1c: what blocks r: %+v", b)
	}

	row = tab.Row(t, "C1d")
	reaches := map[string]string{"p": "q", "q": "r | p", "r": "p"}
	deadlock := func(without string) *Plan {
		b := new(book)
		for _, id := range []string{"p", "q", "r"} {
			if id == without {
				b.write(joint(id, ""))
			} else {
				b.write(joint(id, reaches[id]))
			}
		}
		return b.plan()
	}
	p = deadlock("")
	if len(p.Contradictions) == 0 {
		t.Fatalf("row C1d (%s): no contradiction found", row["inputs"])
	}
	var core []string
	for _, c := range p.Contradictions[0].Claims {
		core = append(core, string(c.Step))
	}
	slices.Sort(core)
	if !slices.Equal(core, []string{"open:p", "open:q", "open:r"}) {
		t.Errorf("row C1d: core %v, want the opening of P, Q and R", core)
	}
	for _, id := range []string{"p", "q", "r"} {
		if p := deadlock(id); len(p.Contradictions) > 0 || len(p.Stuck) > 0 {
			t.Errorf("row C1d: without the clause of %s still stuck: %v", id, ids(p.Stuck))
		}
	}
}

// Counts of linear extensions: every file of the set, both as what must be
// open before (opening) and as stated order (closing).
func TestOrderCounts(t *testing.T) {
	var files []struct {
		Name     string   `json:"name"`
		Elements int      `json:"elements"`
		Before   [][2]int `json:"before"`
		Orders   int      `json:"number_of_orders"`
		Source   string   `json:"source"`
	}
	readShared(t, "data/assembly/order_counts.json", &files)
	for _, f := range files {
		t.Run(f.Name, func(t *testing.T) { countBothWays(t, f.Elements, f.Before, f.Orders, f.Source) })
	}
	t.Logf("%d of %d orders counted, none skipped", len(files), len(files))
}

// The pen as written out in the file; its count is the file's own computation
// (the published figure was not available, as the file says).
func TestClassicPen(t *testing.T) {
	var files []struct {
		Name      string            `json:"name"`
		Liaisons  map[string]string `json:"liaisons"`
		Pairs     [][2]int          `json:"pairs_zero_based"`
		Sequences int               `json:"number_of_liaison_sequences"`
		Status    string            `json:"status"`
	}
	readShared(t, "data/assembly/classic_examples.json", &files)
	used := 0
	for _, f := range files {
		if len(f.Pairs) > 0 {
			used++
			countBothWays(t, len(f.Liaisons), f.Pairs, f.Sequences, f.Status)
		}
	}
	t.Logf("%d of %d examples used; the rest count subassemblies, which the order does not speak of", used, len(files))
}

func countBothWays(t *testing.T, n int, before [][2]int, want int, source string) {
	t.Helper()
	name := func(i int) string { return "j" + strconv.Itoa(i) }
	first := make([][]string, n)
	strip, build := new(book), new(book)
	for _, p := range before {
		first[p[1]] = append(first[p[1]], name(p[0]))
	}
	for i := range n {
		strip.write(joint(name(i), strings.Join(first[i], " ")))
		build.write(joint(name(i), ""))
	}
	for i := range n {
		build.write(opened(name(i))...)
	}
	for _, p := range before {
		build.write(stated(name(p[0]), name(p[1])))
	}
	if got := orders(t, strip.plan(), Open); got != want {
		t.Errorf("%d opening orders, want %d (%s)", got, want, source)
	}
	if got := orders(t, build.plan(), Close); got != want {
		t.Errorf("%d closing orders, want %d (%s)", got, want, source)
	}
	for i := range n {
		strip.write(opened(name(i))...)
	}
	if got := orders(t, strip.plan(), Close); got != want {
		t.Errorf("%d closing orders by turning the reach round, want %d (%s)", got, want, source)
	}
}

// Joins of real products by which one part goes on at a time: with the other
// parts of the whole taken off, the part can come off and can go on. A part is
// a joint here, and each of six directions in which it could leave is one
// alternative of its reach: the parts it would hit. The list is to be accepted
// as far as it goes; it is no count.
func TestRealProductsAcceptListedJoins(t *testing.T) {
	for _, file := range []string{"cad_centrifugal_pump.json", "cad_multiplate_clutch.json"} {
		t.Run(file, func(t *testing.T) { acceptJoins(t, file) })
	}
}

func acceptJoins(t *testing.T, file string) {
	var product struct {
		Parts []string           `json:"parts"`
		Wedge map[string][][]int `json:"moving_wedge"`
		Joins [][3][]int         `json:"reference_joins"`
	}
	readShared(t, "data/assembly/"+file, &product)
	n := len(product.Parts)
	name := func(i int) string { return "part" + strconv.Itoa(i) }
	base := new(book)
	for i := range n {
		base.write(joint(name(i), wedgeReach(product.Wedge, n, i, name)))
	}
	used, skipped := 0, 0
	for _, join := range product.Joins {
		whole, one := join[0], join[1]
		if len(one) != 1 {
			one = join[2]
		}
		if len(one) != 1 || len(whole) == 2 && len(join[1])+len(join[2]) != 2 {
			skipped++
			continue
		}
		used++
		strip := &book{entries: slices.Clone(base.entries)}
		for i := range n {
			if !slices.Contains(whole, i+1) {
				strip.write(opened(name(i))...)
			}
		}
		part := machine.JointID(name(one[0] - 1))
		p := strip.plan()
		if !slices.Contains(ids(p.Free), string(OpenID(part))) {
			t.Errorf("%s cannot come off %v", part, whole)
		}
		for _, i := range whole { // and nothing is offered that every direction bars
			if slices.Contains(ids(p.Free), string(OpenID(machine.JointID(name(i-1))))) && !mayLeave(product.Wedge, whole, i-1) {
				t.Errorf("%s is offered off %v though every direction is barred", name(i-1), whole)
			}
		}
		m := strip.write(opened(string(part))...).fold()
		if holds := MayClose(m, looks{m}, m.Joint(part), true); len(holds) > 0 {
			t.Errorf("%s cannot go on to %v: %s", part, whole, holds[0].Why)
		}
	}
	t.Logf("%d joins of one part used, %d joins of two groups skipped: a group has no joint of its own here", used, skipped)
	if used == 0 {
		t.Error("no join was used")
	}
}

// mayLeave tells straight from the matrices whether a part can leave the others.
func mayLeave(wedge map[string][][]int, whole []int, i int) bool {
	for _, axis := range []string{"MW_x", "MW_y", "MW_z"} {
		if every(whole, func(k int) bool { return k-1 == i || wedge[axis][i][k-1] == 1 }) ||
			every(whole, func(k int) bool { return k-1 == i || wedge[axis][k-1][i] == 1 }) {
			return true
		}
	}
	return false
}

// wedgeReach writes the reach of a part: for each direction the parts in the
// way; no reach at all where some direction is free.
func wedgeReach(wedge map[string][][]int, n, i int, name func(int) string) string {
	var alts []string
	for _, axis := range []string{"MW_x", "MW_y", "MW_z"} {
		for _, sense := range []bool{true, false} {
			var hits []string
			for k := range n {
				free := wedge[axis][i][k]
				if !sense {
					free = wedge[axis][k][i]
				}
				if k != i && free == 0 {
					hits = append(hits, name(k))
				}
			}
			if len(hits) == 0 {
				return ""
			}
			alts = append(alts, strings.Join(hits, " "))
		}
	}
	return strings.Join(alts, " | ")
}

func readShared(t *testing.T, name string, into any) {
	t.Helper()
	data, err := os.ReadFile(reftest.Shared(t, name))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}
