package fastener

import (
	"fmt"
	"math"
	"strings"
)

// Class is the strength of a bolt as marked on its head, in MPa.
type Class struct {
	Name         string
	Proof        float64
	Yield        float64 // least
	YieldNominal float64 // by the name: 10.9 is 900
	Tensile      float64 // least
	Source       string
}

const (
	isoSource = "ISO 898-1:2013 table 3, from memory; agrees with proof and tensile load tables that were read"
	saeSource = "SAE J429, read in a table of Shigley and Mischke, 5th ed., p. 341"
	ksi       = 6.894757 // MPa
)

// isoClass is a class with the diameters it holds for, over and upto in mm.
type isoClass struct {
	Class
	over, upto float64
}

// Above 16 mm class 8.8 is stronger; 9.8 ends at 16 mm.
var isoClasses = []isoClass{
	{Class{"4.6", 225, 240, 240, 400, isoSource}, 1.5, 39},
	{Class{"4.8", 310, 340, 320, 420, isoSource}, 1.5, 39},
	{Class{"5.6", 280, 300, 300, 500, isoSource}, 1.5, 39},
	{Class{"5.8", 380, 420, 400, 520, isoSource}, 1.5, 39},
	{Class{"6.8", 440, 480, 480, 600, isoSource}, 1.5, 39},
	{Class{"8.8", 580, 640, 640, 800, isoSource}, 1.5, 16},
	{Class{"8.8", 600, 660, 640, 830, isoSource}, 16, 39},
	{Class{"9.8", 650, 720, 720, 900, isoSource}, 1.5, 16},
	{Class{"10.9", 830, 940, 900, 1040, isoSource}, 1.5, 39},
	{Class{"12.9", 970, 1100, 1080, 1220, isoSource}, 1.5, 39},
}

// saeClasses: psi·1000 by diameter in inches. Grade 2 above 6 inches long is
// as weak as above 3/4.
var saeClasses = []struct {
	name                  string
	over, upto            float64 // in
	proof, yield, tensile float64 // ksi
}{
	{"2", 0.2, 0.75, 55, 57, 74}, {"2", 0.75, 1.5, 33, 36, 60},
	{"5", 0.2, 1, 85, 92, 120}, {"5", 1, 1.5, 74, 81, 105},
	{"8", 0.2, 1.5, 120, 130, 150},
}

// ClassOf gives the strength of a thread with a head mark: "8.8" on metric and
// Whitworth threads, "2", "5" or "8" ("grade 5") on unified ones.
// A head without a mark has no class: it is not given one here. Common
// practice, no source: treat it as 5.8 at most until hardness says otherwise,
// never as 10.9.
// Errors: no mark, a mark that is not known or does not hold for the diameter;
// a class on a tapered thread.
func ClassOf(t Thread, mark string) (Class, error) {
	name := strings.TrimSpace(strings.TrimPrefix(strings.ToLower(strings.TrimSpace(mark)), "grade"))
	if t.Tapered {
		return Class{}, fmt.Errorf("class of %s: a tapered thread seals by its taper and carries no preload; no class was wanted", t.Designation)
	}
	if name == "" {
		return Class{}, fmt.Errorf("class of %s: the head has no mark; a class was wanted (unmarked is 5.8 at most until its hardness is tested, never 10.9)", t.Designation)
	}
	if strings.HasPrefix(t.Series, "UN") {
		for _, c := range saeClasses {
			if in := t.D / 25.4; c.name == name && in > c.over+1e-6 && in <= c.upto+1e-6 {
				return Class{"grade " + name, c.proof * ksi, c.yield * ksi, c.yield * ksi, c.tensile * ksi, saeSource}, nil
			}
		}
		return Class{}, fmt.Errorf("class of %s: mark %q; grade 2, 5 or 8 on 1/4 to 1-1/2 was wanted", t.Designation, mark)
	}
	for _, c := range isoClasses {
		if c.Name == name && t.D > c.over && t.D <= c.upto {
			return c.Class, nil
		}
	}
	return Class{}, fmt.Errorf("class of %s: mark %q; 4.6, 4.8, 5.6, 5.8, 6.8, 8.8, 9.8 (to 16 mm), 10.9 or 12.9 on 1.6 to 39 mm was wanted", t.Designation, mark)
}

// ProofLoad and TensileLoad are what a bolt of the class stands and breaks at,
// N, from the stress area rounded to three figures as ISO 898-1 prints it. The
// loads that the standard prints are the same to three figures, but for about
// one in ten that it prints up to two in the third figure off.
func (c Class) ProofLoad(t Thread) float64   { return c.Proof * threeFigures(t.StressArea()) }
func (c Class) TensileLoad(t Thread) float64 { return c.Tensile * threeFigures(t.StressArea()) }

// threeFigures rounds a number above zero to three figures.
func threeFigures(x float64) float64 {
	if !(x > 0) {
		return x
	}
	unit := math.Pow(10, math.Floor(math.Log10(x))-2)
	return math.Round(x/unit) * unit
}
