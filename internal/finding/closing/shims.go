package closing

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"matchmark/internal/finding/judge"
	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/shim"
	"matchmark/internal/trade/spelling"
)

// Shims is what a joint has of them, and the pack that a trial build asks for.
type Shims struct {
	Plan     string         // what the kit says
	Out      []machine.Shim // as they came out last
	OutMM    float64
	In       []machine.Shim // in the last closing, dry or for good
	InMM     float64
	Readings []string // what the checks that they set say
	Want     *Want    // nil where no pack can be worked out
	Why      string   // why there is none
	Packs    []string // of what came out, that do
}

// Want is the thickness of pack that a trial reading asks for, mm.
type Want struct {
	FittedMM          float64
	LowMM, MM, HighMM float64
	ChangeMM          float64    // above zero is thicker
	Stays             bool       // the pack in the trial is within
	ReadMM            float64    // the float read; of several the last
	Float             shim.Float // and what is wanted of it
	Working           []string
	Say               string
}

// shimsOf gathers the shims of a joint; nil where it has none.
func (d *Desk) shimsOf(j *machine.Joint) *Shims {
	s := &Shims{Plan: j.Plan.Shims}
	for _, r := range slices.Backward(j.Removals) {
		if len(r.Shims) > 0 {
			s.Out = r.Shims
			break
		}
	}
	if n := len(j.Closings); n > 0 {
		s.In = j.Closings[n-1].Shims
	}
	if s.Plan == "" && len(s.Out)+len(s.In) == 0 {
		return nil
	}
	s.OutMM, s.InMM = thickness(s.Out), thickness(s.In)
	for _, c := range j.Checks {
		if c.By != machine.ByReading || c.When != machine.Made {
			continue
		}
		if f := d.finding(c); f.Read > 0 {
			s.Readings = append(s.Readings, f.Sentence)
		}
	}
	s.propose(d, j, setBy(j))
	return s
}

// setBy lists the checks that the shims of a joint set: lengths read directly
// once it is made.
func setBy(j *machine.Joint) []*machine.Check {
	var out []*machine.Check
	for _, c := range j.Checks {
		if c.By == machine.ByReading && c.Unit == "mm" && c.When == machine.Made {
			out = append(out, c)
		}
	}
	return out
}

// propose works out the pack where a thicker pack does one plain thing to one
// float, mm for mm, and that float was read on a trial build with a known pack.
// What acts on several readings at once is never worked out here.
func (s *Shims) propose(d *Desk, j *machine.Joint, checks []*machine.Check) {
	switch {
	case j.Plan.Thicker == "":
		s.Why = "What a thicker pack does here is not plain, or it does more than one thing. Build it dry, read, change one pack, read again, and reckon with both readings."
		return
	case len(checks) == 0:
		s.Why = "No check of this joint says what float is wanted."
		return
	}
	for _, c := range checks[1:] {
		if c.Type != checks[0].Type {
			s.Why = "More than one reading hangs on this pack (" + checks[0].Name + "; " + c.Name + "): choose it by hand."
			return
		}
	}
	last := lastTrial(j)
	if last == nil {
		s.Why = "Build it dry with a known pack and read the float; then the pack is worked out."
		return
	}
	fitted, from := thickness(last.Shims), fmt.Sprintf("Pack in the dry build %.2f mm, as written.", thickness(last.Shims))
	switch {
	case len(last.Shims) > 0:
	case len(s.Out) > 0:
		fitted, from = s.OutMM, fmt.Sprintf("Pack in the dry build %.2f mm: none was written there, so what came out is taken.", s.OutMM)
	default:
		fitted, from = anyPack, "The pack in the dry build was not written: only the change is known."
	}
	w, err := d.want(j, checks, *last, fitted)
	if err != nil {
		s.Why = spelling.Head(err.Error()) + "."
		return
	}
	w.Working = append([]string{from}, w.Working...)
	if fitted == anyPack {
		w.unknown()
	}
	s.Want = w
	s.choose()
}

// anyPack stands for a pack nobody measured, mm: thick enough for any change.
const anyPack = 100.0

// unknown leaves of a want only the change.
func (w *Want) unknown() {
	low, high := w.LowMM-anyPack, w.HighMM-anyPack
	w.FittedMM, w.LowMM, w.MM, w.HighMM = 0, 0, 0, 0
	w.Say = "What was in the dry build may stay."
	if !w.Stays {
		w.Say = fmt.Sprintf("%.2f mm %s in all than in the dry build (%+.2f to %+.2f do). Measure what is in.", math.Abs(w.ChangeMM), thicker(w.ChangeMM), low, high)
	}
}

// lastTrial is the dry build that the joint is in, or was in last in this
// round.
func lastTrial(j *machine.Joint) *machine.Closing {
	for i := range slices.Backward(j.Closings) {
		if j.Closings[i].As == machine.Trial {
			return &j.Closings[i]
		}
		if j.State != machine.Closed {
			return nil // closed for good and opened since: another round
		}
	}
	return nil
}

