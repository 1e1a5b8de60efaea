package draw

// advance is how far the pen moves for a letter of the text face, in
// thousandths of its height; letters not listed count as the widest listed.
// Figures all have one width.
var advance = map[rune]float64{' ': 300, '-': 400, '–': 600, '.': 300, ',': 300}

const (
	figureAdvance = 640
	letterAdvance = 660
)

// TextWidth is the width of a text at a height, in the same unit as the
// height. It never comes out too small for figures and small letters.
func TextWidth(text string, height float64) float64 {
	sum := 0.0
	for _, r := range text {
		a, ok := advance[r]
		switch {
		case ok:
		case r >= '0' && r <= '9':
			a = figureAdvance
		default:
			a = letterAdvance
		}
		sum += a
	}
	return sum / 1000 * height
}
