package coating

import "matchmark/internal/trade/metrology"

func solids(percent float64) error {
	return metrology.Within("volume solids, %", percent, 1, 100, "1 to 100 %")
}

func thinner(percent float64) error {
	return metrology.Within("thinner, % of the paint's volume", percent, 0, 100, "0 to 100 %")
}

// Wet is the wet film (µm) that dries to a film: DFT·(1 + t)/VS, with thinner
// in per cent of the paint's volume. Method: ISO3233. Errors: RangeError.
func Wet(dry, solidsPercent, thinnerPercent float64) (float64, error) {
	if err := filmInputs("dry film, µm", dry, solidsPercent, thinnerPercent); err != nil {
		return 0, err
	}
	return dry * (1 + thinnerPercent/100) / (solidsPercent / 100), nil
}

// Dry is the film (µm) that a wet film dries to: Wet turned round. Errors:
// RangeError.
func Dry(wet, solidsPercent, thinnerPercent float64) (float64, error) {
	if err := filmInputs("wet film, µm", wet, solidsPercent, thinnerPercent); err != nil {
		return 0, err
	}
	return wet * (solidsPercent / 100) / (1 + thinnerPercent/100), nil
}

func filmInputs(field string, film, solidsPercent, thinnerPercent float64) error {
	if err := metrology.Positive(field, film); err != nil {
		return err
	}
	if err := solids(solidsPercent); err != nil {
		return err
	}
	return thinner(thinnerPercent)
}

// Coverage is the area (m²) of one litre without loss: 10·VS%/DFT. Thinner
// does not change what the paint itself covers. Errors: RangeError.
func Coverage(dry, solidsPercent float64) (float64, error) {
	if err := filmInputs("dry film, µm", dry, solidsPercent, 0); err != nil {
		return 0, err
	}
	return 10 * solidsPercent / dry, nil
}

// Job is an area (m²) to paint in coats of a dry film (µm each), with the
// share of paint that is lost (0 to 1; a brush about 0.05, a spray gun on
// small parts 0.3 to 0.5, common practice, no source).
type Job struct {
	Area          float64
	Dry           float64
	SolidsPercent float64
	Lost          float64
	Coats         int
}

// Litres is the paint to buy: A·DFT·coats/(10·VS%)/(1 − lost). Dividing by
// what is left is not the same as adding what is lost. Errors: RangeError.
func (j Job) Litres() (float64, error) {
	perLitre, err := Coverage(j.Dry, j.SolidsPercent)
	if err != nil {
		return 0, err
	}
	for _, err := range []error{metrology.Positive("area, m²", j.Area),
		metrology.Within("share lost", j.Lost, 0, 0.95, "0 to 0.95"),
		metrology.Within("coats", float64(j.Coats), 1, 20, "1 to 20")} {
		if err != nil {
			return 0, err
		}
	}
	return j.Area / perLitre * float64(j.Coats) / (1 - j.Lost), nil
}

// ProfileLitres is the paint that fills a blasted profile (µm, peak to
// valley) and builds no film: half the profile. Rule of the trade. Errors:
// RangeError.
func ProfileLitres(profile, area, solidsPercent float64) (float64, error) {
	if err := metrology.Positives("profile, µm", profile, "area, m²", area); err != nil {
		return 0, err
	}
	perLitre, err := Coverage(profile/2, solidsPercent)
	if err != nil {
		return 0, err
	}
	return area / perLitre, nil
}
