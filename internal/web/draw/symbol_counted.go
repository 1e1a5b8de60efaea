package draw

import (
	"fmt"
	"math"
	"strings"
)

// counted are the symbols that show a number of like things.
var counted = map[string]func(n int) Symbol{
	"gear":       gear,
	"spring":     spring,
	"crankshaft": crankshaft,
	"camshaft":   camshaft,
	"engine":     engineBlock,
	"head":       cylinderHead,
	"headgasket": headGasket,
	"fan":        fan,
	"manifold":   manifold,
	"injpump":    injectionPump,
}

// within keeps a count to what can be drawn.
func within(n, low, high, otherwise int) int {
	if n <= 0 {
		n = otherwise
	}
	return min(max(n, low), high)
}

// gear is seen from its side: its teeth are lines, closer towards the rim as
// the wheel turns away. n is the number of teeth; half of them are in view.
func gear(n int) Symbol {
	n = within(n, 9, 40, 24)
	var fine strings.Builder
	fine.WriteString("M20 34V66M80 34V66")
	for i := 1; i < n/2; i++ {
		fmt.Fprintf(&fine, "M20 %.1fH80", 50-50*math.Cos(math.Pi*float64(i)/float64(n/2)))
	}
	return Symbol{Width: 34, Height: 44 + 1.4*float64(n), axial: true, body: "M20 0H80V34H100V66H80V100H20V66H0V34H20Z", fine: fine.String()}
}

// spring has n coils; each is a bar across the axis.
func spring(n int) Symbol {
	n = within(n, 4, 9, 6)
	pitch := 94 / float64(n)
	var body strings.Builder
	for i := range n {
		x := 3 + pitch*float64(i)
		fmt.Fprintf(&body, "M%.1f 0L%.1f 0L%.1f 100L%.1f 100Z", x, x+0.34*pitch, x+0.9*pitch, x+0.56*pitch)
	}
	return Symbol{Width: 12 + 9*float64(n), Height: 38, axial: true, body: "R0 0 3 100R97 0 3 100" + body.String()}
}

// crankshaft has n throws, up and down by turns, with a main journal at each
// side of every throw.
func crankshaft(n int) Symbol {
	n = within(n, 1, 6, 3)
	w := 76 + 52*float64(n)
	x := func(u float64) float64 { return 100 * u / w }
	var body, fine strings.Builder
	box := func(u, y, width, height float64) {
		fmt.Fprintf(&body, "R%.2f %.2f %.2f %.2f", x(u), y, x(width), height)
	}
	box(0, 40, 18, 20)
	box(18, 35, 14, 30)
	for i := range n {
		u := 32 + 52*float64(i)
		up := i%2 == 0
		pin, web := 8.0, 0.0
		if !up {
			pin, web = 66, 22
		}
		box(u, 37, 8, 26)
		box(u+8, web, 9, 78)
		box(u+17, pin, 18, 26)
		box(u+35, web, 9, 78)
		box(u+44, 37, 8, 26)
		fmt.Fprintf(&fine, "M%.2f %.2fV%.2f", x(u+26), pin+6, pin+20)
	}
	u := 32 + 52*float64(n)
	box(u, 34, 14, 32)
	box(u+14, 22, 10, 56)
	box(u+24, 42, 20, 16)
	return Symbol{Width: w, Height: 84, axial: true, body: body.String(), fine: fine.String()}
}

// camshaft has two lobes for each of n cylinders, between its journals.
func camshaft(n int) Symbol {
	n = within(n, 1, 6, 3)
	w := 60 + 52*float64(n)
	x := func(u float64) float64 { return 100 * u / w }
	var body strings.Builder
	box := func(u, y, width, height float64) {
		fmt.Fprintf(&body, "R%.2f %.2f %.2f %.2f", x(u), y, x(width), height)
	}
	box(0, 36, 18, 28)
	box(18, 10, 16, 80)
	for i := range n {
		u := 34 + 52*float64(i)
		box(u, 34, 8, 32)
		box(u+8, 0, 10, 78)
		box(u+18, 34, 8, 32)
		box(u+26, 22, 10, 78)
		box(u+36, 34, 8, 32)
		box(u+44, 12, 8, 76)
	}
	box(34+52*float64(n), 34, 26, 32)
	return Symbol{Width: w, Height: 40, axial: true, body: body.String()}
}

