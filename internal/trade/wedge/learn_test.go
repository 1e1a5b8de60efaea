package wedge_test

import (
	"math"
	"strings"
	"testing"

	"matchmark/internal/trade/wedge"
)

func enter(raw string) wedge.Arrival { return wedge.Arrival{Raw: raw, End: wedge.Enter} }

// TestLearn: two readings teach prefix, unit, mark, end and both errors.
// Kind H: errors are differences of the figures named in the row.
func TestLearn(t *testing.T) {
	for _, r := range []struct {
		name          string
		closed, piece wedge.Arrival
		size          float64
		want          wedge.Profile
		says          bool
		zero, err     float64
		step          float64
		one           bool
	}{
		{"bare mm", enter("0.00"), enter("25.01"), 25, wedge.Profile{Unit: "mm", Mark: "point", End: "enter"}, false, 0, 0.01, 0.01, false},
		{"bare inch", enter("0.0000"), enter("0.9845"), 25, wedge.Profile{Unit: "in", Mark: "point", End: "enter"}, false, 0, 0.9845*25.4 - 25, 0.00254, false},
		{"inch said", enter("0.0000 in"), enter("1.0000 in"), 25.4, wedge.Profile{Unit: "in", Mark: "point", End: "enter"}, true, 0, 0, 0.00254, false},
		{"comma", enter("0,00"), enter("25,00"), 25, wedge.Profile{Unit: "mm", Mark: "comma", End: "enter"}, false, 0, 0, 0.01, false},
		{"unit said", enter("0.00 ,MM\r\n"), enter("25.00 ,MM\r\n"), 25, wedge.Profile{Unit: "mm", Mark: "point", End: "enter"}, true, 0, 0, 0.01, false},
		{"prefix", enter("01A+0000.002"), enter("02A+0025.002"), 25, wedge.Profile{Prefix: "##A", Unit: "mm", Mark: "point", End: "enter"}, false, 0.002, 0.002, 0.001, true},
		{"letters that change", enter("xA 0.00"), enter("yA 25.00"), 25, wedge.Profile{Prefix: "@A", Unit: "mm", Mark: "point", End: "enter"}, false, 0, 0, 0.01, false},
		{"quiet", wedge.Arrival{Raw: "0.00", End: wedge.Quiet}, wedge.Arrival{Raw: "25.00", End: wedge.Quiet}, 25, wedge.Profile{Unit: "mm", Mark: "point", End: "quiet"}, false, 0, 0, 0.01, false},
		{"minus", enter("\u22120.02"), enter("24.98"), 25, wedge.Profile{Unit: "mm", Mark: "point", End: "enter"}, false, -0.02, -0.02, 0.01, true},
		{"no decimals at zero", enter("0"), enter("25,00"), 25, wedge.Profile{Unit: "mm", Mark: "comma", End: "enter"}, false, 0, 0, 0.01, false},
	} {
		l, err := wedge.Learn(r.closed, r.piece, r.size)
		if err != nil {
			t.Errorf("%s: %v", r.name, err)
			continue
		}
		if l.Profile != r.want || l.Says != r.says || l.OneError != r.one {
			t.Errorf("%s: learnt %+v, says %v, one error %v; want %+v, %v, %v", r.name, l.Profile, l.Says, l.OneError, r.want, r.says, r.one)
		}
		for _, c := range []struct {
			what      string
			got, want float64
		}{{"zero", l.ZeroMM, r.zero}, {"error", l.ErrorMM, r.err}, {"step", l.Step, r.step}} {
			if math.Abs(c.got-c.want) > 1e-9 {
				t.Errorf("%s: %s is %v mm, want %v", r.name, c.what, c.got, c.want)
			}
		}
		for _, raw := range []string{r.closed.Raw, r.piece.Raw} {
			if _, err := l.Profile.Read(raw); err != nil {
				t.Errorf("%s: the profile does not read its own lesson %q: %v", r.name, raw, err)
			}
		}
	}
}

// TestLearnRefuses says what is wrong instead of guessing.
func TestLearnRefuses(t *testing.T) {
	for _, r := range []struct {
		name          string
		closed, piece wedge.Arrival
		size          float64
		say           string
	}{
		{"neither unit", enter("0.00"), enter("12.40"), 25, "neither mm nor inches"},
		{"nothing", enter(""), enter("25.00"), 25, "nothing arrived"},
		{"garbage", enter("0.00"), enter("Err"), 25, "not a reading"},
		{"jaws not closed", enter("25.00"), enter("25.00"), 25, "jaws closed"},
		{"two marks", enter("0.00"), enter("25,00"), 25, "point and the other a comma"},
		{"ends differ", enter("0.00"), wedge.Arrival{Raw: "25.00", End: wedge.Tab}, 25, "did not end alike"},
		{"begin differently", enter("A0.00"), enter("AB25.00"), 25, "begin differently"},
		{"no size", enter("0.00"), enter("25.00"), 0, "above zero"},
		{"size not a number", enter("0.00"), enter("25.00"), math.NaN(), "above zero"},
		{"said inch, size mm", enter("0.000 in"), enter("25.00 in"), 25, "Measure the piece again"},
		{"unit changed", enter("0.00 mm"), enter("0.984 in"), 25, "unit changed"},
		{"two commas", enter("0,00,MM"), enter("25,00,MM"), 25, "one more"},
	} {
		_, err := wedge.Learn(r.closed, r.piece, r.size)
		if err == nil || !strings.Contains(err.Error(), r.say) {
			t.Errorf("%s: %v, want %q", r.name, err, r.say)
		}
	}
}

// FuzzLearn: what is learnt stands and reads both lessons.
func FuzzLearn(f *testing.F) {
	f.Add("0.00", "25.00", 25.0)
	f.Add("01A+0000.002", "02A+0025.002", 25.0)
	f.Add("0,00", "25,00", 25.0)
	f.Fuzz(func(t *testing.T, closed, piece string, size float64) {
		l, err := wedge.Learn(enter(closed), enter(piece), size)
		if err != nil {
			return
		}
		if err := l.Profile.Fault(); err != nil {
			t.Fatalf("%q, %q: %v", closed, piece, err)
		}
		for _, raw := range []string{closed, piece} {
			if _, err := l.Profile.Read(raw); err != nil {
				t.Fatalf("%q, %q teach %+v, which does not read %q: %v", closed, piece, l.Profile, raw, err)
			}
		}
	})
}
