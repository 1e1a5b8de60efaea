package lubricant

import (
	"slices"

	"matchmark/internal/trade/metrology"
)

// Edition is one of the editions of J300 or J306 that disagree.
type Edition string

// J300 since 2013 has grades 8 to 16 and starts SAE 20 at 6.9; before, it had
// neither and SAE 20 started at 5.6 mm²/s. The wanted high-shear viscosity of
// 0W-40, 5W-40 and 10W-40 was 2.9 in 1999. J306 gained grades 65, 70 and 75
// and raised 80 in 2019; up to 1998 it had neither 110 nor 190.
const (
	J300Since2013  Edition = "SAE J300, 2015 and 2021"
	J300Before2013 Edition = "SAE J300, before 2013"
	J306Of2019     Edition = "SAE J306, 2019"
	J306Of2005     Edition = "SAE J306, 2005"
	J306Of1998     Edition = "SAE J306, 1998 and before"
)

// EngineBands lists the hot grades of engine oil by kinematic viscosity at
// 100 °C. Grades 8 to 20 overlap. Source: SAEJ300. Errors: RangeError for an
// edition that is not of J300.
func EngineBands(ed Edition) ([]Band, error) {
	upper := open(Band{Grade: "30", Low: 9.3, High: 12.5}, Band{Grade: "40", Low: 12.5, High: 16.3},
		Band{Grade: "50", Low: 16.3, High: 21.9}, Band{Grade: "60", Low: 21.9, High: 26.1})
	switch ed {
	case J300Since2013:
		return append(open(Band{Grade: "8", Low: 4.0, High: 6.1}, Band{Grade: "12", Low: 5.0, High: 7.1},
			Band{Grade: "16", Low: 6.1, High: 8.2}, Band{Grade: "20", Low: 6.9, High: 9.3}), upper...), nil
	case J300Before2013:
		return append(open(Band{Grade: "20", Low: 5.6, High: 9.3}), upper...), nil
	}
	return nil, EditionError{Got: ed, Want: "an edition of SAE J300"}
}

// EngineGrades lists the hot grades whose band holds a viscosity at 100 °C
// (mm²/s); none is an empty list. It goes by kinematic viscosity alone: the
// grade also wants a high-shear viscosity, see HighShear.
func EngineGrades(kv100 float64, ed Edition) ([]string, error) {
	if err := metrology.Positive("viscosity at 100 °C, mm²/s", kv100); err != nil {
		return nil, err
	}
	bands, err := EngineBands(ed)
	return grades(bands, kv100), err
}

// Winter is what J300 wants of a winter grade: it cranks (mPa·s at CrankC),
// it pumps (mPa·s at PumpC, without yield stress, five kelvin lower), and it
// is not too thin hot.
type Winter struct {
	Grade            string
	CrankC, CrankMax float64
	PumpC, PumpMax   float64
	LowKV100         float64
}

// Winters lists the winter grades of engine oil, the coldest first.
// Source: SAEJ300.
func Winters() []Winter {
	return []Winter{
		{"0W", -35, 6200, -40, 60000, 3.8}, {"5W", -30, 6600, -35, 60000, 3.8}, {"10W", -25, 7000, -30, 60000, 4.1},
		{"15W", -20, 7000, -25, 60000, 5.6}, {"20W", -15, 9500, -20, 60000, 5.6}, {"25W", -10, 13000, -15, 60000, 9.3},
	}
}

// HighShear is the least viscosity at 150 °C and high shear (mPa·s) of a hot
// grade. Grade 40 has two limits: 3.5 with 0W, 5W and 10W, and 3.7 with 15W,
// 20W, 25W and alone; winter is empty for a single grade. Source: SAEJ300.
// Errors: GradeError.
func HighShear(grade, winter string) (float64, error) {
	if winter != "" && !slices.ContainsFunc(Winters(), func(w Winter) bool { return w.Grade == winter }) {
		return 0, GradeError{Got: winter, Want: "a winter grade 0W to 25W, or none"}
	}
	if grade == "40" && slices.Contains([]string{"0W", "5W", "10W"}, winter) {
		return 3.5, nil
	}
	v, ok := map[string]float64{"8": 1.7, "12": 2.0, "16": 2.3, "20": 2.6, "30": 2.9, "40": 3.7, "50": 3.7, "60": 3.7}[grade]
	if !ok {
		return 0, GradeError{Got: grade, Want: "an engine oil grade 8, 12, 16, 20, 30, 40, 50 or 60"}
	}
	return v, nil
}