// want joins what every reading asks for: a pack has to suit them all.
// Method: shim.ForFloat for each. Errors: no reading since the dry build, no
// limits, and of the method; readings that no one pack suits.
func (d *Desk) want(j *machine.Joint, checks []*machine.Check, trial machine.Closing, fitted float64) (*Want, error) {
	w := &Want{FittedMM: fitted, LowMM: math.Inf(-1), HighMM: math.Inf(1)}
	for _, c := range checks {
		f := d.finding(c)
		if !readSince(c, trial) {
			return nil, fmt.Errorf("%s has not been read since the dry build", lower(c.Name))
		}
		float, err := floatOf(f)
		if err != nil {
			return nil, err
		}
		one, err := shim.ForFloat(fitted, metrology.Estimate{Value: f.Value, U: f.U}, float, shim.Sense(j.Plan.Thicker), 0)
		if err != nil {
			return nil, err
		}
		w.ReadMM, w.Float = f.Value, float
		w.LowMM, w.HighMM = max(w.LowMM, one.Lo), min(w.HighMM, one.Hi)
		w.Working = append(w.Working, fmt.Sprintf("%s read %.2f mm, wanted %.2f to %.2f (%s); a thicker pack %s it, mm for mm.",
			c.Name, f.Value, float.Lo, float.Hi, f.Limit.From, j.Plan.Thicker))
	}
	if w.LowMM > w.HighMM {
		return nil, errors.New("no one pack suits all readings: look for what stands wrong first")
	}
	w.LowMM = max(0, w.LowMM)
	w.MM = (w.LowMM + w.HighMM) / 2
	w.Stays = fitted >= w.LowMM && fitted <= w.HighMM
	w.ChangeMM = w.MM - fitted
	w.Say = fmt.Sprintf("Pack %.2f to %.2f mm, best %.2f: %.2f mm %s than in the dry build.", w.LowMM, w.HighMM, w.MM, math.Abs(w.ChangeMM), thicker(w.ChangeMM))
	if w.Stays {
		w.Say = fmt.Sprintf("The pack of %.2f mm may stay: %.2f to %.2f mm do.", fitted, w.LowMM, w.HighMM)
	}
	return w, nil
}

func thicker(change float64) string {
	if change < 0 {
		return "thinner"
	}
	return "thicker"
}

// floatOf is the float to build to: as good as new where that is known, else
// what is allowed; nothing below zero is asked for where there is no lower
// limit. Errors: no upper limit.
func floatOf(f *judge.Finding) (shim.Float, error) {
	lo, hi := f.Limit.NewLow, f.Limit.NewHigh
	if math.IsInf(lo, 0) {
		lo = f.Limit.Low
	}
	if math.IsInf(lo, 0) {
		lo = 0
	}
	if math.IsInf(hi, 0) {
		hi = f.Limit.High
	}
	if math.IsInf(hi, 0) || math.IsNaN(hi) || math.IsNaN(lo) || f.Limit.Missing != "" || lo > hi {
		return shim.Float{}, fmt.Errorf("%s has no limits to build to", lower(f.Check.Name))
	}
	return shim.Float{Lo: lo, Target: (lo + hi) / 2, Hi: hi}, nil
}

func readSince(c *machine.Check, trial machine.Closing) bool {
	return slices.ContainsFunc(c.Current(), func(r *machine.Reading) bool { return !r.At.Before(trial.At) })
}

// choose picks packs from what came out, where that is one pile.
func (s *Shims) choose() {
	if s.Want.Stays || s.Want.HighMM == 0 || len(s.Out) == 0 {
		return
	}
	var stock []shim.Shim
	for _, o := range s.Out {
		if o.Where != s.Out[0].Where {
			s.Why = "What came out sat in more than one place, so it is not chosen from."
			return
		}
		stock = append(stock, shim.Shim{MM: o.ThicknessMM, Count: max(o.Count, 1)})
	}
	slices.SortFunc(stock, func(a, b shim.Shim) int { return cmp.Compare(b.MM, a.MM) })
	answer, err := shim.OneGap(stock, shim.Want{Lo: s.Want.LowMM, Target: s.Want.MM, Hi: s.Want.HighMM})
	if err != nil {
		s.Why = fmt.Sprintf("What came out makes no such pack: get %.2f mm.", s.Want.MM)
		return
	}
	for _, p := range answer.Picks {
		s.Packs = append(s.Packs, p.Pack.String())
	}
}

func thickness(list []machine.Shim) float64 {
	mm := 0.0
	for _, s := range list {
		mm += s.ThicknessMM * float64(max(s.Count, 1))
	}
	return mm
}

// finding is the verdict on a check: the one given, else made now.
func (d *Desk) finding(c *machine.Check) *judge.Finding {
	if f := d.judged.Of(c.ID); f != nil {
		return f
	}
	if d.measured[c.ID] == nil {
		d.measured[c.ID] = judge.One(d.m, c)
	}
	return d.measured[c.ID]
}
