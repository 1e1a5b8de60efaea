package caution

// LifeWords stand with every step that guards life.
const LifeWords = "This guards life. It cannot be passed on anybody's word: it must be proved on the machine."

// Gate is something that guards life, and how it is proved.
type Gate struct {
	Name    string
	Proof   string
	DeferTo string
}

// Gates lists the life gates in the order in which a machine meets them.
// Common practice, no source; the limits of brakes, lights and frame are
// those of the place.
func Gates() []Gate {
	return []Gate{
		{"stop reaches zero fuel", "Stop pulled, engine cranked five seconds, unions loose: no fuel at any. Before the first start, every time the pump was open.", "pump workshop"},
		{"rack free", "Rack and governor lever go to zero by themselves from every point, hooked up as it will run.", "pump workshop"},
		{"starts only in neutral", "Wheels clear of the ground: it does not crank in any gear, nor with the power take-off engaged.", ""},
		{"power take-off guard", "Guard on, whole and fast; it cannot be turned out of the way by hand.", "the law of the place"},
		{"protective frame", "As made: no weld, hole, bend or heat mark that is not the maker's; all bolts of the right class; belt and anchors sound.", "certifier of protective frames"},
		{"brakes", "Holds standing on a slope, then stops straight from walking speed, then from 15 km/h on dry level ground.", "inspection station"},
		{"steering", "Lock to lock without a bind, every ball end and arm secured, play within its limit, wheels follow.", "inspection station"},
	}
}

// NotRecoverable is the whole answer to what cannot be read off worn metal.
const NotRecoverable = "not recoverable from measurement"

// Refusal is a figure that is asked for and never given.
type Refusal struct {
	ID      string
	Wanted  string
	Why     string
	Instead string // what can be done
	DeferTo string
}

// Answer is the refusal as a sentence.
func (r Refusal) Answer() string {
	return r.Wanted + ": " + NotRecoverable + ". " + r.Why + " " + r.Instead
}

// Refusals lists what is answered with NotRecoverable and no number.
func Refusals() []Refusal {
	return []Refusal{
		{"frame-strength", "Strength of a protective frame", "Steel, weld and heat treatment do not show on the outside.", "Keep it as made or fit a certified one.", "certifier of protective frames"},
		{"full-load-fuel", "Full-load fuel", "Where the screw stands now is no proof of where it was set.", "Leave the stop where it was found and have the pump set on a bench.", "pump workshop"},
		{"hydraulic-pressure", "Hydraulic pressure above what was found", "The weakest of pump, hose, cylinder and seal cannot be seen.", "Keep the relief as found, or lower.", "qualified hydraulics fitter"},
		{"lining-grade", "Grade of a brake lining", "Friction does not show in colour or thickness.", "Fit linings sold for this brake and prove them by a measured stop.", "brake service"},
		{"welded-wheel", "Strength of a welded wheel disc", "The weld and what it did to the steel beside it cannot be seen.", "Renew the disc.", "tyre service"},
		{"cracked-rod", "Life left in a cracked connecting rod", "A crack grows under a load that was never recorded.", "Renew the rod.", "engine workshop"},
		{"tank-welding", "Whether a fuel tank is safe to weld", "Vapour stays in seams after any rinse.", "Renew the tank, or give it to somebody who certifies it free of gas.", "gas-free certifier"},
	}
}

// Refused gives the refusal with an id; ok is false where there is none.
func Refused(id string) (r Refusal, ok bool) {
	for _, r := range Refusals() {
		if r.ID == id {
			return r, true
		}
	}
	return Refusal{}, false
}
