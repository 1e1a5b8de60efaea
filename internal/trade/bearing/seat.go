package bearing

import (
	"fmt"

	"matchmark/internal/trade/fit"
	"matchmark/internal/trade/metrology"
)

// Load is how a load stands to a ring.
type Load string

const (
	Rotating   Load = "turns round the ring"     // the ring creeps unless it is tight
	Stationary Load = "stands on one spot"       // the ring may be loose, to slide
	Uncertain  Load = "swings or cannot be told" // as an unbalanced or a driven shaft
)

// Weight is a load against the dynamic rating: light below 0.06, normal to
// 0.13, heavy above. Source: a published fits table, read.
type Weight string

const (
	Light  Weight = "light"
	Normal Weight = "normal"
	Heavy  Weight = "heavy"
)

// Seating is a question about one ring.
type Seating struct {
	Ring   Ring
	Kind   Kind
	Load   Load
	Weight Weight
	SizeMM float64 // bore for the inner ring, outside for the outer
	Slides bool    // inner ring under a standing load must move along the shaft
	Split  bool    // the housing is in two halves
}

// Advice is how a ring is to sit.
type Advice struct {
	Class        string   // of the shaft or the housing bore, ISO 286
	Seat         fit.Size // its limits
	LeastTightUM float64  // interference at the limits, bearing of Normal class; below zero is clearance
	MostTightUM  float64
	Why          string
	Source       string
}

const (
	readTables = "class by published fits tables of bearings, read; limits by ISO 286 and ISO 492 Normal class"
	fromMemory = "class from memory; limits by ISO 286 and ISO 492 Normal class"
)

// Advise names the ISO 286 class for the seat of one ring on a solid steel
// shaft or in a thick iron or steel housing. A fit is advice for a seat that is
// to be made new: a seat that has held is copied.
// Range: bores to 140 mm, outsides to 250 mm; hollow shafts and light alloy
// housings want it tighter. Heavy loads on inner rings are only answered for
// rollers over 50 mm.
// Errors: RangeError for a size outside the tables; a housing in halves under
// a load that turns round the outer ring; unknown words.
func Advise(s Seating) (Advice, error) {
	var a Advice
	var err error
	switch s.Ring {
	case Inner:
		a, err = s.inner()
	case Outer:
		a, err = s.outer()
	default:
		return Advice{}, fmt.Errorf("ring is %q; %s or %s was wanted", s.Ring, Inner, Outer)
	}
	if err != nil {
		return Advice{}, err
	}
	if a.Seat, err = fit.Of(s.SizeMM, a.Class); err != nil {
		return Advice{}, fmt.Errorf("seat of the %s: %w", s.Ring, err)
	}
	minus := below(boreMinus, s.SizeMM)
	if s.Ring == Outer {
		minus = below(outsideMinus, s.SizeMM)
		a.LeastTightUM, a.MostTightUM = -minus-a.Seat.UpperUM, -a.Seat.LowerUM
	} else {
		a.LeastTightUM, a.MostTightUM = a.Seat.LowerUM, a.Seat.UpperUM+minus
	}
	return a, nil
}

// inner: source readTables but where said.
func (s Seating) inner() (Advice, error) {
	if !(s.SizeMM > 2.5 && s.SizeMM <= 140) {
		return Advice{}, metrology.RangeError{Field: "bore, mm", Got: s.SizeMM, Want: "above 2.5 to 140"}
	}
	switch {
	case s.Load == Stationary && s.Slides:
		return Advice{Class: "g6", Why: "the load stands on the ring, and it must slide", Source: readTables}, nil
	case s.Load == Stationary:
		return Advice{Class: "h6", Why: "the load stands on the ring: it does not creep, and comes off easily", Source: readTables}, nil
	case s.Load != Rotating && s.Load != Uncertain:
		return Advice{}, fmt.Errorf("load on the ring is %q; %q, %q or %q was wanted", s.Load, Rotating, Stationary, Uncertain)
	}
	class, err := s.tightInner()
	source := readTables
	if s.Weight == Heavy {
		source = fromMemory
	}
	return Advice{Class: class, Why: "the load turns round the ring: loose, it would creep and wear the shaft", Source: source}, err
}

func (s Seating) tightInner() (string, error) {
	if s.Kind != Ball && s.Kind != Roller {
		return "", fmt.Errorf("kind of bearing is %q; %s or %s was wanted", s.Kind, Ball, Roller)
	}
	d, ball := s.SizeMM, s.Kind == Ball
	switch s.Weight {
	case Light:
		switch {
		case ball && d <= 18:
			return "js5", nil
		case ball && d <= 100, !ball && d <= 40:
			return "js6", nil
		}
		return "k6", nil
	case Normal:
		switch {
		case ball && d <= 18:
			return "js6", nil
		case ball && d <= 100, !ball && d <= 40:
			return "k6", nil
		}
		return "m6", nil
	case Heavy:
		if !ball && d > 50 {
			return "n6", nil
		}
		return "", metrology.RangeError{Field: "bore under a heavy load, mm", Got: d, Want: "rollers over 50: for the rest copy the unworn seat"}
	}
	return "", fmt.Errorf("weight of the load is %q; %s, %s or %s was wanted", s.Weight, Light, Normal, Heavy)
}

// outer: source readTables.
func (s Seating) outer() (Advice, error) {
	if !(s.SizeMM > 6 && s.SizeMM <= 250) {
		return Advice{}, metrology.RangeError{Field: "outside diameter, mm", Got: s.SizeMM, Want: "above 6 to 250"}
	}
	if s.Load == Stationary {
		return Advice{Class: "H7", Why: "the load stands on the ring: it may be loose, and slides as the shaft grows", Source: readTables}, nil
	}
	byWeight := map[Load]map[Weight]string{
		Rotating:  {Light: "M7", Normal: "N7", Heavy: "P7"},
		Uncertain: {Light: "J7", Normal: "K7", Heavy: "M7"},
	}
	weights, ok := byWeight[s.Load]
	if !ok {
		return Advice{}, fmt.Errorf("load on the ring is %q; %q, %q or %q was wanted", s.Load, Rotating, Stationary, Uncertain)
	}
	class, ok := weights[s.Weight]
	if !ok {
		return Advice{}, fmt.Errorf("weight of the load is %q; %s, %s or %s was wanted", s.Weight, Light, Normal, Heavy)
	}
	if s.Split && class != "J7" {
		return Advice{}, fmt.Errorf("housing in halves under a load that %s: %s would squeeze the ring out of round; a whole housing was wanted", s.Load, class)
	}
	why := "the load turns round the ring: loose, it would creep in the housing"
	if s.Load == Uncertain {
		why = "the load may turn round the ring: a light hold keeps it from creeping"
	}
	return Advice{Class: class, Why: why, Source: readTables}, nil
}

// step is a lower deviation up to and including a size; the upper is 0.
type step struct{ upToMM, minusUM float64 }

// Bore and outside diameter of Normal class. Source: [ISO492], read in
// reprints of the tables.
var (
	boreMinus    = []step{{18, 8}, {30, 10}, {50, 12}, {80, 15}, {120, 20}, {180, 25}}
	outsideMinus = []step{{18, 8}, {30, 9}, {50, 11}, {80, 13}, {120, 15}, {150, 18}, {180, 25}, {250, 30}}
)

// below needs a size within the table.
func below(table []step, sizeMM float64) float64 {
	for _, s := range table {
		if sizeMM <= s.upToMM {
			return s.minusUM
		}
	}
	return table[len(table)-1].minusUM
}
