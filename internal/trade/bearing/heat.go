package bearing

import (
	"fmt"

	"matchmark/internal/trade/fit"
	"matchmark/internal/trade/metrology"
)

// DropOnMM is what a hot ring needs beside the interference to drop on without
// sticking half way. Common practice, no source.
const DropOnMM = 0.01

// SealedMostC is how hot a bearing with seals and its own grease may be made.
// Common practice, no source; makers say from 80 to 100 °C.
const SealedMostC = 80.0

// Mount is an inner ring to be heated and dropped on a shaft.
type Mount struct {
	BoreMM  float64
	TightUM float64 // the largest interference that may be met
	RoomC   float64
	Sealed  bool // sealed or filled with grease
}

// Heat gives the temperature, bounded by 110 °C (110 to 120 °C is the custom;
// the lower is taken), and by SealedMostC for a sealed bearing. Where that is
// not enough the rest is pressed or the shaft cooled.
// Method: package fit, Shrink. Errors: RangeError for a bore above 500 mm or
// not above zero, an interference below zero, a room outside −40 to 60 °C.
func (m Mount) Heat() (fit.Heating, error) {
	if !(m.RoomC >= -40 && m.RoomC <= 60) {
		return fit.Heating{}, metrology.RangeError{Field: "room temperature, °C", Got: m.RoomC, Want: "-40 to 60"}
	}
	if m.BoreMM > 500 {
		return fit.Heating{}, metrology.RangeError{Field: "bore, mm", Got: m.BoreMM, Want: "500 at most"}
	}
	h, err := fit.Shrink{Kind: fit.Bearing, Diameter: m.BoreMM, Interference: m.TightUM / 1000, Gap: DropOnMM,
		PerK: steelPerK, ShaftPerK: steelPerK, Room: m.RoomC}.Plan()
	if err != nil {
		return fit.Heating{}, fmt.Errorf("bearing of %g mm bore: %w", m.BoreMM, err)
	}
	if m.Sealed {
		h.Ceiling = fit.Ceiling{Celsius: SealedMostC, Source: "sealed or greased: no oil bath, and not above 80 °C (common practice, no source; makers differ)"}
		h.Enough = h.Celsius <= SealedMostC
		if !h.Enough {
			h.ShaftK = 0
			h.Advice = fmt.Sprintf("sealed: %.0f °C would be needed and %.0f °C is allowed: press it, on the ring that is tight", h.Celsius, SealedMostC)
		}
	}
	return h, nil
}
