package shim

import (
	"fmt"
	"math"

	"matchmark/internal/trade/metrology"
)

// Influence says how one reading answers to the packs at several positions:
// reading = Base + Σ PerMM·(pack − Ref), mm for mm.
type Influence struct {
	Name  string
	Ref   []float64   // packs at which Base is read, mm
	Base  float64     // mm
	PerMM []float64   // one for each position
	Cov   [][]float64 // covariance of Base and PerMM, in that order
	Spare int         // trial builds beyond the unknowns; 0 leaves the line untested
	// Crooked: with spare builds, some build lies farther than three of its
	// uncertainties from the line; go in small steps and do not trust it far.
	Crooked bool
}

// Stated is an influence that the user states: the reading base with the packs
// ref, and what it changes by for each mm at each position. What is stated is
// taken as known but for the uncertainty of base.
// Errors: RangeError for a number that is not finite; unequal lengths.
func Stated(name string, ref []float64, base metrology.Estimate, perMM []float64) (Influence, error) {
	if err := base.Check(); err != nil {
		return Influence{}, fmt.Errorf("influence on %s: %w", name, err)
	}
	f := Influence{Name: name, Ref: ref, Base: base.Value, PerMM: perMM, Cov: square(len(perMM) + 1)}
	f.Cov[0][0] = base.U * base.U
	return f, f.check(len(ref))
}

func (f Influence) check(positions int) error {
	if len(f.PerMM) != positions || len(f.Ref) != positions || len(f.Cov) != positions+1 {
		return fmt.Errorf("influence on %s has %d packs, %d slopes and %d rows of covariance; %d, %d and %d were wanted",
			f.Name, len(f.Ref), len(f.PerMM), len(f.Cov), positions, positions, positions+1)
	}
	for i := range f.PerMM {
		if bad(f.PerMM[i]) || bad(f.Ref[i]) {
			return metrology.RangeError{Field: fmt.Sprintf("influence on %s of position %d", f.Name, i+1), Got: f.PerMM[i], Want: "a finite number at a finite pack"}
		}
	}
	return nil
}

func bad(x float64) bool { return math.IsNaN(x) || math.IsInf(x, 0) }

// At is the reading to expect with the given packs in mm; its uncertainty is
// that of what was learned, without the shims'. GUM 5.2.2.
func (f Influence) At(packs []float64) metrology.Estimate {
	x := make([]float64, len(packs)+1)
	x[0] = 1
	e := metrology.Estimate{Value: f.Base}
	for j, s := range packs {
		x[j+1] = s - f.Ref[j]
		e.Value += f.PerMM[j] * x[j+1]
	}
	v := 0.0
	for i := range x {
		for j := range x {
			v += x[i] * f.Cov[i][j] * x[j]
		}
	}
	e.U = math.Sqrt(max(0, v))
	return e
}

// Build is a trial build: the pack at each position in mm and the reading.
type Build struct {
	Packs   []float64
	Reading metrology.Estimate
}

// Known is an influence that need not be learned, as 1 mm for 1 mm of a shim
// on the bearing's own axis. Position counts from 0.
type Known struct {
	Position int
	PerMM    float64
}

