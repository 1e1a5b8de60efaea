package hydraulic

import (
	"fmt"

	"matchmark/internal/trade/metrology"
)

// NotRecoverable is the whole answer to a pressure above what was found.
const NotRecoverable = "not recoverable from measurement"

// Rating is the most that one member of the circuit stands, bar, as somebody
// wrote it down or as WallBar gives it.
type Rating struct {
	Of     string // "hose", "pump", "cylinder wall", "seal"
	Bar    float64
	Source string
}

// Relief is where a relief valve may stand.
type Relief struct {
	Bar    float64 // never above what was found
	Lower  bool    // it must come down from what was found
	Member string  // the weakest rating, empty where none was given
	Words  string
}

// SetRelief says where a relief valve found at so many bar may stand: as
// found, or at the lowest rating where that is less. Ratings only ever lower
// it. Errors: RangeError; UnknownError for a pressure that was never read,
// for then no figure is given at all.
func SetRelief(found float64, ratings []Rating) (Relief, error) {
	if found == 0 {
		return Relief{}, UnknownError{What: "relief pressure that was never read"}
	}
	if err := metrology.Positive("relief pressure found, bar", found); err != nil {
		return Relief{}, err
	}
	r := Relief{Bar: found, Words: "keep the relief as found"}
	for _, in := range ratings {
		if err := metrology.Positive("rating of the "+in.Of+", bar", in.Bar); err != nil {
			return Relief{}, err
		}
		if in.Bar < r.Bar {
			r = Relief{Bar: in.Bar, Lower: true, Member: in.Of, Words: fmt.Sprintf("lower the relief to %g bar, what the %s stands (%s)", in.Bar, in.Of, in.Source)}
		}
	}
	return r, nil
}

// Allow is nil for a wanted relief pressure (bar) up to what SetRelief gives,
// and refuses any above. Errors: those of SetRelief; UnknownError.
func Allow(wanted, found float64, ratings []Rating) error {
	if err := metrology.Positive("relief pressure wanted, bar", wanted); err != nil {
		return err
	}
	r, err := SetRelief(found, ratings)
	if err != nil {
		return err
	}
	if wanted > r.Bar {
		return UnknownError{What: "hydraulic pressure above what was found"}
	}
	return nil
}

// UnknownError says that something cannot be had from measurement. It never
// carries a number.
type UnknownError struct{ What string }

func (e UnknownError) Error() string {
	return e.What + ": " + NotRecoverable + "; ask a qualified hydraulics fitter, with the pump's own rating"
}
