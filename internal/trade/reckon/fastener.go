package reckon

import (
	"fmt"
	"slices"

	"matchmark/internal/trade/fastener"
	"matchmark/internal/trade/quantity"
)

const (
	fasteners  = "Fasteners"
	boltSource = "VDI 2230-1, three-term relation and friction classes; ISO 898-1 and SAE J429 for strength"
	boltSure   = "a range: friction is never known to a point. The paperwork of the machine comes first"
	boltHazard = "A bolt that yields or strips lets go without warning. Stop if it turns without getting tighter."
)

func fastenerTopics() []Topic {
	return []Topic{
		{Name: "torque", Title: "torque of a bolt, as a range, with the guards against yielding and stripping", Group: fasteners,
			Inputs: slices.Concat(jointInputs(), []Input{shareInput()}, seatInputs()),
			Source: boltSource, Sure: boltSure, Do: torque,
			Example: []string{"thread=M10x1.25", "class=8.8", "friction=clean and oiled", "into=cast iron", "engaged=16"}},
		{Name: "preload", Title: "what a torque clamps with, and how near it brings the bolt to yield", Group: fasteners,
			Inputs: append(jointInputs(), ofDim("torque", "torque that was put on", quantity.Torque, "N·m").need()),
			Source: boltSource, Sure: boltSure, Do: preload,
			Example: []string{"thread=M12", "class=10.9", "torque=110 N·m"}},
		{Name: "stripping", Title: "does a tapped hole hold the bolt, and how much thread it needs", Group: fasteners,
			Inputs: append(append(jointInputs()[:2], needSeat()...), shareInput()),
			Source: "FED-STD-H28 and VDI 2230-1 shear of threads, from memory; strengths of old castings from memory",
			Sure:   "a guess on the weak side: an old casting has no certificate", Do: stripping,
			Example: []string{"thread=M8", "class=8.8", "into=aluminium", "engaged=14"}},
		{Name: "thread", Title: "basic sizes of a thread, and what else the diameter is cut with", Group: fasteners,
			Inputs: []Input{threadInput()},
			Source: "ISO 68-1, ISO 724, ISO 898-1; BS 84 and ASME B1.1 from memory", Sure: "exact arithmetic on the basic profile", Do: thread,
			Example: []string{"thread=M12x1.5"}},
		{Name: "bolt-stretch", Title: "how much longer a bolt gets as it is tightened", Group: fasteners,
			Inputs: append(jointInputs()[:2], length("neck", "thinnest diameter of a waisted bolt; left out, none"), shareInput(),
				length("shank", "plain shank within the grip").need(), length("free", "free thread within the grip").deflt("0")),
			Source: "Hooke; modulus of bolt steel 205 GPa, from memory", Sure: "some per cent: head and nut give a little more", Do: boltStretch,
			Example: []string{"thread=M12x1.25", "class=10.9", "shank=60", "free=20"}},
		{Name: "reuse", Title: "may a bolt that came out go back", Group: fasteners,
			Inputs: []Input{yesNo("stretch", "tightened by angle or into yield, or the book says to renew it"),
				length("length", "length of a new one, or of the shortest of the set"), length("grown", "how much longer than that it is"),
				yesNo("necked", "thinner somewhere along thread or shank"), yesNo("damaged", "a nut does not run down by hand"),
				yesNo("pitted", "rust has left pits"), yesNo("bent", "it is bent"), yesNo("cracked", "a crack is seen")},
			Source: "common practice, no source; growth of 0.1 % our own figure, half of what ISO 898-1 calls yield",
			Sure:   "for what was looked at only; a crack under the head hides from the eye", Do: reuse,
			Example: []string{"length=82.00", "grown=0.03"}},
		{Name: "crowfoot", Title: "what to set a torque wrench to with a crowfoot or bar beyond its square", Group: fasteners,
			Inputs: []Input{ofDim("torque", "torque wanted at the bolt", quantity.Torque, "N·m").need(),
				length("wrench", "from the middle of the grip to the square").need(), length("offset", "from the square to the bolt").need(),
				ofDim("angle", "between bar and handle: 0 straight on, 90 square, 180 turned back", quantity.Angle, "deg").deflt("0")},
			Source: "lever arms; common practice, no source", Sure: "exact for a hand at the middle of the grip; a few per cent as held", Do: crowfoot,
			Example: []string{"torque=60", "wrench=400", "offset=50"}},
	}
}

