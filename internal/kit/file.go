// Package kit turns parameterised descriptions of usual assemblies into the
// entries of a machine. A kit is a TOML file that a person who is no
// programmer can read and edit; see docs/KITS.md.
package kit

// File is one kit as written.
type File struct {
	Kit        Head       `toml:"kit"`
	Counts     []Count    `toml:"count"`
	Choices    []Choice   `toml:"choice"`
	Places     []Places   `toml:"places"`
	Data       []Datum    `toml:"datum"`
	Assemblies []Assembly `toml:"assembly"`
	Parts      []Part     `toml:"part"`
	Joints     []Joint    `toml:"joint"`
	Checks     []Check    `toml:"check"`
	Tests      []Test     `toml:"test"`
	Cleaning   []Cleaning `toml:"cleaning"`
	Symptoms   []Symptom  `toml:"symptom"`
}

// Head names the kit. Uses lists other kits whose ids this one may name; where
// such a kit is not taken, what names it is left out.
type Head struct {
	ID      string   `toml:"id"`
	Title   string   `toml:"title"`
	Edition string   `toml:"edition"`
	About   string   `toml:"about"`
	Uses    []string `toml:"uses"`
}

// Count is a number asked when the kit is taken: cylinders = 3. Formulas name
// it: "cylinders + 1".
type Count struct {
	ID      string `toml:"id"`
	Ask     string `toml:"ask"` // "How many cylinders?"
	Default int    `toml:"default"`
	Least   int    `toml:"least"`
	Most    int    `toml:"most"`
}

// Choice is a question with words for answers: liners = "dry" or "wet" or
// "none". Items carry `only = "liners=dry"` to belong to some answers only;
// several answers are parted by "|", several conditions by ",".
type Choice struct {
	ID      string   `toml:"id"`
	Ask     string   `toml:"ask"`
	Answers []string `toml:"answers"`
	Default string   `toml:"default"`
}

// Places declares a family of places. Either Labels are given, or Count is a
// formula and the labels are 1, 2, 3 …. Under names the family above; Each
// gives the labels within one place of it: each = ["in", "ex"] under
// "cylinder" gives in-1, ex-1, in-2, ex-2 ….
type Places struct {
	Family string   `toml:"family"`
	Name   string   `toml:"name"`
	Count  string   `toml:"count"`
	Labels []string `toml:"labels"`
	Under  string   `toml:"under"`
	Each   []string `toml:"each"`
}

// Datum is a figure of the machine that limit formulas use.
type Datum struct {
	ID     string   `toml:"id"`
	Name   string   `toml:"name"`
	Unit   string   `toml:"unit"`
	Value  *float64 `toml:"value"`
	From   string   `toml:"from"`
	Source string   `toml:"source"`
}

// Assembly is a named group with its hours: low, likely, high.
type Assembly struct {
	ID      string    `toml:"id"`
	Name    string    `toml:"name"`
	System  string    `toml:"system"`
	Strip   []float64 `toml:"strip_hours"`
	Clean   []float64 `toml:"clean_hours"`
	Measure []float64 `toml:"measure_hours"`
	Build   []float64 `toml:"build_hours"`
	Only    string    `toml:"only"`
}

// Part of an assembly. Qty is a formula of pieces at each place.
type Part struct {
	ID       string    `toml:"id"`
	Name     string    `toml:"name"`
	Assembly string    `toml:"assembly"`
	Places   string    `toml:"places"`
	Qty      string    `toml:"qty"`
	Material string    `toml:"material"`
	Faults   []string  `toml:"faults"`
	Hazards  []string  `toml:"hazards"`
	OneUse   bool      `toml:"one_use"`
	MassKg   float64   `toml:"mass_kg"`
	Only     string    `toml:"only"`
	Features []Feature `toml:"feature"`
}

// Feature of a part: what is measured on it, and at which points.
type Feature struct {
	ID      string   `toml:"id"`
	Name    string   `toml:"name"`
	Sort    string   `toml:"sort"`
	Levels  []string `toml:"levels"`
	Axes    []string `toml:"axes"`
	Unworn  string   `toml:"unworn"`
	Tool    string   `toml:"tool"`
	Nominal float64  `toml:"nominal_mm"`
}

// Joint between parts. Behind lists what must be open first; Or holds further
// alternatives, each a list of its own.
type Joint struct {
	ID        string     `toml:"id"`
	Name      string     `toml:"name"`
	Assembly  string     `toml:"assembly"`
	Sort      string     `toml:"sort"`
	Places    string     `toml:"places"`
	Parts     []string   `toml:"parts"`
	Behind    []string   `toml:"behind"`
	Or        [][]string `toml:"or_behind"`
	Fasteners string     `toml:"fasteners"`
	Shims     string     `toml:"shims"`
	AtBuild   string     `toml:"at_build"`
	Tighten   string     `toml:"tighten"`
	Thread    string     `toml:"thread"`
	Grade     string     `toml:"grade"`
	Layout    string     `toml:"layout"`
	Into      string     `toml:"into"`
	Thicker   string     `toml:"thicker"`
	AsFound   []string   `toml:"as_found"`
	Hazards   []string   `toml:"hazards"`
	OneWay    bool       `toml:"one_way"`
	Dry       bool       `toml:"dry_build"`
	Life      bool       `toml:"guards_life"`
	Hours     float64    `toml:"hours"`
	Only      string     `toml:"only"`

	Reckon []Reckoning `toml:"reckon"`
}

