package draw

// advances are how far the pen moves in the text face for the letters from the
// space to the tilde, in thousandths of the height: read from
// assets/scribe-text.woff2 as a browser measures it.
var advances = [...]float64{350, 350, 400, 850, 550, 900, 700, 200, 450, 450, 550, 600, 250, 450, 300, 550,
	650, 650, 650, 650, 650, 650, 650, 650, 650, 650, 300, 250, 650, 500, 650, 550,
	1000, 650, 650, 600, 650, 600, 550, 650, 700, 300, 450, 600, 550, 900, 750, 800,
	600, 800, 650, 550, 600, 700, 650, 950, 650, 600, 600, 450, 550, 500, 750, 550,
	550, 525, 600, 500, 600, 550, 400, 600, 600, 300, 300, 550, 350, 900, 600, 600,
	600, 600, 400, 450, 400, 600, 550, 750, 550, 550, 500, 649, 200, 600, 750}

// otherAdvance is taken for a letter that is not in the table; it is that of a
// wide one.
const otherAdvance = 800

// dashAdvance is that of the dash between two numbers.
const dashAdvance = 550

// TextWidth is the width of a text at a height, in the unit of the height.
func TextWidth(text string, height float64) float64 {
	sum := 0.0
	for _, r := range text {
		switch i := int(r) - ' '; {
		case i >= 0 && i < len(advances):
			sum += advances[i]
		case r == '–':
			sum += dashAdvance
		default:
			sum += otherAdvance
		}
	}
	return sum / 1000 * height
}
