package judge

import (
	"math"
	"math/rand/v2"
	"testing"

	"matchmark/internal/machine"
	"matchmark/internal/reftest"
	"matchmark/internal/trade/metrology"
)

func setting(tool, name string, nominal, read float64) *machine.SettingTaken {
	return &machine.SettingTaken{Tool: tool, Setting: name, Nominal: machine.Amount{Value: nominal, Unit: "mm", Step: 0.001},
		Read: machine.Amount{Value: read, Unit: "mm", Step: 0.001}}
}

// set puts a setting piece before the readings and names it in those of the
// bore.
func set(by string, reads ...*machine.SettingTaken) *log {
	l := fit(checkOf(by, common(machine.Limit{High: "0.080"})))
	if by == machine.BySize {
		l = fit(formCheck(by, common(machine.Limit{High: "50.080"})))
	}
	for _, s := range reads {
		l.add(s)
	}
	worked(l.add(made(bore, 50)))
	for _, b := range l.bodies {
		if r, ok := b.(*machine.ReadingTaken); ok && r.Feature == bore {
			r.Setting = "ring 50"
		}
	}
	return l
}

// A ring of 50.000 that reads 50.004 takes 0.004 off every bore read after it
// and widens each by the reading of the ring; what is the same in two readings
// cancels in their difference. By hand: u_set² = 0.0024² + 0.002²/12.
func TestSettingPiece(t *testing.T) {
	ring, _ := metrology.InstrumentByID("bore-gauge-ring")
	mic, _ := metrology.InstrumentByID("micrometer")
	read := setting("bore-gauge-ring", "ring 50", 50, 50.004)
	own, setU := ring.Single(50).U, math.Hypot(ring.Repeat, ring.Step/math.Sqrt(12))
	for by, want := range map[string]metrology.Estimate{
		machine.BySize:      {Value: 50.056, U: math.Hypot(own, setU)},
		machine.ByWear:      {Value: 0.056, U: math.Hypot(own, setU)},
		machine.ByClearance: {Value: 0.072, U: metrology.SumSquares(own, setU, mic.Single(50).U)},
		machine.ByTaper:     {Value: 0.020, U: math.Sqrt2 * setU}, // hand and step of two readings
		machine.ByOval:      {Value: 0.005, U: math.Sqrt2 * setU},
	} {
		f := set(by, read).one(t, idOf(by))
		if !reftest.Near(f.Value, want.Value, 1e-9) || !reftest.Near(f.U, want.U, 1e-9) {
			t.Errorf("by %s: %.6f ± %.6f, want %.6f ± %.6f: %q", by, f.Value, f.U, want.Value, want.U, f.Working)
		}
		if !contains(f.Working, "the gauge shows 0.004 mm too much, taken off every reading after it") {
			t.Errorf("by %s: %q", by, f.Working)
		}
	}
}

// The latest reading of the piece counts, and only for its own tool and name.
func TestSettingPieceOfOthers(t *testing.T) {
	f := set(machine.BySize, setting("bore-gauge-ring", "ring 50", 50, 50.1), setting("bore-gauge-ring", "ring 50", 50, 49.999),
		setting("micrometer", "ring 50", 50, 50.2), setting("bore-gauge-ring", "ring 60", 60, 60.3)).one(t, "form")
	if !reftest.Near(f.Value, 50.061, 1e-9) || !contains(f.Working, "0.001 mm too little, added to every reading after it") {
		t.Errorf("%g %q", f.Value, f.Working)
	}
	volts := setting("bore-gauge-ring", "ring 50", 50, 50.1)
	volts.Read.Unit = "V"
	f = set(machine.BySize, volts).one(t, "form")
	if !reftest.Near(f.Value, 50.060, 1e-9) || !contains(f.Working, `setting piece "ring 50" not used`) {
		t.Errorf("%g %q", f.Value, f.Working)
	}
}

// Two points that lean on two readings of the piece share the scale, not the
// shift: by hand, u² = 2·(0.0024² + 0.002²/12)·2.
func TestSetAgainBetween(t *testing.T) {
	l := set(machine.ByTaper, setting("bore-gauge-ring", "ring 50", 50, 50.004))
	for i, b := range l.bodies {
		if r, ok := b.(*machine.ReadingTaken); ok && r.Level == "middle" {
			l.bodies = append(l.bodies[:i:i], append([]machine.Body{setting("bore-gauge-ring", "ring 50", 50, 50.002)}, l.bodies[i:]...)...)
			break
		}
	}
	f := l.one(t, "form")
	ring, _ := metrology.InstrumentByID("bore-gauge-ring")
	if want := 2 * math.Hypot(ring.Repeat, ring.Step/math.Sqrt(12)); !reftest.Near(f.U, want, 1e-9) {
		t.Errorf("u %.6f, want %.6f", f.U, want)
	}
	// 50.060 − 0.004 at the top against 50.040 − 0.002 low down.
	if !reftest.Near(f.Value, 0.018, 1e-9) {
		t.Errorf("taper %g", f.Value)
	}
}

// A cold gauge set in a cold steel ring and used on a cold steel part reads the
// part's size at 20 °C: the shift holds the cold of the gauge.
// By hand: all steel at 5 °C; gauge, ring and part shrink alike.
func TestColdGauge(t *testing.T) {
	cold := 5.0
	piece := setting("micrometer", "standard 50", 50, 50)
	piece.TempC = &cold
	r := size(journal, "", "along", 50.002)
	r.TempC, r.Setting = &cold, "standard 50"
	check := &machine.CheckAdded{ID: "form", Name: "Journal", By: machine.BySize, Outer: journal, Limits: []machine.Limit{common(machine.Limit{High: "60"})}}
	l := fit(check).add(piece, r, size(journal, "", "across", 50))
	f := l.one(t, "form")
	if !reftest.Near(f.Value, 50.002, 2e-6) || f.At != "along" || !contains(f.Working, "at 5 °C, taken as steel") {
		t.Errorf("%.6f at %q: %q", f.Value, f.At, f.Working)
	}
}

