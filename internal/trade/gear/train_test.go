package gear

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestTrains by hand. Reverse by an idler: 18→24→36 is 36/18 = 2, three shafts,
// two turnings round, so not reversed; without the idler it is.
func TestTrains(t *testing.T) {
	for _, c := range []struct {
		name     string
		p        Path
		in, out  int64
		reversed bool
		meet     int64
	}{
		{"direct", nil, 1, 1, false, 1},
		{"timing gears", Path{{Driver: 24, Driven: 48}}, 2, 1, true, 2},
		{"idler", Path{{Driver: 18, Driven: 24}, {Driver: 24, Driven: 36}}, 2, 1, false, 4},
		{"two steps", Path{{Driver: 17, Driven: 43}, {Driver: 19, Driven: 41}}, 43 * 41, 17 * 19, false, 43 * 41},
		{"ring gear", Path{{Driver: 20, Driven: 80, Internal: true}}, 4, 1, false, 4},
	} {
		r, err := c.p.Ratio()
		if err != nil || r.In != c.in || r.Out != c.out || r.Reversed != c.reversed {
			t.Errorf("%s: %v, %v; want %d/%d, reversed %t", c.name, r, err, c.in, c.out, c.reversed)
		}
		if n, err := c.p.MarksMeet(); err != nil || n != c.meet {
			t.Errorf("%s: marks meet after %d, %v; want %d", c.name, n, err, c.meet)
		}
	}
}

// TestHuntingByTurning marks a tooth of each gear and turns them tooth by
// tooth until the marks meet again: the second route to the lcm.
func TestHuntingByTurning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.IntRange(5, 120).Draw(t, "a"), rapid.IntRange(5, 120).Draw(t, "b")
		partners, n := map[int]bool{0: true}, 0
		for i := 1; n == 0; i++ {
			if i%a == 0 {
				partners[i%b] = true
			}
			if i%a == 0 && i%b == 0 {
				n = i
			}
		}
		h, err := HuntingTooth(a, b)
		if err != nil || h.Teeth != n || h.TurnsA*a != n || h.TurnsB*b != n || h.Partners != len(partners) || h.Hunting != (h.Partners == b) {
			t.Fatalf("%d and %d: %+v, %v; turning meets after %d with %d partners", a, b, h, err, n, len(partners))
		}
	})
}

// TestMarksMeetByTurning turns the input whole turns until every shaft has
// turned whole turns.
func TestMarksMeetByTurning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p Path
		for range rapid.IntRange(1, 3).Draw(t, "meshes") {
			p = append(p, Mesh{Driver: rapid.IntRange(5, 30).Draw(t, "driver"), Driven: rapid.IntRange(5, 30).Draw(t, "driven")})
		}
		n, err := p.MarksMeet()
		if err != nil {
			t.Fatal(err)
		}
		for turns := 1; ; turns++ {
			num, whole := turns, true
			den := 1
			for _, m := range p {
				num, den = num*m.Driver, den*m.Driven
				whole = whole && num%den == 0
			}
			if whole {
				if int64(turns) != n {
					t.Fatalf("%v: marks meet after %d, turning says %d", p, n, turns)
				}
				return
			}
		}
	})
}

// TestRoad by hand: 2400/80 = 30 rev/min of the wheel, times 2π·0.5 m·60 min =
// 5.6549 km/h.
func TestRoad(t *testing.T) {
	final := Path{{Driver: 10, Driven: 40}, {Driver: 12, Driven: 60}}
	road := Road{EngineRPM: 2400, Final: final, RollingRadiusMM: 500}
	got, err := road.Drive([]Choice{
		{"1", Path{{Driver: 10, Driven: 40}}},
		{"R", Path{{Driver: 10, Driven: 20}, {Driver: 20, Driven: 40}}},
	})
	if err != nil || len(got) != 2 || math.Abs(got[0].KMH-5.65487) > 1e-5 || got[0].KMH != got[1].KMH || got[0].Backward || !got[1].Backward {
		t.Errorf("%+v, %v", got, err)
	}
	if r, err := RollingRadius(10*2*math.Pi*500, 10); err != nil || math.Abs(r-500) > 1e-9 {
		t.Errorf("rolling radius %g, %v", r, err)
	}
	// 540 at 2400 wants 2400/540 = 40/9.
	if n, err := PTOSpeed(2400, 40./9); err != nil || math.Abs(n-StandardPTO) > 1e-9 {
		t.Errorf("power take-off %g, %v", n, err)
	}
	if n, err := EngineFor(StandardPTO, 40./9); err != nil || math.Abs(n-2400) > 1e-9 {
		t.Errorf("engine %g, %v", n, err)
	}
}

func TestTrainRefuses(t *testing.T) {
	in := func(err error, want string) {
		t.Helper()
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q in it", err, want)
		}
	}
	_, err := Path{{Driver: 20, Driven: 40}, {Driver: 0, Driven: 30}}.Ratio()
	in(err, "teeth in mesh 2 is 0; 5 to 1000 was wanted")
	_, err = Path{{Driver: 20, Driven: 40}}.Orders(0)
	in(err, "order of the input is 0")
	_, err = HuntingTooth(20, 2000)
	in(err, "number of teeth is 2000")
	_, err = Road{EngineRPM: 2400, RollingRadiusMM: 500}.Drive([]Choice{{"1", Path{{Driver: 20, Driven: 1}}}})
	in(err, `gear "1": teeth in mesh 1 is 1`)
	_, err = Road{EngineRPM: 2400, RollingRadiusMM: -500}.Drive([]Choice{{"1", nil}})
	in(err, `gear "1": rolling radius, mm is -500; above zero`)
	_, err = Road{}.Drive([]Choice{{"1", nil}, {"1", nil}})
	in(err, `gear "1" is given twice`)
	primes := []int{997, 991, 983, 977, 971, 967, 953, 947}
	var long Path
	for i := 0; i < len(primes); i++ {
		long = append(long, Mesh{Driver: 512, Driven: primes[i]})
	}
	_, err = long.Ratio()
	in(err, "the ratio has too many digits")
	_, err = long.MarksMeet()
	in(err, "the marks practically never meet")
	_, err = RoadSpeed(2400, math.Inf(1), 500)
	in(err, "ratio is +Inf")
}
