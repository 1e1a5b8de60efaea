package oilfilm

import (
	"fmt"
	"math"
	"testing"
)

// grid solves Reynolds' equation for a full round bearing by finite
// differences, a second route that shares nothing with the table but the
// definitions. The film is H = 1 + e·cos θ from its widest place, where the
// pressure starts at zero; where it would fall below zero it is held there
// (Reynolds' condition, found by projection in the relaxation).
// ∂θ(H³∂θP) + (D/L)²∂ζ(H³∂ζP) = dH/dθ with p = 6µUR/c²·P, z = ζL/2; half the
// length by symmetry.
type grid struct {
	n, m     int // steps round and along half the length
	e, ratio float64
	p        [][]float64 // [0..n][0..m], m the open end
}

func (g *grid) height(i float64) float64 {
	return 1 + g.e*math.Cos(i*2*math.Pi/float64(g.n))
}

func solve(n, m int, e, ratio float64) *grid {
	g := &grid{n: n, m: m, e: e, ratio: ratio, p: make([][]float64, n+1)}
	for i := range g.p {
		g.p[i] = make([]float64, m+1)
	}
	dt, dz := 2*math.Pi/float64(n), 1/float64(m)
	k := math.Pow(dt/(dz*ratio), 2)
	west, east, mid, rhs := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i := 1; i < n; i++ {
		west[i] = math.Pow(g.height(float64(i)-0.5), 3)
		east[i] = math.Pow(g.height(float64(i)+0.5), 3)
		mid[i] = math.Pow(g.height(float64(i)), 3) * k
		rhs[i] = dt * (g.height(float64(i)+0.5) - g.height(float64(i)-0.5))
	}
	const omega = 1.9
	for range 20000 {
		change, top := 0.0, 0.0
		for i := 1; i < n; i++ {
			sum := west[i] + east[i] + 2*mid[i]
			here, before, after := g.p[i], g.p[i-1], g.p[i+1]
			for j := range m {
				in := here[1] // mirrored in the middle of the length
				if j > 0 {
					in = here[j-1]
				}
				want := (west[i]*before[j] + east[i]*after[j] + mid[i]*(in+here[j+1]) - rhs[i]) / sum
				next := max(0, here[j]+omega*(want-here[j]))
				change, top = max(change, math.Abs(next-here[j])), max(top, next)
				here[j] = next
			}
		}
		if change < 1e-8*top {
			break
		}
	}
	return g
}

// along integrates from the middle to the end of half the length (trapezium).
func (g *grid) along(f func(j int) float64) float64 {
	sum := (f(0) + f(g.m)) / 2
	for j := 1; j < g.m; j++ {
		sum += f(j)
	}
	return sum / float64(g.m)
}

// point turns the pressures into the figures of the table.
func (g *grid) point() Point {
	dt, dz := 2*math.Pi/float64(g.n), 1/float64(g.m)
	radial, across, top, leak := 0.0, 0.0, 0.0, 0.0
	for i := 1; i < g.n; i++ {
		theta := float64(i) * dt
		row := g.along(func(j int) float64 { return g.p[i][j] })
		radial -= 2 * dt * row * math.Cos(theta)
		across += 2 * dt * row * math.Sin(theta)
		top = max(top, g.p[i][0])
		leak += dt * math.Pow(g.height(float64(i)), 3) * (4*g.p[i][g.m-1] - g.p[i][g.m-2]) / (2 * dz)
	}
	w := math.Hypot(radial, across)
	p := Point{LengthRatio: g.ratio, Eccentricity: g.e, S: 1 / (3 * math.Pi * w)}
	p.AttitudeDeg = math.Atan2(across, radial) * 180 / math.Pi
	h := g.height(0)
	p.Flow = math.Pi * g.along(func(j int) float64 {
		return h - h*h*h*(4*g.p[1][j]-g.p[2][j])/(2*dt)
	})
	p.SideShare = math.Pi / (g.ratio * g.ratio) * leak / p.Flow
	p.PressureShare = w / 4 / top
	shear := 0.0 // drag on the journal, the film full all round
	for i := 1; i < g.n; i++ {
		up := g.along(func(j int) float64 { return (g.p[i+1][j] - g.p[i-1][j]) / (2 * dt) })
		h := g.height(float64(i))
		shear += dt * (1/h + 3*h*up)
	}
	shear += dt / h
	p.Friction = shear / (3 * w)
	return p
}

