package fit

import (
	"testing"

	"matchmark/internal/reftest"
)

// Limits of classes read in a published reprint of PN-EN ISO 286-1:2011: the
// letters with finer steps, the outer letters and J, where the shared rows have
// only a few from memory.
func TestReadRows(t *testing.T) {
	const source = "PN-EN ISO 286-1:2011, tables 2 to 5, published reprint"
	type in struct {
		text  string
		upper bool
	}
	row := func(id, text string, upper bool, want float64) reftest.Row[in] {
		return reftest.Row[in]{ID: id, In: in{text, upper}, Want: want, Tol: 0, Source: source, Kind: reftest.Published}
	}
	reftest.Run(t, []reftest.Row[in]{
		row("c 50-65", "60 c9", true, -140), row("c 65-80", "70 c9", true, -150), row("a 120-140", "140 a9", true, -460),
		row("b 400-450", "450 b9", true, -760), row("C 160-180", "170 C9", false, 230),
		row("r 50-65", "65 r6", false, 41), row("r 65-80", "65.001 r6", false, 43), row("r 355-400", "400 r6", false, 114),
		row("s 140-160", "150 s6", false, 100), row("s 225-250", "250 s6", false, 140), row("t 24-30", "25 t6", false, 41),
		row("u 18-24", "24 u6", false, 41), row("u 24-30", "24.5 u6", false, 48), row("u 450-500", "500 u6", false, 540),
		row("j6 80-120", "100 j6", false, -9), row("j7 80-120", "100 j7", false, -15), row("j8 to 3", "3 j8", false, -6),
		row("J6 80-120", "100 J6", true, 16), row("J7 3-6", "5 J7", true, 6), row("J8 400-500", "450 J8", true, 66),
		row("k 4-7", "100 k7", false, 3), row("k over 7", "100 k8", false, 0), row("m 250-315", "300 m6", false, 20),
		row("P above IT7", "60 P8", true, -32), row("S above IT7", "60 S9", true, -53), row("M above IT8", "60 M9", true, -11),
		row("IT01", "100 h01", false, -1), row("IT1", "25 h1", false, -1.5), row("IT16", "450 h16", false, -4000),
	}, func(i in) (float64, error) {
		s, err := Limits(i.text)
		if i.upper {
			return s.UpperUM, err
		}
		return s.LowerUM, err
	})
}
