package closing

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/fastener"
	"matchmark/internal/trade/spelling"
)

// NotMakers stands with every torque that was worked out.
const NotMakers = "Range, not a maker's figure."

// Tightening is the fasteners of one thread with the torque they may get.
type Tightening struct {
	Sets     []machine.Fastener
	From     string // CameOut, or FromKit
	Thread   string // as the table names it
	Friction string // the state that thread and head are to be in
	Oil      string // what to do for that state
	Torques  []Torque
	Stop     string   // why there is no torque here; empty where there is
	New      string   // why these must not go back; empty where they may
	Notes    []string // pitch guessed, brass, cone seats

	d     float64 // nominal diameter, mm
	loose bool    // its head is in no table
	into  string  // metal of the thread
}

// tightenAll works out the sets of a joint; those that are tightened alike go
// together.
func (d *Desk) tightenAll(j *machine.Joint, list []set, refused string, found []Found) []Tightening {
	var out []Tightening
	for _, s := range list {
		t := d.tighten(j, s, refused, found)
		i := slices.IndexFunc(out, t.alike)
		if i < 0 {
			out = append(out, t)
			continue
		}
		out[i].Sets = append(out[i].Sets, t.Sets...)
	}
	return out
}

// alike tells whether two sets are tightened in the same way.
func (t Tightening) alike(o Tightening) bool {
	return t.Thread == o.Thread && t.From == o.From && t.Stop == o.Stop && t.New == o.New && slices.Equal(t.Notes, o.Notes) &&
		slices.EqualFunc(t.Torques, o.Torques, func(a, b Torque) bool { return a.If == b.If && a.Class == b.Class })
}

// tighten works out one set.
func (d *Desk) tighten(j *machine.Joint, s set, refused string, found []Found) Tightening {
	f, note := d.frictionOf(j)
	t := Tightening{Sets: []machine.Fastener{s.Fastener}, From: s.from, Thread: s.size.Thread.Designation, Friction: f.State, Oil: f.Advice, Stop: stopped(j, s, refused)}
	t.New, t.d = oneUse(j, s), s.size.Thread.D
	_, err := fastener.HexHead(s.size.Thread)
	t.loose = err != nil
	if s.size.Guessed && len(d.threads.Twins(s.size.Thread)) > 0 {
		t.Notes = append(t.Notes, fmt.Sprintf("No pitch is written: the coarse %s is taken, but the diameter is also cut %s. Measure the pitch.", s.size.Thread.Designation, strings.Join(d.threads.Twins(s.size.Thread), ", ")))
	}
	if t.Stop != "" {
		t.Friction, t.Oil = "", ""
		return t
	}
	if note != "" {
		t.Notes = append(t.Notes, note)
	}
	into := d.metalOf(j)
	t.into = into.name
	for _, w := range classes(j, s) {
		torque, err := d.torque(spec{t.Thread, w.mark, f.State, into}, s.size.Thread)
		if err != nil {
			t.Stop = "No torque: " + err.Error() + "."
			break
		}
		torque.If = w.when
		t.Torques = append(t.Torques, torque)
	}
	d.stronger(j, s, &t, found)
	return t
}

// stopped says why a set has no torque of its own.
func stopped(j *machine.Joint, s set, refused string) string {
	words := strings.ToLower(s.size.Words)
	switch {
	case refused != "":
		return refused
	case j.Sort != "bolted" && j.Plan.Thread == "":
		return fmt.Sprintf("No torque is worked out for %s%s.", spelling.An(j.Sort+" joint"), behind(": ", j.Plan.Tighten))
	case s.size.Thread.Tapered:
		return "A tapered thread seals by its taper: snug, then the next flat."
	case isStud(words):
		return "A stud goes in finger tight and never hard against the bottom; the nut takes the torque."
	case strings.Contains(words, "banjo"):
		return "A banjo bolt is hollow: new washers, firm, no figure for a solid bolt."
	case strings.Contains(words, "castle"):
		return "A castle nut goes to the next slot for its pin, never back: no figure."
	case strings.Contains(words, "screw"):
		return "A slot or cross takes no torque: firm by hand."
	}
	return ""
}

// stronger adds the next class where the joint came undone at more than those
// listed are sure to stand; it holds for a head that bears the mark only.
func (d *Desk) stronger(j *machine.Joint, s set, t *Tightening, found []Found) {
	if s.size.Mark != "" || len(found) == 0 || len(t.Torques) < 2 || strings.HasPrefix(s.size.Thread.Series, "UN") {
		return
	}
	for _, q := range t.Torques {
		if q.Class == "10.9" || q.most() >= found[0].Low {
			return
		}
	}
	q, err := d.torque(spec{t.Thread, "10.9", t.Friction, d.metalOf(j)}, s.size.Thread)
	if err != nil {
		return // the class does not hold for the diameter
	}
	q.If = "only if the head reads 10.9"
	t.Torques = append(t.Torques, q)
}

// oneUse says why the fasteners of a set must not go back.
func oneUse(j *machine.Joint, s set) string {
	used := fastener.Used{}
	for _, p := range j.Parts {
		if p.OneUse && turned.MatchString(p.Name) && !says(p.Name, "lock", "plate", "washer") {
			used.Stretch = true
		}
	}
	switch st := strings.ToLower(s.State); {
	case strings.Contains(st, "stretch"):
		used.Stretch = true
	case strings.Contains(st, "crack"):
		used.Cracked = true
	case strings.Contains(st, "bent"):
		used.Bent = true
	case strings.Contains(st, "neck"):
		used.Necked = true
	case strings.Contains(st, "rust"), strings.Contains(st, "pitted"):
		used.Pitted = true
	case strings.Contains(st, "thread"), strings.Contains(st, "strip"):
		used.Damaged = true
	case st == "missing", strings.Contains(st, "broken"):
		return fmt.Sprintf("%s: get %d new.", spelling.Head(s.State), s.Count)
	}
	var no fastener.RefusedError
	if errors.As(used.Reuse(), &no) {
		return "Get new ones, these do not go back: " + strings.Join(no.Reasons, "; ") + "."
	}
	return ""
}

// wanted is a class to reckon with, and when it holds.
type wanted struct{ mark, when string }

// classes lists the strengths a set may have. A mark written with it rules.
// Else the class usual here holds only where the head says so, and a head
// without a mark is taken as 5.8, up to 8.8 once file and hardness say so,
// never as 10.9. Common practice, no source. A brass nut makes the pair as weak
// as 4.6: our own judgement.
func classes(j *machine.Joint, s set) []wanted {
	plain, better := "5.8", "8.8"
	if strings.HasPrefix(s.size.Thread.Series, "UN") {
		plain, better = "2", "5"
	}
	switch {
	case s.size.Mark != "":
		return []wanted{{s.size.Mark, "the head reads " + s.size.Mark}}
	case says(s.size.Words, "brass"):
		return []wanted{{"4.6", "brass nut, taken as weak as 4.6"}}
	}
	none := wanted{plain, "no mark on the head: taken as " + plain + ", never more on a guess"}
	switch j.Plan.Grade {
	case "", plain:
		return []wanted{none, {better, "the head reads " + better + ", or file and hardness test say so"}}
	case better:
		return []wanted{{better, "the head reads " + better + ", usual here"}, none}
	}
	none.when = fmt.Sprintf("no mark on the head: taken as %s; %s is usual here, so get bolts that bear it", plain, j.Plan.Grade)
	return []wanted{{j.Plan.Grade, "the head reads " + j.Plan.Grade + ", usual here"}, none}
}
