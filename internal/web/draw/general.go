package draw

import "strings"

// slot is a place on the general arrangement: an exploded side view of a
// tractor, its front to the left. A part goes in by its symbol and a word of
// its name; like parts share the slot from left to right.
type slot struct {
	sort  string
	word  string
	at    box
	stand bool // turned to stand upright
}

// slots of the general arrangement.
var slots = []slot{
	{sort: "engine", at: box{270, 480, 150, 82}},
	{sort: "crankshaft", at: box{246, 594, 184, 58}},
	{sort: "head", at: box{270, 191, 150, 40}},
	{sort: "piston", at: box{276, 254, 138, 44}, stand: true},
	{sort: "rad", at: box{62, 346, 54, 108}},
	{sort: "flywheel", at: box{500, 563, 38, 120}},
	{sort: "gearcase", at: box{736, 571, 112, 104}},
	{sort: "axlecase", at: box{868, 573, 88, 100}},
	{sort: "tank", at: box{492, 186, 96, 58}},
	{sort: "injpump", at: box{140, 205, 76, 62}},
	{sort: "liftcover", at: box{800, 344, 126, 56}},
	{sort: "steerbox", at: box{630, 316, 66, 60}},
	{sort: "beam", at: box{62, 674, 132, 34}},
	{sort: "sumpplain", at: box{270, 720, 150, 42}},
	{sort: "tyre", word: "rear", at: box{800, 725, 154, 74}},
	{sort: "seat", word: "seat", at: box{744, 201, 84, 58}},
	{sort: "battery", at: box{62, 161, 70, 46}},
	{sort: "liner", at: box{276, 398, 138, 54}, stand: true},
	{sort: "motor", word: "starter", at: box{488, 452, 84, 46}},
	{sort: "rockercover", at: box{270, 130, 150, 36}},
	{sort: "tyre", word: "front", at: box{62, 754, 112, 50}},
	{sort: "bell", at: box{644, 563, 64, 120}},
	{sort: "clutchplate", at: box{552, 573, 26, 100}},
	{sort: "clutchcover", at: box{592, 573, 34, 100}},
	{sort: "bonnet", at: box{62, 65, 124, 48}},
	{sort: "conrod", at: box{276, 320, 138, 56}, stand: true},
	{sort: "maincap", at: box{264, 675, 162, 22}},
	{sort: "injector", word: "injector", at: box{276, 63, 138, 44}, stand: true},
	{sort: "fan", at: box{130, 346, 32, 108}},
	{sort: "waterpump", at: box{176, 364, 54, 72}},
	{sort: "timingcover", at: box{186, 567, 48, 108}},
	{sort: "camshaft", at: box{62, 610, 108, 26}},
	{sort: "motor", word: "dynamo", at: box{62, 507, 84, 46}},
	{sort: "steerwheel", at: box{618, 69, 90, 26}},
	{sort: "worm", at: box{650, 134, 26, 130}, stand: true},
	{sort: "aircleaner", at: box{206, 69, 36, 84}},
	{sort: "manifold", word: "exhaust", at: box{488, 319, 96, 32}},
	{sort: "silencer", at: box{476, 69, 96, 32}},
	{sort: "grille", at: box{62, 247, 42, 62}},
	{sort: "shaft", word: "input", at: box{536, 727, 118, 18}},
	{sort: "shaft", word: "mainshaft", at: box{536, 777, 118, 18}},
	{sort: "shaft", word: "countershaft", at: box{672, 777, 104, 18}},
	{sort: "gear", word: "range", at: box{690, 720, 24, 40}},
	{sort: "lever", word: "gear lever", at: box{744, 433, 38, 88}},
	{sort: "fender", at: box{840, 70, 114, 42}},
	{sort: "frame", at: box{748, 67, 62, 78}},
	{sort: "pumpbody", word: "gear pump", at: box{650, 455, 48, 52}},
	{sort: "filter", word: "filter", at: box{232, 720, 32, 48}},
	{sort: "link", word: "lower link", at: box{856, 269, 98, 26}},
	{sort: "arm", word: "lift arm", at: box{856, 184, 98, 26}},
	{sort: "drum", at: box{824, 454, 60, 76}},
	{sort: "crownwheel", at: box{908, 460, 32, 76}},
	{sort: "spline", at: box{448, 719, 60, 14}},
}

