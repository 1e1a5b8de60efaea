package lubricant

import "matchmark/internal/trade/metrology"

// GearBands lists the hot grades of gear oil by kinematic viscosity at
// 100 °C. Source: SAEJ306; the older editions from the notes beside its rows.
// Errors: EditionError.
func GearBands(ed Edition) ([]Band, error) {
	switch ed {
	case J306Of2019:
		return open(Band{Grade: "65", Low: 3.8, High: 5}, Band{Grade: "70", Low: 5, High: 6.5}, Band{Grade: "75", Low: 6.5, High: 8.5},
			Band{Grade: "80", Low: 8.5, High: 11}, Band{Grade: "85", Low: 11, High: 13.5}, Band{Grade: "90", Low: 13.5, High: 18.5},
			Band{Grade: "110", Low: 18.5, High: 24}, Band{Grade: "140", Low: 24, High: 32.5}, Band{Grade: "190", Low: 32.5, High: 41},
			Band{Grade: "250", Low: 41}), nil
	case J306Of2005:
		return open(Band{Grade: "80", Low: 7, High: 11}, Band{Grade: "85", Low: 11, High: 13.5}, Band{Grade: "90", Low: 13.5, High: 18.5},
			Band{Grade: "110", Low: 18.5, High: 24}, Band{Grade: "140", Low: 24, High: 32.5}, Band{Grade: "190", Low: 32.5, High: 41},
			Band{Grade: "250", Low: 41}), nil
	case J306Of1998:
		return open(Band{Grade: "80", Low: 7, High: 11}, Band{Grade: "85", Low: 11, High: 13.5}, Band{Grade: "90", Low: 13.5, High: 24},
			Band{Grade: "140", Low: 24, High: 41}, Band{Grade: "250", Low: 41}), nil
	}
	return nil, EditionError{Got: ed, Want: "an edition of SAE J306"}
}

// GearGrades lists the gear oil grade of a viscosity at 100 °C (mm²/s); none
// is an empty list. Errors: RangeError, EditionError.
func GearGrades(kv100 float64, ed Edition) ([]string, error) {
	if err := metrology.Positive("viscosity at 100 °C, mm²/s", kv100); err != nil {
		return nil, err
	}
	bands, err := GearBands(ed)
	return grades(bands, kv100), err
}

// GearWinter is a winter grade of gear oil: at ColdC and above it stays under
// 150 000 mPa·s, and at 100 °C it is at least LowKV100 mm²/s.
type GearWinter struct {
	Grade    string
	ColdC    float64
	LowKV100 float64
}

// GearWinters lists the winter grades of gear oil, the coldest first.
// Source: SAEJ306; the 2005 edition wants 4.1 of 70W and 75W and 7.0 of 80W.
// Errors: EditionError, for 1998 too, whose figures are not at hand.
func GearWinters(ed Edition) ([]GearWinter, error) {
	switch ed {
	case J306Of2019:
		return []GearWinter{{"70W", -55, 3.8}, {"75W", -40, 3.8}, {"80W", -26, 8.5}, {"85W", -12, 11}}, nil
	case J306Of2005:
		return []GearWinter{{"70W", -55, 4.1}, {"75W", -40, 4.1}, {"80W", -26, 7}, {"85W", -12, 11}}, nil
	}
	return nil, EditionError{Got: ed, Want: "SAE J306 of 2005 or 2019"}
}
