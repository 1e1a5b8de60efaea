package bearing

import (
	"fmt"

	"matchmark/internal/trade/fit"
	"matchmark/internal/trade/metrology"
)

// Group is a group of radial internal clearance, as marked behind the number.
// No mark is CN.
type Group string

const (
	C2 Group = "C2"
	CN Group = "CN"
	C3 Group = "C3"
	C4 Group = "C4"
)

// Groups in order of play.
func Groups() []Group { return []Group{C2, CN, C3, C4} }

// playRow holds the four groups for bores over one bound up to another.
type playRow struct {
	over, upTo float64
	um         [4][2]float64
}

// Sources: [ISO5753-1], read in reprints of its tables; the ball row over 100
// from memory. The roller table is for cylindrical rollers and for needles
// with an inner ring; taper rollers have no play of their own, they are set.
var playOf = map[Kind][]playRow{
	Ball: {
		{2.5, 10, [4][2]float64{{0, 7}, {2, 13}, {8, 23}, {14, 29}}},
		{10, 18, [4][2]float64{{0, 9}, {3, 18}, {11, 25}, {18, 33}}},
		{18, 24, [4][2]float64{{0, 10}, {5, 20}, {13, 28}, {20, 36}}},
		{24, 30, [4][2]float64{{1, 11}, {5, 20}, {13, 28}, {23, 41}}},
		{30, 40, [4][2]float64{{1, 11}, {6, 20}, {15, 33}, {28, 46}}},
		{40, 50, [4][2]float64{{1, 11}, {6, 23}, {18, 36}, {30, 51}}},
		{50, 65, [4][2]float64{{1, 15}, {8, 28}, {23, 43}, {38, 61}}},
		{65, 80, [4][2]float64{{1, 15}, {10, 30}, {25, 51}, {46, 71}}},
		{80, 100, [4][2]float64{{1, 18}, {12, 36}, {30, 58}, {53, 84}}},
		{100, 120, [4][2]float64{{2, 20}, {15, 41}, {36, 66}, {61, 97}}},
	},
	Roller: {
		{0, 24, [4][2]float64{{0, 25}, {20, 45}, {35, 60}, {50, 75}}},
		{24, 30, [4][2]float64{{0, 25}, {20, 45}, {35, 60}, {50, 75}}},
		{30, 40, [4][2]float64{{5, 30}, {25, 50}, {45, 70}, {60, 85}}},
		{40, 50, [4][2]float64{{5, 35}, {30, 60}, {50, 80}, {70, 100}}},
		{50, 65, [4][2]float64{{10, 40}, {40, 70}, {60, 90}, {80, 110}}},
		{65, 80, [4][2]float64{{10, 45}, {40, 75}, {65, 100}, {90, 125}}},
		{80, 100, [4][2]float64{{15, 50}, {50, 85}, {75, 110}, {105, 140}}},
		{100, 120, [4][2]float64{{15, 55}, {50, 90}, {85, 125}, {125, 165}}},
	},
}

// Play is the radial internal clearance in µm of a new bearing that lies free,
// by group. Source: [ISO5753-1]. Errors: RangeError for a bore outside the
// table (balls over 2.5, both to 120 mm); unknown kind or group.
func Play(k Kind, boreMM float64, g Group) (fit.Band, error) {
	rows, ok := playOf[k]
	if !ok {
		return fit.Band{}, fmt.Errorf("kind of bearing is %q; %s or %s was wanted", k, Ball, Roller)
	}
	for _, r := range rows {
		if boreMM > r.over && boreMM <= r.upTo {
			for i, name := range Groups() {
				if name == g {
					return fit.Band{Lo: r.um[i][0], Hi: r.um[i][1]}, nil
				}
			}
			return fit.Band{}, fmt.Errorf("clearance group is %q; one of %v was wanted", g, Groups())
		}
	}
	return fit.Band{}, metrology.RangeError{Field: "bore, mm", Got: boreMM, Want: fmt.Sprintf("above %g to %g", rows[0].over, rows[len(rows)-1].upTo)}
}

