package fastener

import (
	"fmt"
	"strings"

	"matchmark/internal/trade/metrology"
)

// Head is the ring under a head or nut that rubs: its outside and the hole.
type Head struct {
	Outer, Hole float64 // mm
	Source      string
}

// mean is the mean diameter of the ring, mm.
func (h Head) mean() float64 { return (h.Outer + h.Hole) / 2 }

func (h Head) check() error {
	if !(h.Hole > 0) || h.Hole > 500 {
		return metrology.RangeError{Field: "hole under the head, mm", Got: h.Hole, Want: "above 0 to 500"}
	}
	if !(h.Outer > h.Hole) || h.Outer > 1000 {
		return metrology.RangeError{Field: "outside of the ring under the head, mm", Got: h.Outer, Want: "above the hole, to 1000"}
	}
	return nil
}

// hexHeads: nominal diameter, least washer face of ISO 4014 grade A (B above
// 24) and medium hole of ISO 273, mm. From memory; they bring the torques of
// the VDI 2230 fine-thread table, which was read.
var hexHeads = [][3]float64{
	{5, 6.88, 5.5}, {6, 8.88, 6.6}, {8, 11.63, 9}, {10, 14.63, 11}, {12, 16.63, 13.5}, {14, 19.64, 15.5},
	{16, 22.49, 17.5}, {18, 25.34, 20}, {20, 28.19, 22}, {22, 31.71, 24}, {24, 33.61, 26}, {27, 38, 30}, {30, 42.75, 33},
}

// HexHead is the ring under a usual hexagon head: for the metric sizes 5 to 30
// mm from the table, for unified threads from 1.5·d across flats and a hole of
// d + 1/32 in (ASME B18.2.1 proportions, from memory). Old M10 and M12 heads
// are 17 and 19 mm across flats rather than 16 and 18: measure and use Across.
// Errors: another thread, for which flats and hole must be measured.
func HexHead(t Thread) (Head, error) {
	if strings.HasPrefix(t.Series, "UN") {
		h, err := Across(1.5*t.D, t.D+25.4/32)
		h.Source = "ASME B18.2.1 proportions, from memory"
		return h, err
	}
	if strings.HasPrefix(t.Designation, "M") && !t.Tapered {
		for _, h := range hexHeads {
			if h[0] == t.D {
				return Head{h[1], h[2], "ISO 4014 and ISO 273 medium, from memory"}, nil
			}
		}
	}
	return Head{}, fmt.Errorf("head of %s is in no table; its width across flats and its hole were wanted", t.Designation)
}

// Across is the ring under a head or nut measured across flats, washer face
// 0.95 of it (common practice, no source), over a hole; mm.
// Errors: RangeError where the hole is not smaller than the face.
func Across(flats, hole float64) (Head, error) {
	h := Head{0.95 * flats, hole, "measured across flats; face 0.95 of it (common practice, no source)"}
	return h, h.check()
}