// One thermometer on one part cancels in a taper, and does not between parts.
func TestWarmTaper(t *testing.T) {
	warm := 45.0
	judge := func(by string) *Finding {
		l := worked(fit(checkOf(by, common(machine.Limit{High: "0.080"}))))
		for _, b := range l.bodies {
			if r, ok := b.(*machine.ReadingTaken); ok {
				r.TempC = &warm
			}
		}
		return l.one(t, idOf(by))
	}
	ring, _ := metrology.InstrumentByID("bore-gauge-ring")
	want := math.Sqrt2 * math.Hypot(ring.Repeat, ring.Step/math.Sqrt(12))
	if f := judge(machine.ByTaper); !reftest.Near(f.U, want, 1e-6) {
		t.Errorf("taper: u %.7f, want %.7f", f.U, want)
	}
	mic, _ := metrology.InstrumentByID("micrometer")
	cool := metrology.SumSquares(ring.Single(50).U, mic.Single(50).U)
	// By hand: 50·10.5e-6·0.577 and 50·25·0.577e-6 for the bore; 11.5e-6 for the journal.
	heat := metrology.SumSquares(50*10.5e-6/math.Sqrt(3), 50*11.5e-6/math.Sqrt(3), 50*25e-6/math.Sqrt(3), 50*25e-6/math.Sqrt(3))
	if f := judge(machine.ByClearance); !reftest.Near(f.U, math.Hypot(cool, heat), 1e-6) {
		t.Errorf("clearance: u %.7f, want %.7f", f.U, math.Hypot(cool, heat))
	}
}

// A gauge whose zero is off by up to 0.050, set by one reading of a ring: of
// parts exactly at their limit at most 5 % are judged sound, though the error of
// that one reading is in all six.
func TestSetGaugeOutOfLimits(t *testing.T) {
	n := 4 * draws(t)
	for _, by := range []string{machine.BySize, machine.ByWear, machine.ByClearance} {
		m := set(by, setting("bore-gauge-ring", "ring 50", 50, 50)).fold(t)
		r := rig{m, m.Check(idOf(by))}
		rng := rand.New(rand.NewPCG(8, 3))
		sound, worn := 0, 0
		for range n {
			high := 0.080 + 0.004*rng.Float64()
			ring, mic := newHand(rng, "bore-gauge-ring"), newHand(rng, "micrometer")
			zero := 0.1 * (rng.Float64() - 0.5)
			boreMM, journalMM := shape(rng, by, high)
			for i := range boreMM {
				boreMM[i] = ring.read(boreMM[i] + zero)
			}
			for i := range journalMM {
				journalMM[i] = mic.read(journalMM[i])
			}
			// The scale is right at the piece; its error is away from it.
			m.Settings[0].Read.Value = hand{rng, ring.gauge, 0}.read(50 + zero)
			if by == machine.BySize {
				high += 50
			}
			switch r.judge(high, boreMM, journalMM) {
			case Sound:
				sound++
			case Worn:
				worn++
			}
		}
		share := float64(sound) / float64(n)
		t.Logf("%-9s zero off by up to 0.050, %d parts at the limit: sound %.2f %%, worn %.2f %%", by, n, 100*share, 100*float64(worn)/float64(n))
		if share > most(n) {
			t.Errorf("by %s: %.2f %% judged sound at the limit; 5 %% at most", by, 100*share)
		}
	}
}

// The workshop's own figures count in place of the usual ones, and its other
// instruments beside them.
func TestOwnInstruments(t *testing.T) {
	own := &machine.InstrumentSet{Instrument: machine.Instrument{ID: "micrometer", Name: "micrometer, certified", Unit: "mm", Step: 0.001, HalfWidth: 0.0006, Repeat: 0.0008, Source: "certificate"}}
	best := &machine.InstrumentSet{Instrument: machine.Instrument{ID: "comparator", Name: "comparator", Looks: "outside", Unit: "mm", Step: 0.0001, HalfWidth: 0.0001, Repeat: 0.0001}}
	check := &machine.CheckAdded{ID: "form", Name: "Journal", By: machine.BySize, Outer: journal, Limits: []machine.Limit{common(machine.Limit{Low: "49.980"})}}
	l := fit(check).add(own, best, size(journal, "", "along", 49.9805), size(journal, "", "across", 50))
	f := l.one(t, "form")
	want := metrology.SumSquares(0.0006/math.Sqrt(3), 0.001/math.Sqrt(12), 0.0008) // by hand
	if !reftest.Near(f.U, want, 1e-9) || f.Verdict != Doubtful || !contains(f.Working, "micrometer, certified") {
		t.Errorf("u %.6f, want %.6f: %s %q", f.U, want, f.Verdict, f.Working)
	}
	list := Instruments(l.fold(t))
	if n := len(metrology.Instruments()); len(list) != n+1 || list[n].ID != "comparator" || list[0].Kind != "outside" || list[0].HalfWidth != 0.0006 {
		t.Errorf("%+v", list)
	}
	near := fit(check).add(best, size(journal, "", "along", 49.981), size(journal, "", "across", 50)).one(t, "form")
	if near.Verdict != Doubtful || near.Settle != "More readings will not settle it; a reading with a comparator would." {
		t.Errorf("%s %q", near.Verdict, near.Settle)
	}
}
