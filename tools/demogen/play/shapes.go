package play

import (
	"hash/fnv"
	"strings"

	"matchmark/internal/machine"
)

// shape is the truth about one surface: its size as made and what it lost, all
// in mm on diameter. A bore grows by the wear, a journal shrinks; a length is
// what is left of it.
type shape struct {
	nominal float64
	wear    float64   // at the worst height
	oval    float64   // more of it, along the first direction
	down    []float64 // share of wear and ovality at each height; the last goes on
}

// shapes are the surfaces of the machine as they were made and as they wear in
// the ordinary way, by part type and surface. Sizes are invented; fits and wear
// are of the order that no maker is needed for (common practice, no source).
var shapes = map[string]shape{
	"liner/bore":               {75, 0.070, 0.018, []float64{1, 0.55, 0.25}},
	"piston/skirt":             {74.950, 0.008, 0, nil},
	"piston/boss":              {23.006, 0.004, 0.002, nil},
	"gudgeon-pin/dia":          {23, 0.004, 0.001, []float64{1, 1.2, 1}},
	"small-end-bush/bore":      {23.020, 0.018, 0.006, nil},
	"con-rod/tunnel":           {45, 0, 0.006, nil},
	"main-cap/tunnel":          {56, 0, 0.005, nil},
	"crankshaft/main-journal":  {52, 0.012, 0.004, []float64{1, 0.8}},
	"crankshaft/crankpin":      {42, 0.014, 0.006, []float64{1, 0.8}},
	"valve-guide/bore":         {7.035, 0.024, 0.006, []float64{0.9, 0.6, 1}},
	"valve/stem":               {7, 0.008, 0.002, []float64{0.8, 0.6, 1}},
	"valve/margin":             {1.40, 0.15, 0, nil},
	"valve-seat/width":         {1.5, 0, 0, nil},
	"rocker-shaft/track":       {15, 0.010, 0.006, nil},
	"rocker-bush/bore":         {15.035, 0.022, 0.010, nil},
	"tappet/dia":               {22, 0.010, 0, nil},
	"tappet-bore/bore":         {22.040, 0.018, 0, nil},
	"camshaft/journal-front":   {42, 0.012, 0.004, nil},
	"camshaft/journal-middle":  {41.5, 0.010, 0.004, nil},
	"camshaft/journal-rear":    {41, 0.010, 0.004, nil},
	"block/cam-bore-front":     {42.060, 0.024, 0.008, nil},
	"block/cam-bore-middle":    {41.560, 0.015, 0.004, nil},
	"block/cam-bore-rear":      {41.060, 0.015, 0.004, nil},
	"idler-shaft/dia":          {25, 0.010, 0.004, nil},
	"idler-bush/bore":          {25.045, 0.022, 0.006, nil},
	"pilot-bearing/bore":       {15.030, 0.020, 0.004, nil},
	"gb-input/spigot":          {15, 0.014, 0.002, nil},
	"release-shaft/dia":        {20, 0.030, 0.010, nil},
	"release-bush/bore":        {20.060, 0.070, 0.020, nil},
	"starter-arm/journal":      {12.5, 0.020, 0.004, nil},
	"starter-bush/bore":        {12.570, 0.040, 0.010, nil},
	"axle-pivot/land":          {30, 0.120, 0.030, nil},
	"pivot-bush/bore":          {30.200, 0.160, 0.050, nil},
	"king-bush/bore":           {25.070, 0.080, 0.020, nil},
	"kingpin-land/dia":         {25, 0.040, 0.010, nil},
	"spindle/inner-seat":       {35, 0.014, 0.003, nil},
	"spindle/outer-seat":       {25, 0.012, 0.003, nil},
	"hub-brg-in/bore":          {35, 0.002, 0, nil},
	"hub-brg-out/bore":         {25, 0.002, 0, nil},
	"steer-sector/land":        {28, 0.020, 0.006, nil},
	"steer-sector-bush/bore":   {28.055, 0.030, 0.010, nil},
	"rail-12/dia":              {16, 0.010, 0.003, nil},
	"rail-3r/dia":              {16, 0.012, 0.003, nil},
	"gb-case/rail-12-bore":     {16.050, 0.020, 0.005, nil},
	"gb-case/rail-3r-bore":     {16.050, 0.022, 0.005, nil},
	"link-ball/bore":           {19.300, 0.300, 0.060, nil},
	"link-pin/dia":             {19, 0.120, 0.030, nil},
	"clutch-plate/rivet-depth": {0.14, 0.02, 0, nil},
}

// shapeOf finds the shape of a surface: what was planted in that very one, else
// what is usual for its like, a little different in each.
func shapeOf(id machine.FeatureID) shape {
	if p, ok := plantedShapes[id]; ok {
		return p
	}
	typ, _ := machine.Split(id.Part())
	name := id.Name()
	sh, ok := shapes[string(typ)+"/"+name]
	for cut := name; !ok && strings.Contains(cut, "-"); { // main-journal-2, track-in-1
		cut = cut[:strings.LastIndex(cut, "-")]
		sh, ok = shapes[string(typ)+"/"+cut]
	}
	h := fnv.New32a()
	h.Write([]byte(id))
	k := 0.8 + 0.4*float64(h.Sum32()%101)/100
	sh.wear, sh.oval = sh.wear*k, sh.oval*k
	return sh
}

// trueSize is the size at a point, at 20 °C.
func trueSize(ft *machine.Feature, p machine.Point) float64 {
	sh := shapeOf(ft.ID)
	lost := sh.wear + sh.oval*share(indexOf(ft.Axes, p.Axis), len(ft.Axes))
	if at := indexOf(ft.Levels, p.Level); len(sh.down) > 0 {
		lost *= sh.down[min(at, len(sh.down)-1)]
	}
	if ft.Sort == machine.Bore {
		return sh.nominal + lost
	}
	if ft.Sort == machine.Length { // lengths differ from place to place
		lost = sh.wear * float64(indexOf(ft.Levels, p.Level)%3) / 2
	}
	return sh.nominal - lost
}

// share of the ovality along a direction: all of it along the first, none
// along the one square to it, half between.
func share(axis, axes int) float64 {
	if axes < 2 {
		return 0
	}
	if axis == 0 {
		return 1
	}
	if axes == 2 {
		return 0
	}
	return 0.25
}

func indexOf(list []string, x string) int {
	for i, y := range list {
		if x == y {
			return i
		}
	}
	return 0
}