func needSeat() []Input {
	in := seatInputs()
	in[0].Needed, in[1].Needed = true, true
	return in
}

func torque(v Values) (Answer, error) {
	j, err := v.joint()
	if err != nil {
		return Answer{}, err
	}
	a, err := j.Advise(v.num("share"))
	if err != nil {
		return Answer{}, err
	}
	out := Answer{Source: a.Source, Cautions: []string{boltHazard}, Marked: v.doubts(j)}
	if j.Friction.Advice != "" {
		out.Cautions = append(out.Cautions, j.Friction.State+": "+j.Friction.Advice)
	}
	out.Lines = []Line{
		between("torque", a.UseNM.Lo, a.UseNM.Hi, "N·m", 1).with("in it the aim may be met, below it never"),
		value("0.9 of yield is reached at", a.LimitNM, "N·m", 1).with("at the lowest friction; never above"),
		value("preload aimed at", a.PreloadN/1000, "kN", 1),
		between("clamp to expect over that range", a.ClampN.Lo/1000, a.ClampN.Hi/1000, "kN", 1),
	}
	if a.Cut {
		out.Lines = append(out.Lines, say("cut", "the range is cut where the bolt nears yield: at high friction the aim is not reached"))
	}
	out.Working = []string{
		fmt.Sprintf("preload = %.0f %% × proof stress %g MPa × stress area = %.0f N", 100*a.Share, j.Class.Proof, a.PreloadN),
		fmt.Sprintf("torque = preload × (pitch/2π + friction of thread and head at their radii), friction %.2f to %.2f, gives %.1f to %.1f N·m", j.Friction.Thread.Lo, j.Friction.Thread.Hi, a.NeedNM.Lo, a.NeedNM.Hi),
		fmt.Sprintf("pull and twist at 0.9 × %g MPa give %.1f N·m at friction %.2f", j.Class.Yield, a.LimitNM, j.Friction.Thread.Lo),
	}
	if !v.has("into") && !v.has("engaged") {
		return out, nil
	}
	seat, err := v.seat(j, a.PreloadN)
	if err != nil {
		return Answer{}, err
	}
	out.Lines = append(out.Lines, seatLines(seat)...)
	out.Marked = append(out.Marked, "strength of the metal round the thread: "+seat.Source)
	return out, nil
}

func (v Values) seat(j fastener.Joint, preloadN float64) (fastener.Seated, error) {
	if !v.has("into") || !v.has("engaged") {
		return fastener.Seated{}, MissingError{Topic: v.Topic, Inputs: slices.DeleteFunc(needSeat()[:2], func(in Input) bool { return v.has(in.Key) })}
	}
	parent, err := fastener.ParentOf(v.word("into"))
	if err != nil {
		return fastener.Seated{}, err
	}
	return j.Seat(fastener.Seat{Parent: parent, Engagement: v.num("engaged"), Insert: v.is("insert")}, preloadN)
}

func seatLines(s fastener.Seated) []Line {
	verdict := "the tapped hole holds this preload"
	if !s.Holds {
		verdict = "the tapped hole may strip before this preload: more thread, an insert, or less torque"
	}
	return []Line{say("tapped hole", verdict),
		value("preload that the hole may be given", s.HoldsN/1000, "kN", 1).on(fmt.Sprintf("weakest strength over a margin of %.2f, our own figure", fastener.Margin)),
		between("load that strips it", s.StripN.Lo/1000, s.StripN.Hi/1000, "kN", 1).on(s.Source),
		value("thread needed for this preload", s.NeedMM, "mm", 1),
		between("thread by rule of thumb", s.RuleMM.Lo, s.RuleMM.Hi, "mm", 1).on("common practice, no source"),
		say("gives way first", s.Weakest)}
}

func stripping(v Values) (Answer, error) {
	j, err := v.bare()
	if err != nil {
		return Answer{}, err
	}
	n := v.num("share") * j.Class.ProofLoad(j.Thread)
	seat, err := v.seat(j, n)
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: append(seatLines(seat), value("preload asked of it", n/1000, "kN", 1)),
		Working:  []string{fmt.Sprintf("preload = %.0f %% of the proof load = %.0f N; holds = shear strength × shear area of the bearing thread ÷ %.2f = %.0f N", 100*v.num("share"), n, fastener.Margin, seat.HoldsN)},
		Cautions: []string{boltHazard, "A thin boss bursts before it strips; this looks at solid metal only."},
		Marked:   []string{"strength of the metal round the thread: " + seat.Source}}, nil
}