// axes of the general arrangement: a centre line runs from the first to the
// last of the parts named that are there.
var generalAxes = []struct {
	sorts []string
	stand bool
}{
	{sorts: []string{"timingcover", "crankshaft", "flywheel", "clutchplate", "clutchcover", "bell", "gearcase", "axlecase"}},
	{sorts: []string{"rad", "fan", "waterpump"}},
	{sorts: []string{"steerwheel", "worm", "steerbox"}, stand: true},
	{sorts: []string{"injector", "rockercover", "head", "piston", "conrod", "liner", "engine", "crankshaft"}, stand: true},
}

// General lays out the general arrangement.
func (m Machine) General() Sheet {
	s := Sheet{Height: generalHeight}
	var groups []group
	taken := map[string]bool{}
	all := m.kinds(func(Item) bool { return true })
	for _, sl := range slots {
		for _, k := range all {
			if !taken[k.first().Type] && sl.takes(k) {
				taken[k.first().Type] = true
				groups = append(groups, s.fill(sl, k))
				break
			}
		}
	}
	s.gather(groups)
	s.centreLines()
	groups = append(groups, s.others(all, taken)...)
	if len(groups) == 0 {
		return s
	}
	s.Balloons = append(s.balloons(groups, shownSmall, 1), s.balloons(groups, shownLarge, 6)...)
	return s
}

// gather moves what there is to the middle, where much of a tractor is missing,
// and takes the empty height away.
func (s *Sheet) gather(groups []group) {
	if len(s.Marks) == 0 {
		return
	}
	all := s.Marks[0].At
	for _, m := range s.Marks {
		all = all.spanning(m.At)
	}
	if all.w > 0.7*Width {
		return
	}
	dx, dy := Width/2-all.middle().x, margin+inset+60-all.y
	move := func(b *box) { b.x, b.y = b.x+dx, b.y+dy }
	for i := range s.Marks {
		move(&s.Marks[i].At)
	}
	for _, g := range groups {
		for i := range g.marks {
			move(&g.marks[i].At)
		}
	}
	s.Height = max(all.h+2*(margin+inset+60), 300)
}

// others sets one part of every assembly that has none on the arrangement in
// rows below it: its heaviest, or its first.
func (s *Sheet) others(all []kind, taken map[string]bool) []group {
	shown, order, main := map[string]bool{}, []string{}, map[string]kind{}
	for _, k := range all {
		shown[k.first().Sheet] = shown[k.first().Sheet] || taken[k.first().Type]
	}
	for _, k := range all {
		id := k.first().Sheet
		best, known := main[id]
		if !known {
			order = append(order, id)
		}
		if !known || k.first().MassKg > best.first().MassKg {
			main[id] = k
		}
	}
	var groups []group
	y := s.Height - margin - inset
	if len(s.Marks) == 0 {
		y = margin + inset
	}
	n := 0
	for _, id := range order {
		if shown[id] {
			continue
		}
		at := box{margin + inset + othersPitch*float64(n%othersInRow) + 30, y + othersDeep*float64(n/othersInRow) + 26, 96, 62}
		k := main[id]
		k.items = k.items[:1]
		groups = append(groups, s.fill(slot{at: at}, k))
		n++
		s.Height = max(at.bottom()+inset+margin, 300)
	}
	return groups
}

// Rows of others: how far apart they stand, and how many in a row.
const (
	othersPitch = 180.0
	othersDeep  = 116.0
	othersInRow = 5
)

// generalHeight is the height of the general arrangement.
const generalHeight = 840.0

func (sl slot) takes(k kind) bool {
	return k.sort == sl.sort && strings.Contains(strings.ToLower(k.first().Kind), sl.word)
}

// slack is the share of its slot that a part fills, to leave room for leaders.
const slack = 0.92

// fill sets a kind into its slot, its items side by side.
func (s *Sheet) fill(sl slot, k kind) group {
	var g group
	n := float64(len(k.items))
	room := sl.at.w / n
	most := room
	if n > 1 {
		most = room - 6
	}
	for i, it := range k.items {
		mid := point{sl.at.x + room*(float64(i)+0.5), sl.at.y + sl.at.h/2}
		w, h := k.symbol.size(sl.stand)
		f := slack * min(most/w, sl.at.h/h)
		mk := Mark{Item: it, Symbol: k.symbol, At: about(mid, f*w, f*h), Turned: sl.stand}
		mk.drawn = k.symbol.trace(f*w, f*h, sl.stand)
		s.Marks = append(s.Marks, mk)
		g.marks = append(g.marks, mk)
	}
	return g
}
