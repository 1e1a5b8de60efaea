package oilfilm

import "math"

// curve is the table at one length ratio, ready to be read between its
// eccentricities. Along the length ratio each figure is a parabola through
// the three published ones over ln(L/D); along the eccentricity a monotone
// cubic over −ln(1−e). What is laid between the points is not S itself but
// how far it lies from the short bearing, which is small and smooth.
type curve struct {
	ratio     float64
	at        [6]float64 // −ln(1−e)
	excess    [6]float64 // ln(S(L/D)²/short − 1)
	attitude  [6]float64 // attitude less that of the short bearing, degrees
	held      [6]float64 // π(1+e) less the flow variable
	side      [6]float64
	pressures [6]float64
}

// curveAt lays the curve for a length ratio within the table.
func curveAt(ratio float64) curve {
	c := curve{ratio: ratio}
	for i := range 6 {
		e := published[0][i].Eccentricity
		c.at[i] = -math.Log1p(-e)
		c.excess[i] = across(ratio, i, func(p Point) float64 {
			return math.Log(p.S*p.LengthRatio*p.LengthRatio/shortS(e) - 1)
		})
		c.attitude[i] = across(ratio, i, func(p Point) float64 { return p.AttitudeDeg - shortAttitude(e) })
		c.held[i] = across(ratio, i, func(p Point) float64 { return math.Pi*(1+e) - p.Flow })
		c.side[i] = across(ratio, i, func(p Point) float64 { return p.SideShare })
		c.pressures[i] = across(ratio, i, func(p Point) float64 { return p.PressureShare })
	}
	return c
}

// across is the parabola over ln(L/D) through a figure of the three length
// ratios at the i-th eccentricity.
func across(ratio float64, i int, figure func(Point) float64) float64 {
	x := math.Log2(ratio) // the nodes lie at −2, −1 and 0
	return figure(published[0][i])*x*(x+1)/2 - figure(published[1][i])*x*(x+2) + figure(published[2][i])*(x+1)*(x+2)/2
}

// s is the Sommerfeld number at an eccentricity within the table.
func (c curve) s(e float64) float64 {
	return shortS(e) / (c.ratio * c.ratio) * (1 + math.Exp(monotone(c.at, c.excess, -math.Log1p(-e))))
}

// point is all figures at an eccentricity. Friction is not read from the
// table but follows from S and attitude: 2π²S/√(1−e²) + e·sin φ/2, the drag of
// a full film on the journal, which the published column keeps to.
func (c curve) point(e float64) Point {
	x := -math.Log1p(-e)
	p := Point{LengthRatio: c.ratio, Eccentricity: e, S: c.s(e)}
	p.AttitudeDeg = shortAttitude(e) + monotone(c.at, c.attitude, x)
	p.Friction = 2*math.Pi*math.Pi*p.S/math.Sqrt(1-e*e) + e*math.Sin(p.AttitudeDeg*math.Pi/180)/2
	p.Flow = math.Pi*(1+e) - monotone(c.at, c.held, x)
	p.SideShare = monotone(c.at, c.side, x)
	p.PressureShare = monotone(c.at, c.pressures, x)
	p.Basis = "between points of [RB58]"
	return p
}

// eccentricity finds where the curve has a Sommerfeld number between those of
// its ends, by halving; S falls all along. Cost: 60 steps.
func (c curve) eccentricity(s float64) float64 {
	lo, hi := LeastEccentricity, MostEccentricity
	for range 60 {
		if mid := (lo + hi) / 2; c.s(mid) > s {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// monotone is the cubic through the nodes that has no bumps of its own.
// Method: Fritsch and Carlson 1980, slopes by harmonic means; from memory.
func monotone(at, value [6]float64, x float64) float64 {
	i := 0
	for i < 4 && x > at[i+1] {
		i++
	}
	h := at[i+1] - at[i]
	t := (x - at[i]) / h
	a, b := slope(at, value, i), slope(at, value, i+1)
	return value[i]*(1+2*t)*(1-t)*(1-t) + value[i+1]*t*t*(3-2*t) + h*(a*t*(1-t)*(1-t)-b*t*t*(1-t))
}

// slope at the i-th node: the weighted harmonic mean of its neighbours'
// chords, 0 at a peak, and the first or last chord bent by its neighbour at
// the ends.
func slope(at, value [6]float64, i int) float64 {
	chord := func(j int) (width, rise float64) {
		width = at[j+1] - at[j]
		return width, (value[j+1] - value[j]) / width
	}
	if i == 0 || i == 5 {
		near, far := min(i, 4), min(max(i-2, 1), 3)
		wn, dn := chord(near)
		wf, df := chord(far)
		end := ((2*wn+wf)*dn - wn*df) / (wn + wf)
		switch {
		case end*dn <= 0:
			return 0
		case dn*df <= 0 && math.Abs(end) > 3*math.Abs(dn):
			return 3 * dn
		}
		return end
	}
	wa, da := chord(i - 1)
	wb, db := chord(i)
	if da*db <= 0 {
		return 0
	}
	return (3 * (wa + wb)) / ((2*wb+wa)/da + (wb+2*wa)/db)
}