// reynolds solves on two grids and takes out the error that goes with the
// square of the step (Richardson).
func reynolds(e, ratio float64) Point {
	coarse, fine := solve(96, 12, e, ratio).point(), solve(192, 24, e, ratio).point()
	better := func(a, b float64) float64 { return b + (b-a)/3 }
	return Point{ratio, e, better(coarse.S, fine.S), better(coarse.AttitudeDeg, fine.AttitudeDeg),
		better(coarse.Friction, fine.Friction), better(coarse.Flow, fine.Flow),
		better(coarse.SideShare, fine.SideShare), better(coarse.PressureShare, fine.PressureShare), "Reynolds"}
}

// worst keeps the largest distance seen between two routes.
type worst struct{ s, attitude, friction, flow, side, pressure float64 }

func (w *worst) note(a, b Point) {
	off := func(x, y float64) float64 { return 100 * math.Abs(x/y-1) }
	w.s, w.friction, w.flow = max(w.s, off(a.S, b.S)), max(w.friction, off(a.Friction, b.Friction)), max(w.flow, off(a.Flow, b.Flow))
	w.attitude = max(w.attitude, math.Abs(a.AttitudeDeg-b.AttitudeDeg))
	w.side, w.pressure = max(w.side, math.Abs(a.SideShare-b.SideShare)), max(w.pressure, math.Abs(a.PressureShare-b.PressureShare))
}

func (w worst) String() string {
	return fmt.Sprintf("at most S %.2f %%, attitude %.2f°, friction %.2f %%, flow %.2f %%, side share %.3f, pressure share %.3f",
		w.s, w.attitude, w.friction, w.flow, w.side, w.pressure)
}

// TestReynoldsAtPublishedPoints holds every figure of the table against the
// second route; the issue wants 12 points or more within 2 %.
func TestReynoldsAtPublishedPoints(t *testing.T) {
	w, within := worst{}, 0
	for _, p := range Published() {
		r := reynolds(p.Eccentricity, p.LengthRatio)
		w.note(p, r)
		if math.Abs(p.S/r.S-1) <= 0.02 && math.Abs(p.Friction/r.Friction-1) <= 0.02 && math.Abs(p.Flow/r.Flow-1) <= 0.02 {
			within++
		} else {
			t.Errorf("L/D %g, e %g: table %+v, Reynolds %+v", p.LengthRatio, p.Eccentricity, p, r)
		}
	}
	t.Logf("%d of %d points within 2 %% in S, friction and flow; %v", within, len(Published()), w)
	if w.s > 1.5 || w.attitude > 0.6 || w.friction > 1 || w.flow > 0.2 || w.side > 0.005 || w.pressure > 0.01 {
		t.Errorf("the doc comments promise less: %v", w)
	}
}

// TestReynoldsBetweenPoints checks the interpolation where nothing is
// published.
func TestReynoldsBetweenPoints(t *testing.T) {
	w := worst{}
	for _, ratio := range []float64{0.25, 0.35, 0.42, 0.5, 0.7, 0.85, 1} {
		c := curveAt(ratio)
		for _, e := range []float64{0.14, 0.3, 0.5, 0.7, 0.86} {
			w.note(c.point(e), reynolds(e, ratio))
		}
	}
	t.Logf("35 places between points: %v", w)
	if w.s > 1.5 || w.attitude > 0.6 || w.friction > 1.5 || w.flow > 1 || w.side > 0.01 || w.pressure > 0.01 {
		t.Errorf("the doc comments promise less: %v", w)
	}
}

// TestReynoldsKeepsToTheShortBearing checks the second route itself where the
// answer is known in closed form: at L/D 1/20 it must run into [TN2808].
func TestReynoldsKeepsToTheShortBearing(t *testing.T) {
	for _, e := range []float64{0.2, 0.5, 0.8} {
		r := reynolds(e, 0.05)
		s, attitude, err := Short(e)
		if err != nil || math.Abs(r.S*0.0025/s-1) > 0.015 || math.Abs(r.AttitudeDeg-attitude) > 0.3 {
			t.Errorf("e %g: Reynolds S(L/D)² %.5f at %.2f°, short bearing %.5f at %.2f°, %v", e, r.S*0.0025, r.AttitudeDeg, s, attitude, err)
		}
	}
}
