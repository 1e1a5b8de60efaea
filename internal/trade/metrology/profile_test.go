package metrology

import (
	"math"
	"testing"
)

// Names by hand, common practice, no source; u is 0.001, so 0.002 counts.
func TestNameProfile(t *testing.T) {
	for _, c := range []struct {
		name string
		mm   []float64
		want Profile
		end  int
	}{
		{"alike", []float64{82, 82, 82}, Straight, -1},
		{"within the uncertainty", []float64{82.001, 82, 82.002}, Straight, -1},
		{"from top to bottom", []float64{82.010, 82.005, 82.000}, Cone, 0},
		{"from bottom to top", []float64{82.000, 82.005, 82.010}, Cone, 2},
		{"large in the middle", []float64{82.000, 82.010, 82.003}, Barrel, -1},
		{"one of two middles", []float64{82.000, 82.000, 82.010, 82.003}, Barrel, -1},
		{"small in the middle", []float64{82.010, 82.000, 82.004}, Waist, -1},
		{"wide at the top only", []float64{82.010, 82.001, 82.000}, Mouth, 0},
		{"narrow at the bottom only", []float64{82.010, 82.010, 82.000}, Mouth, 2},
		{"two alike", []float64{82.001, 82}, Straight, -1},
		{"two apart", []float64{82.000, 82.005}, Cone, 1},
	} {
		got, end, err := NameProfile(c.mm, 0.001)
		if err != nil || got != c.want || end != c.end {
			t.Errorf("%s, %v: %s %d %v, want %s %d", c.name, c.mm, got, end, err, c.want, c.end)
		}
		turned := make([]float64, len(c.mm))
		for i, d := range c.mm {
			turned[len(c.mm)-1-i] = d
		}
		if back, other, _ := NameProfile(turned, 0.001); back != got || end >= 0 && other != len(c.mm)-1-end {
			t.Errorf("%s read from the other end: %s %d", c.name, back, other)
		}
	}
	for _, bad := range [][]float64{{82}, nil, {82, math.NaN()}} {
		if _, _, err := NameProfile(bad, 0.001); err == nil {
			t.Errorf("%v was named", bad)
		}
	}
}
