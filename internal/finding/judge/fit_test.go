package judge

import (
	"math"
	"strings"
	"testing"

	"matchmark/internal/machine"
	"matchmark/internal/reftest"
	"matchmark/internal/trade/metrology"
)

func clearanceCheck(limits ...machine.Limit) *machine.CheckAdded {
	return &machine.CheckAdded{ID: "clear", Name: "Clearance", By: machine.ByClearance, Outer: bore, Inner: journal,
		Parts: []machine.PartID{"liner", "shaft"}, Limits: limits, Size: &machine.SizeSource{Symbol: "d", Feature: journal},
		Remedies: []machine.Remedy{{Key: "shells", Name: "New shells"}}}
}

// worked is a bore with worn top and a journal with wear across.
func worked(l *log) *log {
	return l.add(bores(50.060, 50.055, 50.050, 50.045, 50.040, 50.040)...).
		add(size(journal, "", "along", 49.990), size(journal, "", "across", 49.984))
}

func TestClearanceMostAndLeast(t *testing.T) {
	f := worked(fit(clearanceCheck(common(machine.Limit{NewLow: "0.025", High: "0.080"})))).one(t, "clear")
	// most 50.060 − 49.984 = 0.076, least 50.040 − 49.990 = 0.050
	if !reftest.Near(f.Value, 0.076, 1e-9) || f.At != "bore top along, journal across" {
		t.Errorf("value %g at %q", f.Value, f.At)
	}
	if !contains(f.Working, "most clearance 0.076 mm") || !contains(f.Working, "least clearance 0.050 mm") {
		t.Errorf("%s", strings.Join(f.Working, "\n"))
	}
	if f.Read != 8 || f.Points != 8 {
		t.Errorf("read %d of %d", f.Read, f.Points)
	}
}

// GUM 5.1.2 through the instruments' own budgets.
func TestClearanceBudget(t *testing.T) {
	f := worked(fit(clearanceCheck(common(machine.Limit{High: "0.080"})))).one(t, "clear")
	ring, _ := metrology.InstrumentByID("bore-gauge-ring")
	mic, _ := metrology.InstrumentByID("micrometer")
	want := math.Hypot(ring.Single(50).U, mic.Single(50).U)
	if !reftest.Near(f.U, want, 1e-9) {
		t.Errorf("u %.6f, want %.6f", f.U, want)
	}
}

// A gauge set by the micrometer that measured the journal shares its error:
// u² loses twice the shared square (GUM 5.2.2, F.1.2.3).
func TestSharedInstrument(t *testing.T) {
	build := func(settingA, settingB, toolA, toolB string) *Finding {
		l := fit(clearanceCheck(common(machine.Limit{High: "0.080"})))
		worked(l)
		for _, b := range l.bodies {
			if r, ok := b.(*machine.ReadingTaken); ok {
				r.Setting, r.Tool = settingB, toolB
				if r.Feature == bore {
					r.Setting, r.Tool = settingA, toolA
				}
			}
		}
		return l.one(t, "clear")
	}
	plain := build("", "", "bore-gauge-ring", "micrometer")
	linked := build("", "", "bore-gauge-micrometer", "micrometer")
	apart := build("mic A", "mic B", "bore-gauge-micrometer", "micrometer")
	same := build("ring 50", "ring 50", "bore-gauge-ring", "micrometer")
	mic, _ := metrology.InstrumentByID("micrometer")
	s := mic.HalfWidth / math.Sqrt(3)
	for _, c := range []struct {
		name string
		got  float64
		want float64
	}{
		{"set by it", linked.U, math.Sqrt(apart.U*apart.U - 2*s*s)},
		{"one setting", same.U, math.Sqrt(plain.U*plain.U - 2*s*s)},
	} {
		if !reftest.Near(c.got, c.want, 1e-9) {
			t.Errorf("%s: u %.6f, want %.6f", c.name, c.got, c.want)
		}
	}
	if !contains(same.Working, "common to both gauges cancels") || contains(plain.Working, "cancels") {
		t.Error("the working does not say what cancels")
	}
}

func TestTooTightRefit(t *testing.T) {
	limit := common(machine.Limit{NewLow: "0.025", NewHigh: "0.060", High: "0.080"})
	tight := func(l *log) *log {
		return l.add(bores(50.010, 50.010, 50.010, 50.010, 50.010, 50.010)...).
			add(size(journal, "", "along", 50.000), size(journal, "", "across", 50.000))
	}
	asFound := tight(fit(clearanceCheck(limit))).one(t, "clear")
	if asFound.Verdict != Sound || !strings.HasSuffix(asFound.Sentence, "Sound: reusable, below new.") {
		t.Errorf("a fit as found has no new low: %s %q", asFound.Verdict, asFound.Sentence)
	}
	refit := tight(fit(clearanceCheck(limit)).add(&machine.RemedyDone{Check: "clear", Key: "shells", Reworked: []machine.FeatureID{bore}})).one(t, "clear")
	if refit.Verdict != Worn || !strings.HasSuffix(refit.Sentence, "0.010 mm. Least for a rebuilt fit 0.025, limit 0.080, common practice. Too tight.") {
		t.Errorf("%s %q", refit.Verdict, refit.Sentence)
	}
	// One tight pair is enough, though the most clearance is good.
	l := fit(clearanceCheck(limit)).add(&machine.RemedyDone{Check: "clear", Key: "shells", Renewed: []machine.PartID{"shaft"}})
	l.add(bores(50.050, 50.050, 50.050, 50.050, 50.012, 50.050)...).add(size(journal, "", "along", 50.000), size(journal, "", "across", 50.000))
	if f := l.one(t, "clear"); f.Verdict != Worn || f.At != "bore low along, journal along" {
		t.Errorf("%s %q", f.Verdict, f.Sentence)
	}
}

