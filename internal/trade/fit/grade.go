package fit

import (
	"fmt"
	"math"
	"strconv"

	"matchmark/internal/trade/metrology"
)

// Grade is a standard tolerance grade: 7 is IT7, 0 is IT0 and -1 is IT01.
type Grade int

// IT01 is the finest grade.
const IT01 Grade = -1

// Widest is the last grade of the tables.
const Widest Grade = 18

func (g Grade) String() string { return "IT" + g.digits() }

func (g Grade) digits() string {
	if g == IT01 {
		return "01"
	}
	return strconv.Itoa(int(g))
}

// widths holds the standard tolerances in µm, IT01 first, one column a main
// step. Source: ISO 286-1:2010 table 1, read in a published reprint of
// PN-EN ISO 286-1:2011 and, from IT1 up, alike in five more published texts.
// The reprint has 100 for IT15 over 30 to 50: a misprint of 1000 (the others
// and the rule IT15 = 10·IT10 agree).
var widths = [20][13]float64{
	{0.3, 0.4, 0.4, 0.5, 0.6, 0.6, 0.8, 1, 1.2, 2, 2.5, 3, 4},
	{0.5, 0.6, 0.6, 0.8, 1, 1, 1.2, 1.5, 2, 3, 4, 5, 6},
	{0.8, 1, 1, 1.2, 1.5, 1.5, 2, 2.5, 3.5, 4.5, 6, 7, 8},
	{1.2, 1.5, 1.5, 2, 2.5, 2.5, 3, 4, 5, 7, 8, 9, 10},
	{2, 2.5, 2.5, 3, 4, 4, 5, 6, 8, 10, 12, 13, 15},
	{3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20},
	{4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27},
	{6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40},
	{10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63},
	{14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97},
	{25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155},
	{40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250},
	{60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400},
	{100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630},
	{140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810, 890, 970},
	{250, 300, 360, 430, 520, 620, 740, 870, 1000, 1150, 1300, 1400, 1550},
	{400, 480, 580, 700, 840, 1000, 1200, 1400, 1600, 1850, 2100, 2300, 2500},
	{600, 750, 900, 1100, 1300, 1600, 1900, 2200, 2500, 2900, 3200, 3600, 4000},
	{1000, 1200, 1500, 1800, 2100, 2500, 3000, 3500, 4000, 4600, 5200, 5700, 6300},
	{1400, 1800, 2200, 2700, 3300, 3900, 4600, 5400, 6300, 7200, 8100, 8900, 9700},
}

// Tolerance is the width in µm of a grade at a nominal size in mm.
// Method: ISO 286-1:2010 table 1. Errors: RangeError for a size outside 0 to
// 500 mm, a grade outside IT01 to IT18, and IT14 or wider at 1 mm or less,
// which the table excludes (footnote, from memory).
func Tolerance(nominal float64, g Grade) (float64, error) {
	i, err := stepOf(mainSteps, nominal)
	if err != nil {
		return 0, err
	}
	if g < IT01 || g > Widest {
		return 0, metrology.RangeError{Field: "tolerance grade", Got: float64(g), Want: "IT01 to IT18"}
	}
	if g >= 14 && nominal <= 1 {
		return 0, metrology.RangeError{Field: "nominal size for " + g.String(), Got: nominal, Want: "above 1 mm"}
	}
	return widths[g+1][i], nil
}

// FormulaTolerance is the width in µm that the formula behind the table gives
// before the standard rounds it: n·i with i = 0.45·∛D + 0.001·D, D the
// geometric mean of the step in mm, n = 7, 10, 16, 25, 40, 64 … for IT5 and
// up. It does not meet the table in the first step and differs by up to 9.2 % (IT6 over 3 to 6)
// elsewhere: the table rules. Source: ISO 286-1:2010 annex, from memory.
// Errors: RangeError for a size outside the table or a grade below IT5.
func FormulaTolerance(nominal float64, g Grade) (float64, error) {
	i, err := stepOf(mainSteps, nominal)
	if err != nil {
		return 0, err
	}
	if g < 5 || g > Widest {
		return 0, metrology.RangeError{Field: "tolerance grade", Got: float64(g), Want: "IT5 to IT18"}
	}
	n := 7.0
	if g > 5 {
		series := [5]float64{10, 16, 25, 40, 64}
		n = series[(g-6)%5] * math.Pow(10, math.Floor(float64(g-6)/5))
	}
	d := stepMean(i)
	return n * (0.45*math.Cbrt(d) + 0.001*d), nil
}

// parseGrade reads the digits after the letter. Errors name what was read.
func parseGrade(digits string) (Grade, error) {
	if digits == "01" {
		return IT01, nil
	}
	n, err := strconv.Atoi(digits)
	if err != nil || n < 0 || n > int(Widest) || strconv.Itoa(n) != digits {
		return 0, fmt.Errorf("tolerance grade is %q; 01, 0 or 1 to 18 was wanted", digits)
	}
	return Grade(n), nil
}
