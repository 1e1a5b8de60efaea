package play

import (
	"crypto/sha256"
	"fmt"
	"hash/fnv"
	"strings"

	"matchmark/internal/demo"
	"matchmark/internal/machine"
)

// album holds the drawings that stand for photos.
type album struct{ files map[string][]byte }

// keep files a drawing and gives its sum.
func (a *album) keep(name string, data []byte) machine.Sum {
	if a.files == nil {
		a.files = map[string][]byte{}
	}
	a.files[name+".svg"] = data
	return machine.Sum(fmt.Sprintf("%x", sha256.Sum256(data)))
}

// photos draws a joint as it was before it was opened. Joints of one type are
// drawn once, where nothing tells them apart; slight ones share a drawing with
// their like.
func (s *story) photos(j *machine.Joint, b *machine.JointOpened) []machine.Sum {
	v := view{sort: j.Sort, title: untilComma(j.Name), bolts: howMany(b.Fasteners), dots: dotsOf(b.MatchMark)}
	name := string(j.Type)
	for _, p := range b.Shims {
		for range p.Count {
			v.shims = append(v.shims, p.Typed)
		}
	}
	switch {
	case len(v.shims) > 0:
		name = strings.ReplaceAll(string(j.ID), ".", "-")
		v.title = j.Name
	case v.dots > 0:
		name = fmt.Sprintf("%s-%d", j.Type, v.dots)
	case v.bolts < 5 && len(j.AsFound) == 0:
		name = "a-" + strings.ReplaceAll(j.Sort, " ", "-") + "-joint"
		v.title, v.bolts = "A "+j.Sort+" joint, before undoing", 3
	}
	h := fnv.New32a()
	h.Write([]byte(name))
	v.turn = float64(h.Sum32()%1000) / 1000
	return []machine.Sum{s.album.keep(name, draw(v))}
}

func untilComma(name string) string {
	name, _, _ = strings.Cut(name, ",")
	return name
}

// dotsOf reads a match mark in words.
func dotsOf(mark string) int {
	for i, word := range []string{"one dot", "two dots", "three dots"} {
		if strings.HasPrefix(mark, word) {
			return i + 1
		}
	}
	return 0
}

// pictureTray draws what lies in a tray and ties the drawing to it.
func (s *story) pictureTray(mark string) {
	for _, t := range s.whole().Trays {
		if t.Mark != mark {
			continue
		}
		var names []string
		for _, p := range t.Parts {
			name, _, _ := strings.Cut(untilComma(p.Name), " (")
			if p.Place != "" {
				name = string(p.Place) + " " + name
			}
			names = append(names, name)
		}
		sum := s.album.keep("tray-"+mark, trayLayout(mark, names))
		s.say(&machine.PhotoAdded{Of: machine.RefTray(mark), Sum: sum, Type: demo.DrawingType,
			Caption: fmt.Sprintf("Tray %s, %d sorts of parts", mark, len(t.Parts)), TakenAt: s.at})
		return
	}
	s.fail("tray %s is pictured, but nothing lies in it", mark)
}

// picture ties a drawing of a part to it, in the view of a sort of joint.
func (s *story) picture(part machine.PartID, v view) {
	s.minutes(2)
	sum := s.album.keep("part-"+strings.ReplaceAll(string(part), ".", "-"), draw(v))
	s.say(&machine.PhotoAdded{Of: machine.RefPart(part), Sum: sum, Type: demo.DrawingType, Caption: v.title, TakenAt: s.at})
}
