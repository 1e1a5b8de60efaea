package judge

import (
	"fmt"
	"math"
	"strings"

	"matchmark/internal/machine"
	"matchmark/internal/trade/metrology"
	"matchmark/internal/trade/quantity"
)

// correction is what the reading of a setting piece does to the readings after
// it; shift is in the unit held inside and zero where err says why it cannot be
// used.
type correction struct {
	shift metrology.Estimate
	words string
	err   error
}

// correctionKey names a reading of a setting piece as shown in a unit, with the
// instrument to assume.
type correctionKey struct {
	set   *machine.Setting
	usual string
	unit  string
}

// correction finds the correction of a reading; nil where no setting piece was
// read before it.
func (b *bench) correction(r *machine.Reading, usual string, s scale) *correction {
	if r.Set == nil {
		return nil
	}
	key := correctionKey{r.Set, usual, s.unit}
	k, known := b.corrections[key]
	if !known {
		k = b.readSetting(r, usual, s)
		b.corrections[key] = k
	}
	return k
}

func (b *bench) readSetting(r *machine.Reading, usual string, s scale) *correction {
	set, k := r.Set, &correction{}
	k.shift, k.err = b.settingShift(r, usual, s)
	name := "setting piece " + quote(set.Setting)
	if k.err != nil {
		k.shift = metrology.Estimate{}
		k.words = fmt.Sprintf("%s not used: %v", name, k.err)
		return k
	}
	at := ""
	if set.TempC != nil {
		at = fmt.Sprintf(" at %s °C, taken as steel", figure(*set.TempC, -1))
	}
	off := s.factor * k.shift.Value
	does := choose(off < 0, "too little, added to", "too much, taken off")
	k.words = fmt.Sprintf("%s of %s read %s%s: the gauge shows %s%s %s every reading after it; u %s, the same in all of them",
		name, typed(set.Nominal), typed(set.Read), at, strings.TrimPrefix(signed(math.Abs(off)), "+"), space(s.unit), does, tiny(math.Abs(s.factor)*k.shift.U))
	return k
}

// settingShift works in the unit held inside. A piece read cold is steel, and
// as cold as the gauge: the shift then holds what the cold does to the gauge.
func (b *bench) settingShift(r *machine.Reading, usual string, s scale) (metrology.Estimate, error) {
	var none metrology.Estimate
	size, _, err := s.hold(r.Set.Nominal)
	if err != nil {
		return none, err
	}
	shown, step, err := s.hold(r.Set.Read)
	if err != nil {
		return none, err
	}
	piece := metrology.Estimate{Value: size}
	if r.Set.TempC != nil && s.dim == quantity.Length {
		steel, _ := metrology.MaterialByID("steel")
		piece, err = metrology.AtTemperature(piece, steel, metrology.Estimate{Value: *r.Set.TempC, U: tempU})
		if err != nil {
			return none, err
		}
	}
	g := b.pick(r.Set.Tool, usual, s)
	return metrology.SettingShift(piece, shown, g.ReadTo(max(g.Step, step)))
}

// setEntry names the reading of the setting piece, for an order that does not
// depend on addresses.
func (g *gauge) setEntry() string {
	if g.set == nil {
		return ""
	}
	return string(g.set.Entry)
}