func TestFormulaSizes(t *testing.T) {
	formula := machine.Limit{High: "0.0014*d", From: machine.Handbook, Source: "made for the test"}
	spare := common(machine.Limit{High: "0.070"})
	measured := worked(fit(clearanceCheck(formula, spare))).one(t, "clear")
	// mean of 49.990 and 49.984 is 49.987, times 0.0014 is 0.0699818
	if measured.Limit.Size != "d = 49.987 mm, measured" || !reftest.Near(measured.Limit.High, 0.0699818, 1e-9) {
		t.Errorf("%q %g", measured.Limit.Size, measured.Limit.High)
	}
	nominal := worked(fit(clearanceCheck(formula, spare))).add(&machine.NominalSet{Feature: journal, From: machine.Paperwork,
		Amount: machine.Amount{Value: 50, Unit: "mm"}}).one(t, "clear")
	if nominal.Limit.Size != "d = 50.000 mm, nominal, paperwork" || !reftest.Near(nominal.Limit.High, 0.07, 1e-12) {
		t.Errorf("%q %g", nominal.Limit.Size, nominal.Limit.High)
	}
	volts := func(set ...machine.Body) *Finding {
		l := (&log{}).add(&machine.DatumSet{Datum: machine.Datum{ID: "system-volts", Name: "System volts", Unit: "V"}},
			&machine.CheckAdded{ID: "gap", Name: "Charging", By: machine.ByReading, When: machine.Running, Unit: "V", Tool: "multimeter-volt",
				Size:   &machine.SizeSource{Symbol: "Vn", Datum: "system-volts"},
				Limits: []machine.Limit{common(machine.Limit{Low: "1.10*Vn", High: "1.21*Vn"})}}, read(14.0, 0.01, "V"))
		return l.add(set...).one(t, "gap")
	}
	twelve := 12.0
	if f := volts(); f.Verdict != NoLimit || f.Settle != "Enter system volts." || len(f.Others) != 1 || f.Others[0].Missing != "enter system volts" {
		t.Errorf("%s %q %+v", f.Verdict, f.Settle, f.Others)
	}
	f := volts(&machine.DatumSet{Datum: machine.Datum{ID: "system-volts", Value: &twelve, From: machine.OwnDecision}})
	if f.Verdict != Sound || f.Limit.Size != "Vn = 12 V, own decision" || !reftest.Near(f.Limit.High, 14.52, 1e-9) {
		t.Errorf("%s %q %g", f.Verdict, f.Limit.Size, f.Limit.High)
	}
}

// A datum kept in another unit of the check's kind is brought to it.
func TestDatumInAnotherUnit(t *testing.T) {
	set := 12.0
	f := (&log{}).add(&machine.DatumSet{Datum: machine.Datum{ID: "p0", Name: "Stated pressure", Unit: "MPa", Value: &set}},
		&machine.CheckAdded{ID: "gap", Name: "Opening pressure", By: machine.ByReading, When: machine.Apart, Unit: "bar", Tool: "hydraulic-gauge",
			Size: &machine.SizeSource{Symbol: "p0", Datum: "p0"}, Limits: []machine.Limit{common(machine.Limit{Low: "0.85*p0"})}},
		read(11.8, 0.1, "MPa")).one(t, "gap")
	if !reftest.Near(f.Limit.Low, 102, 1e-9) || f.Verdict != Sound || !strings.Contains(f.Sentence, "118 bar") {
		t.Errorf("low %g, %s %q", f.Limit.Low, f.Verdict, f.Sentence)
	}
}

func TestDisagree(t *testing.T) {
	paper := machine.Limit{High: "0.060", From: machine.Paperwork, Source: "page 12"}
	f := worked(fit(clearanceCheck(common(machine.Limit{High: "0.100"}), paper))).one(t, "clear")
	if f.Limit.From != machine.Paperwork || f.Verdict != Worn || !f.Disagree || len(f.Others) != 1 || f.Others[0].High != 0.100 {
		t.Errorf("%s by %s, disagree %v, %+v", f.Verdict, f.Limit.From, f.Disagree, f.Others)
	}
	if !contains(f.Working, "by the limit of common practice it would be sound") {
		t.Errorf("%q", f.Working)
	}
	f = worked(fit(clearanceCheck(common(machine.Limit{High: "0.050"}), paper))).one(t, "clear")
	if f.Disagree {
		t.Error("two limits with one verdict disagree")
	}
}

func TestNotAllRead(t *testing.T) {
	limit := common(machine.Limit{High: "0.080"})
	some := fit(clearanceCheck(limit)).add(size(bore, "top", "along", 50.060), size(journal, "", "along", 49.99)).one(t, "clear")
	if some.Verdict != NotRead || some.Sentence != "Clearance: 2 of 8 points read." || some.Value != 0 ||
		!strings.Contains(some.Settle, "bore of Liner top across") || !strings.Contains(some.Settle, "journal of Shaft across") {
		t.Errorf("%s %q %q", some.Verdict, some.Sentence, some.Settle)
	}
	gone := fit(clearanceCheck(limit)).add(size(bore, "top", "along", 50.360), size(journal, "", "along", 49.99)).one(t, "clear")
	if gone.Verdict != Worn || !strings.Contains(gone.Sentence, "2 of 8 points read") {
		t.Errorf("%s %q", gone.Verdict, gone.Sentence)
	}
	none := fit(clearanceCheck(limit)).one(t, "clear")
	if none.Verdict != NotRead || none.Sentence != "Clearance: not read." || none.Points != 8 {
		t.Errorf("%s %q", none.Verdict, none.Sentence)
	}
}
