package lubricant

import (
	"matchmark/internal/trade/metrology"
)

// Choice is an oil for a range of air temperatures, with where each half of
// it comes from.
type Choice struct {
	Grade      string // "15W-40"
	Cold       string
	Hot        string
	Typical    Typical
	HasTypical bool // whether Typical is filled
}

// ChooseEngine names the engine oil for air from coldC to hotC (°C). The cold
// half is the thickest winter grade whose cranking temperature of J300 is not
// above the coldest air; the hot half is common practice, no source: 30 up to
// 25 °C, 40 up to 40, 50 above. A starting guess: what is stamped on the
// machine comes first. Errors: RangeError outside −35 to 50 °C.
func ChooseEngine(coldC, hotC float64) (Choice, error) {
	if err := airRange(coldC, hotC, -35); err != nil {
		return Choice{}, err
	}
	winter := ""
	for _, w := range Winters() {
		if w.CrankC <= coldC {
			winter = w.Grade
		}
	}
	hot := "50"
	switch {
	case hotC <= 25:
		hot = "30"
	case hotC <= 40:
		hot = "40"
	}
	c := Choice{Grade: winter + "-" + hot, Cold: "SAE J300 cranking temperature", Hot: "common practice, no source"}
	c.Typical, c.HasTypical = TypicalOf(c.Grade)
	return c, nil
}

// ChooseGear names the gear oil for air from coldC to hotC (°C): the thickest
// winter grade that stays under 150 000 mPa·s (J306 of 2019), with 90 up to
// 38 °C and 140 above, common practice, no source. Errors: RangeError outside
// −55 to 50 °C.
func ChooseGear(coldC, hotC float64) (Choice, error) {
	if err := airRange(coldC, hotC, -55); err != nil {
		return Choice{}, err
	}
	winters, err := GearWinters(J306Of2019)
	if err != nil {
		return Choice{}, err
	}
	winter := ""
	for _, w := range winters {
		if w.ColdC <= coldC {
			winter = w.Grade
		}
	}
	hot := "90"
	if hotC > 38 {
		hot = "140"
	}
	c := Choice{Grade: winter + "-" + hot, Cold: "SAE J306, 150 000 mPa·s", Hot: "common practice, no source"}
	c.Typical, c.HasTypical = TypicalOf(c.Grade)
	return c, nil
}

func airRange(coldC, hotC, least float64) error {
	if err := metrology.Within("coldest air, °C", coldC, least, 50, "the temperatures the grades reach to 50 °C"); err != nil {
		return err
	}
	return metrology.Within("hottest air, °C", hotC, coldC, 50, "from the coldest air to 50 °C")
}

// Typical is about what an oil of a grade has when new: mm²/s at 40 and at
// 100 °C, g/cm³ at 15 °C. Common practice, no source: the figures of the can
// in hand replace it.
type Typical struct {
	Grade       string
	KV40, KV100 float64
	Density15   float64
}

// Typicals lists usual oils of a farm.
func Typicals() []Typical {
	return []Typical{
		{"10W", 40, 6.3, 0.87}, {"20", 60, 8.2, 0.88}, {"30", 93, 10.8, 0.885}, {"40", 140, 14.5, 0.89}, {"50", 200, 18.5, 0.895},
		{"5W-30", 62, 10.8, 0.86}, {"5W-40", 84, 14.0, 0.86}, {"10W-30", 72, 10.8, 0.87}, {"10W-40", 96, 14.2, 0.87},
		{"15W-40", 108, 14.5, 0.88}, {"20W-40", 125, 14.5, 0.885}, {"20W-50", 160, 18.0, 0.89}, {"15W-50", 135, 18.0, 0.885}, {"15W-30", 88, 11.2, 0.88},
		{"75W-90", 105, 15.0, 0.87}, {"80W-90", 140, 14.6, 0.895}, {"85W-90", 175, 16.0, 0.90}, {"85W-140", 350, 26.0, 0.91},
		{"VG 32", 32, 5.4, 0.87}, {"VG 46", 46, 6.8, 0.875}, {"VG 68", 68, 8.7, 0.88},
	}
}

// TypicalOf finds a usual oil by its grade; ok is false for another.
func TypicalOf(grade string) (t Typical, ok bool) {
	for _, t := range Typicals() {
		if t.Grade == grade {
			return t, true
		}
	}
	return Typical{}, false
}

// Named is what a measured pair of viscosities says of an oil.
type Named struct {
	Engine []string // hot grades of J300; the winter grade stays unknown
	Gear   []string // hot grades of J306
	VG     string   // empty in a gap
	Index  Index
}

// Name names an oil from its viscosities (mm²/s) at 40 and 100 °C, by the
// present editions. Errors: as ViscosityIndex.
func Name(kv40, kv100 float64) (Named, error) {
	index, err := ViscosityIndex(kv40, kv100)
	if err != nil {
		return Named{}, err
	}
	n := Named{Index: index}
	if n.Engine, err = EngineGrades(kv100, J300Since2013); err != nil {
		return Named{}, err
	}
	if n.Gear, err = GearGrades(kv100, J306Of2019); err != nil {
		return Named{}, err
	}
	n.VG, _, _, err = IndustrialGrade(kv40)
	return n, err
}