// Check on joints or parts.
type Check struct {
	ID       string   `toml:"id"`
	Name     string   `toml:"name"`
	Assembly string   `toml:"assembly"`
	Places   string   `toml:"places"`
	Joints   []string `toml:"joints"`
	Parts    []string `toml:"parts"`
	When     string   `toml:"when"`
	Dry      bool     `toml:"on_dry_build"`
	By       string   `toml:"by"`
	Outer    string   `toml:"outer"`
	Inner    string   `toml:"inner"`
	Terms    []Term   `toml:"term"`
	Unit     string   `toml:"unit"`
	Says     string   `toml:"says"`
	How      string   `toml:"how"`
	Tool     string   `toml:"tool"`
	Repeats  int      `toml:"repeats"`
	Size     *Size    `toml:"size"`
	Limits   []Limit  `toml:"limit"`
	HiddenBy []string `toml:"hidden_by"`
	Hazards  []string `toml:"hazards"`
	Life     bool     `toml:"guards_life"`
	Remedies []Remedy `toml:"remedy"`
	Only     string   `toml:"only"`

	Reckon []Reckoning `toml:"reckon"`
}

// Reckoning asks the trade's arithmetic for a figure where it is wanted; see
// machine.Reckoning.
type Reckoning struct {
	Topic string            `toml:"topic"`
	Title string            `toml:"title"`
	With  map[string]string `toml:"with"`
	Only  string            `toml:"only"`
}

// Term is one size of a stack, with how many times it counts.
type Term struct {
	Feature string  `toml:"feature"`
	Times   float64 `toml:"times"`
}

// Size says what the letter in a limit's formulas stands for.
type Size struct {
	Symbol  string `toml:"symbol"`
	Feature string `toml:"feature"`
	Datum   string `toml:"datum"`
	Meaning string `toml:"meaning"`
}

// Limit bounds a check; see machine.Limit.
type Limit struct {
	NewLow    string `toml:"new_low"`
	NewHigh   string `toml:"new_high"`
	Low       string `toml:"low"`
	High      string `toml:"high"`
	NewWords  string `toml:"sound_words"`
	WornWords string `toml:"worn_words"`
	From      string `toml:"from"`
	Source    string `toml:"source"`
	Find      string `toml:"find"`
}

// Remedy for a worn check; see machine.Remedy.
type Remedy struct {
	Key     string    `toml:"key"`
	Name    string    `toml:"name"`
	Cost    float64   `toml:"cost_hours"`
	Days    float64   `toml:"days"`
	Where   string    `toml:"where"`
	Beware  string    `toml:"beware"`
	Group   string    `toml:"size_group"`
	Steps   []float64 `toml:"sizes_mm"`
	Renews  []string  `toml:"renews"`
	Reworks []string  `toml:"reworks"`
	Mends   []string  `toml:"mends"`
	Opens   []string  `toml:"opens"`
	Shifts  []Shift   `toml:"shift"`
	Odds    float64   `toml:"odds"`
}

// Shift of another check's value by a remedy.
type Shift struct {
	Check string  `toml:"check"`
	By    float64 `toml:"by"`
}

// Test of the proving stage.
type Test struct {
	ID      string   `toml:"id"`
	Name    string   `toml:"name"`
	System  string   `toml:"system"`
	Order   int      `toml:"order"`
	Needs   []string `toml:"needs"`
	Do      string   `toml:"do"`
	Pass    string   `toml:"pass"`
	Points  []string `toml:"points_to"` // check, joint or part ids
	Tool    string   `toml:"tool"`
	From    string   `toml:"from"`
	Source  string   `toml:"source"`
	Caution string   `toml:"caution"`
	Hazards []string `toml:"hazards"`
	Life    bool     `toml:"guards_life"`
	Only    string   `toml:"only"`

	Reckon []Reckoning `toml:"reckon"`
}

// Cleaning of a material: what may touch it and what must not.
type Cleaning struct {
	ID        string   `toml:"id"`
	For       []string `toml:"for"`
	Permitted []string `toml:"permitted"`
	Forbidden []Forbid `toml:"forbidden"`
}

// Forbid is a method not to be used, and why.
type Forbid struct {
	What string `toml:"what"`
	Why  string `toml:"why"`
}

// Symptom and its suspects.
type Symptom struct {
	ID       string    `toml:"id"`
	Text     string    `toml:"text"`
	When     string    `toml:"when"`
	Suspects []Suspect `toml:"suspect"`
	Next     string    `toml:"next"`
}

// Suspect is a check, joint or part a symptom may come from.
type Suspect struct {
	Of     string  `toml:"of"`
	Weight float64 `toml:"weight"`
	Words  string  `toml:"words"`
}