// Mounted is what takes play from a bearing.
type Mounted struct {
	Kind              Kind
	BoreMM, OutsideMM float64
	InnerTightUM      fit.Band // interference of the inner ring on the shaft; below zero counts as none
	OuterTightUM      fit.Band
	HotterK           float64 // inner ring hotter than the outer; 5 to 10 in a gearbox (common practice, no source)
}

// How much of an interference reaches the raceway: the share of it by which
// the ring's race really changes. Common practice, no source.
const leastShare, mostShare = 0.7, 0.9

// steelPerK is the expansion of bearing steel, 1/K (row PRS-001, from memory).
const steelPerK = 11.5e-6

// Left is the play in µm that a group has left when mounted and warm: free play
// less 0.7 to 0.9 of each interference, less the growth of the inner ring over
// the outer at the outer race, (4D + d)/5 for balls and (3D + d)/4 for rollers
// (from memory).
// Errors: as Play; RangeError for an outside that is not above the bore, bands
// upside down, a temperature difference outside −30 to 80 K.
func (m Mounted) Left(g Group) (fit.Band, error) {
	free, err := Play(m.Kind, m.BoreMM, g)
	if err != nil {
		return fit.Band{}, err
	}
	for _, c := range []struct {
		name string
		got  float64
		ok   bool
		want string
	}{
		{"outside diameter, mm", m.OutsideMM, m.OutsideMM > m.BoreMM && m.OutsideMM < 10*m.BoreMM, "above the bore"},
		{"interference of the inner ring, µm", m.InnerTightUM.Hi, m.InnerTightUM.Hi >= m.InnerTightUM.Lo, "at least the lesser"},
		{"interference of the outer ring, µm", m.OuterTightUM.Hi, m.OuterTightUM.Hi >= m.OuterTightUM.Lo, "at least the lesser"},
		{"inner ring hotter than the outer, K", m.HotterK, m.HotterK >= -30 && m.HotterK <= 80, "-30 to 80"},
	} {
		if !c.ok {
			return fit.Band{}, metrology.RangeError{Field: c.name, Got: c.got, Want: c.want}
		}
	}
	race := (4*m.OutsideMM + m.BoreMM) / 5
	if m.Kind == Roller {
		race = (3*m.OutsideMM + m.BoreMM) / 4
	}
	heat := steelPerK * m.HotterK * race * 1000
	most := mostShare * (max(0, m.InnerTightUM.Hi) + max(0, m.OuterTightUM.Hi))
	least := leastShare * (max(0, m.InnerTightUM.Lo) + max(0, m.OuterTightUM.Lo))
	return fit.Band{Lo: free.Lo - most - heat, Hi: free.Hi - least - heat}, nil
}

// Choice is a clearance group and why.
type Choice struct {
	Group  Group
	LeftUM fit.Band
	Enough bool // some play is left at the worst of the limits
	Say    string
}

// Choose takes the first of CN, C3 and C4 that keeps some play at the worst of
// all limits; C4 with Enough false where none does. A bearing that was marked
// C3 is replaced by C3 whatever this says.
// Errors: as Left.
func (m Mounted) Choose() (Choice, error) {
	var c Choice
	for _, g := range []Group{CN, C3, C4} {
		left, err := m.Left(g)
		if err != nil {
			return Choice{}, err
		}
		c = Choice{Group: g, LeftUM: left, Enough: left.Lo >= 0}
		if c.Enough {
			break
		}
	}
	c.Say = fmt.Sprintf("%s leaves %.0f to %.0f µm warm; estimate, and a mark on the old bearing goes before it", c.Group, c.LeftUM.Lo, c.LeftUM.Hi)
	if !c.Enough {
		c.Say = fmt.Sprintf("even %s may run without play (%.0f µm): measure shaft and housing, or take a looser fit", c.Group, c.LeftUM.Lo)
	}
	return c, nil
}