// engineBlock shows the bores of n cylinders as hidden lines, their core plugs,
// and the crankcase.
func engineBlock(n int) Symbol {
	n = within(n, 1, 6, 3)
	w := 48 + 56*float64(n)
	var fine strings.Builder
	fine.WriteString("M0 12H100M4 82H96M0 58H100")
	for i := range n {
		left := 100 * (24 + 56*float64(i) + 7) / w
		right := 100 * (24 + 56*float64(i) + 49) / w
		for y := 14.0; y < 58; y += 12 {
			fmt.Fprintf(&fine, "M%.2f %.1fV%.1fM%.2f %.1fV%.1f", left, y, y+8, right, y, y+8)
		}
		fmt.Fprintf(&fine, "O%.2f 70 8", (left+right)/2)
	}
	return Symbol{Width: w, Height: 108, body: "M0 0H100V82H96V100H4V82H0Z", fine: fine.String()}
}

// cylinderHead shows the ports of n cylinders.
func cylinderHead(n int) Symbol {
	n = within(n, 1, 6, 3)
	w := 48 + 56*float64(n)
	var body, fine strings.Builder
	body.WriteString("M0 22H6V0H16V22H84V0H94V22H100V100H0Z")
	fine.WriteString("M0 78H100M6 22H16M84 22H94")
	for i := range n {
		mid := 24 + 56*float64(i) + 28
		fmt.Fprintf(&fine, "O%.2f 50 18O%.2f 50 18", 100*(mid-13)/w, 100*(mid+13)/w)
	}
	return Symbol{Width: w, Height: 54, body: body.String(), fine: fine.String()}
}

// headGasket shows the n bores it seals, from above.
func headGasket(n int) Symbol {
	n = within(n, 1, 6, 3)
	w := 48 + 56*float64(n)
	var body, fine strings.Builder
	body.WriteString("M3 0H97L100 10V90L97 100H3L0 90V10Z")
	for i := range n {
		mid := 24 + 56*float64(i) + 28
		fmt.Fprintf(&body, "O%.2f 50 36", 100*mid/w)
	}
	for i := range n + 1 {
		at := 24 + 56*float64(i)
		fmt.Fprintf(&fine, "O%.2f 18 5O%.2f 82 5", 100*at/w, 100*at/w)
	}
	return Symbol{Width: w, Height: 58, body: body.String(), fine: fine.String()}
}

// fan is seen from its side; n is ignored.
func fan(int) Symbol {
	return Symbol{Width: 40, Height: 128, axial: true, body: "M24 34H62V44H100V56H62V66H24Z" + "M38 34Q0 26 24 2Q34 -2 42 4Q66 22 46 34ZM38 66Q0 74 24 98Q34 102 42 96Q66 78 46 66Z",
		fine: "M43 34V66M62 44V56M36 28Q24 18 32 6M36 72Q24 82 32 94"}
}

// manifold has a branch to each of n cylinders.
func manifold(n int) Symbol {
	n = within(n, 1, 6, 3)
	w := 42 + 36*float64(n)
	var body, fine strings.Builder
	body.WriteString("M0 0H100V34")
	for i := n - 1; i >= 0; i-- {
		mid := 100 * (float64(i) + 0.5) / float64(n)
		half := 1200 / w
		fmt.Fprintf(&body, "H%.2fV100H%.2fV34", mid+half, mid-half)
		fmt.Fprintf(&fine, "M%.2f 34H%.2fM%.2f 84H%.2f", mid-half, mid+half, mid-half, mid+half)
	}
	body.WriteString("H0Z")
	return Symbol{Width: w, Height: 46, body: body.String(), fine: fine.String()}
}

// injectionPump has a delivery union for each of n cylinders.
func injectionPump(n int) Symbol {
	n = within(n, 1, 6, 3)
	var body, fine strings.Builder
	body.WriteString("M0 44H10V36H22V20")
	fine.WriteString("M22 36H76M10 44V76M90 44V76M22 90H80R32 50 36 26")
	step := 54 / float64(n)
	for i := range n {
		left, right := 22+step*(float64(i)+0.22), 22+step*(float64(i)+0.78)
		fmt.Fprintf(&body, "H%.2fV0H%.2fV20", left, right)
		fmt.Fprintf(&fine, "M%.2f 20H%.2fM%.2f 10H%.2f", left, right, left, right)
	}
	body.WriteString("H76V36H90V44H100V76H90V90H80V100H22V90H10V76H0Z")
	return Symbol{Width: 46 + 22*float64(n), Height: 92, body: body.String(), fine: fine.String()}
}