// LearnInfluence finds how a reading answers to the packs from trial builds:
// the first one as it stood, then one with each position changed: two trial
// builds more for two positions. Further builds sharpen it: give all builds
// again with the new one.
// Method: least squares weighted by 1/u², GUM 5.2.2 for what follows from it;
// where all uncertainties are 0, weights are equal and none is given.
// Errors: UnlearnedError naming the positions that the builds do not tell
// apart; RangeError; builds of unequal lengths.
func LearnInfluence(name string, builds []Build, known []Known) (Influence, error) {
	if len(builds) == 0 {
		return Influence{}, fmt.Errorf("influence on %s: no trial build; one as it stood and one with each position changed were wanted", name)
	}
	k := len(builds[0].Packs)
	f := Influence{Name: name, Ref: append([]float64(nil), builds[0].Packs...), PerMM: make([]float64, k), Cov: square(k + 1)}
	isKnown := make([]bool, k)
	for _, kn := range known {
		if kn.Position < 0 || kn.Position >= k || bad(kn.PerMM) {
			return Influence{}, fmt.Errorf("influence on %s: known position %d with %g per mm; a position from 0 to %d and a finite number were wanted", name, kn.Position, kn.PerMM, k-1)
		}
		isKnown[kn.Position], f.PerMM[kn.Position] = true, kn.PerMM
	}
	if err := checkBuilds(name, builds, k); err != nil {
		return Influence{}, err
	}
	unknown := []int{}
	for j := range k {
		if !isKnown[j] {
			unknown = append(unknown, j)
		}
	}
	rows, y, exact := f.equations(builds, unknown)
	if apart := notTold(rows, unknown); len(apart) > 0 {
		return Influence{}, UnlearnedError{Name: name, Positions: apart}
	}
	x, cov := leastSquares(rows, y)
	f.Base = x[0]
	for a, j := range unknown {
		f.PerMM[j] = x[a+1]
	}
	if !exact {
		place := append([]int{0}, unknown...)
		for a := 1; a < len(place); a++ {
			place[a]++
		}
		for a, i := range place {
			for b, j := range place {
				f.Cov[i][j] = cov[a][b]
			}
		}
	}
	f.Spare = len(builds) - len(unknown) - 1
	f.Crooked = !exact && f.Spare > 0 && f.strays(builds)
	return f, nil
}

func checkBuilds(name string, builds []Build, k int) error {
	sharp := builds[0].Reading.U == 0
	for i, b := range builds {
		if len(b.Packs) != k {
			return fmt.Errorf("influence on %s: build %d has %d packs; %d were wanted, as in build 1", name, i+1, len(b.Packs), k)
		}
		for _, s := range b.Packs {
			if !(s >= 0) || bad(s) {
				return metrology.RangeError{Field: fmt.Sprintf("pack in build %d for %s, mm", i+1, name), Got: s, Want: "zero or more"}
			}
		}
		if err := b.Reading.Check(); err != nil {
			return fmt.Errorf("influence on %s, build %d: %w", name, i+1, err)
		}
		if (b.Reading.U == 0) != sharp {
			return metrology.RangeError{Field: fmt.Sprintf("uncertainty of build %d for %s, mm", i+1, name), Got: b.Reading.U, Want: "above zero in every build, or zero in all"}
		}
	}
	return nil
}

// equations are the weighted rows (1, packs − Ref) of the unknown positions and
// what the readings leave for them once the known are taken off.
func (f Influence) equations(builds []Build, unknown []int) (rows [][]float64, y []float64, exact bool) {
	exact = builds[0].Reading.U == 0
	for _, b := range builds {
		w := 1.0
		if !exact {
			w = 1 / b.Reading.U
		}
		left := b.Reading.Value
		for j := range f.PerMM {
			left -= f.PerMM[j] * (b.Packs[j] - f.Ref[j]) // 0 for the unknown so far
		}
		row := []float64{w}
		for _, j := range unknown {
			row = append(row, w*(b.Packs[j]-f.Ref[j]))
		}
		rows, y = append(rows, row), append(y, w*left)
	}
	return rows, y, exact
}

// strays says whether a build lies more than three of its own uncertainties
// off the line.
func (f Influence) strays(builds []Build) bool {
	for _, b := range builds {
		if math.Abs(b.Reading.Value-f.At(b.Packs).Value) > 3*b.Reading.U {
			return true
		}
	}
	return false
}

// UnlearnedError says which positions (counted from 0) the trial builds do not
// tell apart.
type UnlearnedError struct {
	Name      string
	Positions []int
}

func (e UnlearnedError) Error() string {
	text := fmt.Sprintf("influence on %s is not learned for position", e.Name)
	for _, p := range e.Positions {
		text += fmt.Sprintf(" %d,", p+1)
	}
	return text + " which the trial builds never changed on its own; one more build with only that pack changed was wanted"
}
