package oilfilm

// Point is one published solution of a full round bearing. All but the
// eccentricity are pure numbers as the source defines them.
type Point struct {
	LengthRatio   float64 // L/D
	Eccentricity  float64 // centre distance over radial clearance; the least film is 1 − this
	S             float64 // Sommerfeld number (R/c)²·µN/P, N in rev/s
	AttitudeDeg   float64 // from the load to the line of centres
	Friction      float64 // (R/c)·f
	Flow          float64 // Q/(R·c·N·L), drawn into the wedge at the widest film
	SideShare     float64 // part of that flow that leaves at the ends
	PressureShare float64 // mean pressure over the highest
	Basis         string
}

const (
	readAndRecalled = "S and friction read in a public page, the rest from memory; all confirmed by a Reynolds solution"
	recalled        = "from memory, confirmed by a Reynolds solution"
)

// published holds the points of [RB58] for L/D 1, 1/2 and 1/4, in order of
// length ratio and eccentricity. All figures lie within 1 % of a Reynolds
// solution but S at L/D 1, eccentricity 0.4, which is 1.4 % above it; it stands
// as printed.
var published = [3][6]Point{
	{
		{1. / 4, 0.1, 16.2, 82.31, 322, 3.45, 0.180, 0.515, recalled},
		{1. / 4, 0.2, 7.57, 75.18, 153, 3.76, 0.330, 0.489, recalled},
		{1. / 4, 0.4, 2.83, 60.86, 61.1, 4.37, 0.567, 0.415, recalled},
		{1. / 4, 0.6, 1.07, 46.72, 26.7, 4.99, 0.746, 0.334, recalled},
		{1. / 4, 0.8, 0.261, 31.04, 8.80, 5.60, 0.884, 0.240, recalled},
		{1. / 4, 0.9, 0.0736, 21.85, 3.50, 5.91, 0.945, 0.180, recalled},
	},
	{
		{1. / 2, 0.1, 4.31, 81.62, 85.6, 3.43, 0.173, 0.523, recalled},
		{1. / 2, 0.2, 2.03, 74.94, 40.9, 3.72, 0.318, 0.506, recalled},
		{1. / 2, 0.4, 0.779, 61.45, 17.0, 4.29, 0.552, 0.441, recalled},
		{1. / 2, 0.6, 0.319, 48.14, 8.10, 4.85, 0.730, 0.365, recalled},
		{1. / 2, 0.8, 0.0923, 33.31, 3.26, 5.41, 0.874, 0.267, recalled},
		{1. / 2, 0.9, 0.0313, 23.66, 1.60, 5.69, 0.939, 0.206, recalled},
	},
	{
		{1, 0.1, 1.33, 79.5, 26.4, 3.37, 0.150, 0.540, readAndRecalled},
		{1, 0.2, 0.631, 74.02, 12.8, 3.59, 0.280, 0.529, readAndRecalled},
		{1, 0.4, 0.264, 63.10, 5.79, 3.99, 0.497, 0.484, readAndRecalled},
		{1, 0.6, 0.121, 50.58, 3.22, 4.33, 0.680, 0.415, readAndRecalled},
		{1, 0.8, 0.0446, 36.24, 1.70, 4.62, 0.842, 0.313, readAndRecalled},
		{1, 0.9, 0.0188, 26.45, 1.05, 4.74, 0.919, 0.247, readAndRecalled},
	},
}

// Published lists the points of the table.
func Published() []Point {
	var all []Point
	for _, row := range published {
		all = append(all, row[:]...)
	}
	return all
}

// The table's reach. Outside it a result is refused, not stretched.
const (
	LeastLengthRatio, MostLengthRatio   = 0.25, 1.0
	LeastEccentricity, MostEccentricity = 0.1, 0.9
)
