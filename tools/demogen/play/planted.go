package play

import "matchmark/internal/machine"

// plantedShapes are the surfaces that are not as their like: worn past a limit,
// or so near one that only a better gauge can tell.
var plantedShapes = map[machine.FeatureID]shape{
	"liner.2/bore":                {75, 0.150, 0.024, []float64{1, 0.5, 0.2}},
	"liner.3/bore":                {75, 0.045, 0.0490, []float64{1, 0.6, 0.3}},
	"crankshaft/crankpin-3":       {42, 0.020, 0.064, []float64{1, 0.85}},
	"crankshaft/main-journal-2":   {52, 0.003, 0.0395, []float64{1, 0.9}},
	"small-end-bush.1/bore":       {23.020, 0.053, 0.003, nil},
	"gudgeon-pin.1/dia":           {23, 0.005, 0.001, []float64{1, 1, 1}},
	"valve-guide.ex-1/bore":       {7.035, 0.150, 0.010, []float64{0.9, 0.76, 1}},
	"valve-guide.ex-3/bore":       {7.035, 0.165, 0.012, []float64{0.9, 0.4, 1}},
	"valve-seat.ex-2/width":       {2.5, 0, 0, nil},
	"rocker-bush.ex-2/bore":       {15.035, 0.150, 0.020, nil},
	"king-bush.upper-left/bore":   {25.070, 0.400, 0.060, nil},
	"king-bush.lower-left/bore":   {25.070, 0.260, 0.050, nil},
	"kingpin-land.upper-left/dia": {25, 0.070, 0.015, nil},
	"kingpin-land.lower-left/dia": {25, 0.190, 0.030, nil},
	"axle-pivot/land-rear":        {30, 0.330, 0.012, nil},
	"pivot-bush.front/bore":       {30.200, 0.700, 0.100, nil},
	"clutch-plate/rivet-depth":    {0.22, 0.12, 0, nil},
}

// badWhy are the checks that must not come out sound, with what was planted.
// All others that were made must.
var badWhy = map[machine.CheckID]planted{
	"bore-wear.2":             {worn, "bore 2 is 0.17 mm over at the top"},
	"bore-taper.2":            {worn, "and almost unworn at the bottom"},
	"bore-oval.3":             {doubtful, "0.049 out of round at a limit of 0.0525"},
	"crankpin-round.3":        {worn, "crankpin 3 ran short of oil: 0.048 oval"},
	"crankpin-wear.3":         {worn, "and 0.084 under at its worst"},
	"main-round.2":            {doubtful, "0.030 oval at a limit of 0.030"},
	"pin-fit-bush.1":          {doubtful, "small end bush 1 near its limit, gauge set by micrometer"},
	"stem-clear.ex-1":         {worn, "exhaust guide 1 worn out"},
	"stem-clear.ex-3":         {worn, "exhaust guide 3 worn out"},
	"guide-bell.ex-3":         {worn, "and bell-mouthed"},
	"seat-width.ex-2":         {doubtful, "read with a rule"},
	"rocker-play.ex-2":        {worn, "rocker bush starved"},
	"king-clear.upper-left":   {worn, "bush broken in two"},
	"king-clear.lower-left":   {worn, "bush and pin worn"},
	"kingpin-wear.lower-left": {worn, "pin worn in the lower bush"},
	"pivot-clear.front":       {worn, "front pivot bush knocked out"},
	"pivot-wear.rear":         {doubtful, "pivot pin near its limit, read with a vernier"},
	"pto-guard-fitted":        {worn, "guard cracked"},
	"clutch-rivet":            {worn, "worn to the rivets"},
	"batt-ocv":                {worn, "one cell dead"},
	"head-flat":               {worn, "head warped 0.14 mm"},
	"inj-pressure.3":          {worn, "spring of injector 3 gone soft"},
	"inj-balance":             {worn, "spread of 21 bar"},
	"inj-spray.3":             {worn, "one-sided fog"},
	"stat-open":               {worn, "thermostat hardly opens"},
	"brush-len":               {worn, "two brushes short"},
	"pulley-seal-track":       {worn, "groove cut by the seal"},
	"glow-res.2":              {worn, "plug 2 burnt through"},
	"ring-gap.1":              {worn, "past the figure on the old bill, within common practice"},
	"hp-pipe-cond.2":          {worn, "cone mushroomed"},
	"tank-clean":              {worn, "flakes of rust"},
	"crank-runout":            {doubtful, "0.055 on a dial at a limit of 0.06"},
}

type planted struct{ verdict, because string }

const (
	worn     = "worn"
	doubtful = "doubtful"
	sound    = "sound"
)