// bare is a bolt whose head and friction do not matter; both are filled with
// something possible, for the joint is checked as a whole.
func (v Values) bare() (fastener.Joint, error) {
	t, err := fastener.Named(v.word("thread"))
	if err != nil {
		return fastener.Joint{}, err
	}
	c, err := fastener.ClassOf(t, v.word("class"))
	if err != nil {
		return fastener.Joint{}, err
	}
	head, err := fastener.Across(1.6*t.D, 1.1*t.D)
	return fastener.Joint{Thread: t, Class: c, Head: head, Friction: fastener.Frictions()[0], Neck: v.num("neck")}, err
}

func preload(v Values) (Answer, error) {
	j, err := v.joint()
	if err != nil {
		return Answer{}, err
	}
	g, err := j.Guard(v.num("torque"))
	if err != nil {
		return Answer{}, err
	}
	k, err := j.NutFactor()
	if err != nil {
		return Answer{}, err
	}
	verdict := "stays below 0.9 of the yield"
	if g.TooMuch {
		verdict = "passes 0.9 of the yield where friction is low: too much for this bolt"
	}
	return Answer{Cautions: []string{boltHazard}, Marked: v.doubts(j), Lines: []Line{
		between("clamp", g.ClampN.Lo/1000, g.ClampN.Hi/1000, "kN", 1),
		value("pull and twist over yield", 100*g.YieldShare, "%", 0).with(verdict),
		between("nut factor K of T = K·F·d", k.Lo, k.Hi, "", 3)},
		Working: []string{fmt.Sprintf("clamp = torque ÷ (pitch/2π + friction at thread and head radii), friction %.2f to %.2f", j.Friction.Thread.Lo, j.Friction.Thread.Hi)}}, nil
}

func thread(v Values) (Answer, error) {
	t, err := fastener.Named(v.word("thread"))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Source: t.Source, Lines: []Line{
		say("thread", t.Designation+", "+t.Series), value("diameter", t.D, "mm", 3), value("pitch", t.Pitch, "mm", 4).with(fmt.Sprintf("%.2f threads an inch", 25.4/t.Pitch)),
		value("pitch diameter", t.PitchDiameter(), "mm", 3), value("inner diameter of the nut", t.NutMinor(), "mm", 3).with("about the tapping drill"),
		value("root of the bolt", t.Root(), "mm", 3), value("stress area", t.StressArea(), "mm²", 1), value("engagement at equal strength", t.EqualStrength(), "mm", 1)}}
	list, err := fastener.Threads()
	if err != nil {
		return Answer{}, err
	}
	if twins := list.Twins(t); len(twins) > 0 {
		a.Lines = append(a.Lines, say("also cut as", join(twins, ", ")))
		a.Cautions = []string{"Never force a bolt of another pitch: measure with a pitch gauge."}
	}
	return a, nil
}

func boltStretch(v Values) (Answer, error) {
	j, err := v.bare()
	if err != nil {
		return Answer{}, err
	}
	n := v.num("share") * j.Class.ProofLoad(j.Thread)
	mm, err := j.Stretch(n, v.num("shank"), v.num("free"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("gets longer by", mm, "mm", 3), value("at a preload of", n/1000, "kN", 1)},
		Working: []string{fmt.Sprintf("F·L/(E·A) over shank and free thread, F = %.0f N, E = %.0f MPa", n, fastener.SteelModulus)}}, nil
}

func crowfoot(v Values) (Answer, error) {
	set, err := fastener.WrenchSetting(v.num("torque"), v.num("wrench"), v.num("offset"), v.num("angle"))
	if err != nil {
		return Answer{}, err
	}
	return Answer{Lines: []Line{value("set the wrench to", set, "N·m", 1)},
		Working: []string{fmt.Sprintf("%g × %g / (%g + %g·cos %g°) = %.2f", v.num("torque"), v.num("wrench"), v.num("wrench"), v.num("offset"), v.num("angle"), set)}}, nil
}
