package closing

import (
	"regexp"
	"slices"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/fastener"
)

// sets are the fasteners of a joint.
type sets struct {
	threaded []set
	others   []machine.Fastener
	count    int // bolts and nuts to go round; 0 where nobody knows
}

// set is like fasteners with the thread that was read from what is written.
type set struct {
	machine.Fastener
	size fastener.Size
	from string // CameOut or FromKit
}

// Where a set is known from.
const (
	CameOut = "came out"
	FromKit = "usual here, by the kit: measure it"
)

// setsOf lists what came out of a joint last, else what its kit names.
func (d *Desk) setsOf(j *machine.Joint) sets {
	var out sets
	removed := lastOut(j)
	for _, f := range removed {
		if size, ok := d.size(f.Size); ok {
			out.threaded = append(out.threaded, set{f, size, CameOut})
			if !isStud(size.Words) {
				out.count += f.Count
			}
		} else {
			out.others = append(out.others, f)
		}
	}
	if len(removed) > 0 {
		return out
	}
	out.count = d.kitCount(j)
	for _, name := range kitThreads(j) {
		if size, ok := d.size(name); ok {
			out.threaded = append(out.threaded, set{machine.Fastener{Size: name, Count: out.count}, size, FromKit})
		}
	}
	return out
}

// lastOut is the fasteners of the latest opening that wrote any: an opening
// after a dry build often writes none.
func lastOut(j *machine.Joint) []machine.Fastener {
	for _, r := range slices.Backward(j.Removals) {
		if len(r.Fasteners) > 0 {
			return r.Fasteners
		}
	}
	return nil
}

// metric finds metric sizes in a kit's words: "M6-M8", "2 M8", "M12x1.5".
var metric = regexp.MustCompile(`\bM\d+(?:x\d+(?:\.\d+)?)?\b`)

// kitThreads lists the threads that the kit names: its own field, else those
// in its words.
func kitThreads(j *machine.Joint) []string {
	if j.Plan.Thread != "" {
		return strings.Split(j.Plan.Thread, " or ")
	}
	names := metric.FindAllString(j.Plan.Fasteners, -1)
	slices.Sort(names)
	return slices.Compact(names)
}

// fixing tells a part that fastens, lies under a head or seals between.
var fixing = regexp.MustCompile(`(?i)\b(bolts?|nuts?|studs?|screws?|washers?|dowels?|plate/wire|lock plates?|gaskets?|seals?|o-rings?|shims?|springs?|clips?|pins?)\b`)

// turned tells a part that a wrench turns.
var turned = regexp.MustCompile(`(?i)\b(bolts?|nuts?|studs?)\b`)

// kitCount is how many bolts or nuts the kit gives the joint: those of the most
// numerous kind, for a stud and its nut are one. 0 where it gives none.
func (d *Desk) kitCount(j *machine.Joint) int {
	kinds := map[machine.PartID]int{}
	most := 0
	for _, p := range j.Parts {
		if d.turns(p) {
			kinds[p.Type] += p.Qty
			most = max(most, kinds[p.Type])
		}
	}
	return most
}

// turns tells whether a wrench turns a part, asked once for each type.
func (d *Desk) turns(p *machine.Part) bool {
	yes, asked := d.turned[p.Type]
	if !asked {
		yes = turned.MatchString(p.Name) && !says(p.Name, "lock plate")
		d.turned[p.Type] = yes
	}
	return yes
}

// size reads a fastener once.
func (d *Desk) size(text string) (fastener.Size, bool) {
	s, ok := d.sizes[text]
	if !ok {
		s, _ = d.threads.Size(text) // what is no thread stays empty
		d.sizes[text] = s
	}
	return s, s.Thread.D > 0
}

func isStud(words string) bool {
	w := strings.ToLower(words)
	return strings.Contains(w, "stud") && !strings.Contains(w, "nut")
}
