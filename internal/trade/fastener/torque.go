package fastener

import (
	"math"

	"matchmark/internal/trade/metrology"
)

// Edition says how the twist of a tight bolt counts against its yield.
type Edition string

const (
	Plastic Edition = "VDI 2230:2001"  // twist as in a bolt yielding right through
	Elastic Edition = "VDI 2230 older" // twist at the skin only; 6 to 7 % less preload
)

// YieldShare is the share of the yield that torque may bring a bolt to.
// Source: VDI 2230, ν = 0.9.
const YieldShare = 0.9

// Joint is a bolt as it is to be tightened.
type Joint struct {
	Thread   Thread
	Class    Class
	Head     Head
	Friction Friction
	Neck     float64 // mm, smallest diameter of a waisted bolt; 0 for none
}

// Check reports why a joint cannot be worked, or nil. Errors: RangeError.
func (j Joint) Check() error {
	for _, c := range []struct {
		name string
		got  float64
		ok   bool
		want string
	}{
		{"diameter of the thread, mm", j.Thread.D, j.Thread.D > 0, "above zero"},
		{"pitch, mm", j.Thread.Pitch, j.Thread.Pitch > 0 && j.Thread.Root() > 0, "above zero and smaller than the bolt"},
		{"flank angle, degrees", j.Thread.Flank, j.Thread.Flank >= 25 && j.Thread.Flank <= 65, "25 to 65"},
		{"yield, MPa", j.Class.Yield, j.Class.Yield > 0, "above zero"},
		{"proof stress, MPa", j.Class.Proof, j.Class.Proof > 0, "above zero"},
		{"neck, mm", j.Neck, j.Neck >= 0 && j.Neck <= j.Thread.D, "zero (none) to the thread"},
		{"lower friction of the thread", j.Friction.Thread.Lo, j.Friction.Thread.Lo > 0, "above zero"},
		{"upper friction of the thread", j.Friction.Thread.Hi, j.Friction.Thread.Hi >= j.Friction.Thread.Lo && j.Friction.Thread.Hi < 1, "at least the lower, below 1"},
		{"lower friction of the head", j.Friction.Head.Lo, j.Friction.Head.Lo > 0, "above zero"},
		{"upper friction of the head", j.Friction.Head.Hi, j.Friction.Head.Hi >= j.Friction.Head.Lo && j.Friction.Head.Hi < 1, "at least the lower, below 1"},
	} {
		if !c.ok || math.IsInf(c.got, 0) {
			return metrology.RangeError{Field: c.name, Got: c.got, Want: c.want}
		}
	}
	return j.Head.check()
}

// area is the smaller of stress area and neck, mm², with its diameter.
func (j Joint) area() (mm2, d float64) {
	d = j.Thread.stressDiameter()
	if j.Neck > 0 {
		d = min(d, j.Neck)
	}
	return math.Pi / 4 * d * d, d
}

// arm is torque over preload in mm:
// P/2π + µ_thread·d₂/(2·cos(flank/2)) + µ_head·D_km/2.
func (j Joint) arm(muThread, muHead float64) float64 {
	half := j.Thread.Flank / 2 * math.Pi / 180
	return j.Thread.Pitch/(2*math.Pi) + muThread*j.Thread.PitchDiameter()/(2*math.Cos(half)) + muHead*j.Head.mean()/2
}

// Torque is the torque for a preload in N: Lo at the lowest friction, Hi at
// the highest.
// Method: VDI 2230-1 three-term relation (pitch, thread, head); source key
// [VDI2230]. Errors: RangeError.
func (j Joint) Torque(preload float64) (Band, error) {
	if err := j.Check(); err != nil {
		return Band{}, err
	}
	if !(preload >= 0) || math.IsInf(preload, 0) {
		return Band{}, metrology.RangeError{Field: "preload, N", Got: preload, Want: "zero or more"}
	}
	return Band{preload * j.arm(j.Friction.Thread.Lo, j.Friction.Head.Lo) / 1000,
		preload * j.arm(j.Friction.Thread.Hi, j.Friction.Head.Hi) / 1000}, nil
}

// Preload is what a torque in N·m clamps with: Lo at the highest friction, Hi
// at the lowest. Method and errors: as Torque.
func (j Joint) Preload(torque float64) (Band, error) {
	if err := j.Check(); err != nil {
		return Band{}, err
	}
	if !(torque >= 0) || math.IsInf(torque, 0) {
		return Band{}, metrology.RangeError{Field: "torque, N·m", Got: torque, Want: "zero or more"}
	}
	return Band{1000 * torque / j.arm(j.Friction.Thread.Hi, j.Friction.Head.Hi),
		1000 * torque / j.arm(j.Friction.Thread.Lo, j.Friction.Head.Lo)}, nil
}

// twist is the share of equivalent stress over pull that the torque in the
// thread adds: √(1 + 3·(k·d₂/d₀·(P/πd₂ + µ/cos(flank/2)))²), k 3/2 or 2.
func (j Joint) twist(mu float64, e Edition) float64 {
	k := 1.5
	if e == Elastic {
		k = 2
	}
	_, d := j.area()
	d2 := j.Thread.PitchDiameter()
	half := j.Thread.Flank / 2 * math.Pi / 180
	x := k * d2 / d * (j.Thread.Pitch/(math.Pi*d2) + mu/math.Cos(half))
	return math.Sqrt(1 + 3*x*x)
}

// PreloadAt is the preload in N at which pull and twist together bring the
// bolt to a share of the given yield in MPa, at a friction mu in the thread.
// Method: VDI 2230-1, assembly preload; source key [VDI2230].
// Errors: RangeError.
func (j Joint) PreloadAt(share, yield, mu float64, e Edition) (float64, error) {
	if err := j.Check(); err != nil {
		return 0, err
	}
	for _, c := range []struct {
		name string
		got  float64
		ok   bool
		want string
	}{
		{"share of the yield", share, share > 0 && share <= 1, "above 0 to 1"},
		{"yield, MPa", yield, yield > 0 && !math.IsInf(yield, 0), "above zero"},
		{"friction of the thread", mu, mu >= 0 && mu < 1, "0 to below 1"},
	} {
		if !c.ok {
			return 0, metrology.RangeError{Field: c.name, Got: c.got, Want: c.want}
		}
	}
	a, _ := j.area()
	return share * yield * a / j.twist(mu, e), nil
}
