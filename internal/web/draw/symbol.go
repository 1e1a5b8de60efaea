package draw

import "strconv"

// Symbol is how one sort of part is drawn: closed outlines (body) and lines on
// them (fine), both in the language of path.go. Width and height are its usual
// size in units. One that is axial lies along its axis and may be turned to
// stand.
type Symbol struct {
	Sort   string
	Width  float64
	Height float64
	axial  bool
	body   string
	fine   string
}

// Of gives the symbol of a sort. n is what it has several of: teeth, throws,
// bores; what counts nothing ignores it. A sort that no table knows is drawn
// as a plain block.
func Of(sort string, n int) Symbol {
	if made, ok := counted[sort]; ok {
		s := made(n)
		s.Sort = sort + "-" + strconv.Itoa(n)
		return s
	}
	for _, table := range []map[string]Symbol{turnings, engineParts, castings, fittings, bodyParts} {
		if s, ok := table[sort]; ok {
			s.Sort = sort
			return s
		}
	}
	s := castings["block-plain"]
	s.Sort = "block-plain"
	return s
}

// drawn is a symbol traced into a box.
type drawn struct {
	body, fine string
	edges      []edge // of the body
}

// trace gives the paths of a symbol in a box of w by h. The tables are held
// sound by a test, so a fault in one is a programmer's and panics.
func (s Symbol) trace(w, h float64, turned bool) drawn {
	body, err := parse(s.body)
	if err != nil {
		panic("symbol " + s.Sort + ": " + err.Error())
	}
	fine, err := parse(s.fine)
	if err != nil {
		panic("symbol " + s.Sort + ": " + err.Error())
	}
	var d drawn
	d.body, d.edges = trace(body, w, h, turned)
	d.fine, _ = trace(fine, w, h, turned)
	return d
}
