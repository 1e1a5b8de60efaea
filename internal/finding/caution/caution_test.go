package caution

import (
	"encoding/csv"
	"os"
	"slices"
	"strings"
	"testing"

	"matchmark/internal/reftest"
	"matchmark/internal/trade/hydraulic"
)

// rowWord says which caution answers each row of the shared list of hazards.
var rowWord = map[string]string{
	"high-pressure fuel injection through skin":   "injection pressure",
	"hydraulic oil injection and stored pressure": "stored hydraulic pressure",
	"suspended load":                                      "lifting",
	"machine falling from jack":                           "jacking",
	"rollover and run-away":                               "first drive",
	"missing roll-over protection":                        "protective frame",
	"rotating PTO shaft entanglement":                     "power take-off",
	"rotating fan, belts and flywheel":                    "rotating",
	"runaway diesel":                                      "runaway engine",
	"starting fluid with glow plugs or heater":            "starting fluid",
	"compression kick":                                    "hand cranking",
	"carbon monoxide and diesel exhaust":                  "exhaust gas",
	"fuel vapour and fire":                                "fuel vapour",
	"hot work near fuel, oil, magnesium or coatings":      "hot work",
	"chlorinated solvent or brake cleaner before welding": "chlorinated solvent",
	"fluoroelastomer seals after fire or overheating":     "burned seal",
	"asbestos friction and gasket material":               "old lining dust",
	"lead and chromate paint":                             "lead paint",
	"isocyanate in two-pack paint":                        "two-pack paint",
	"solvent explosion and fume":                          "solvent",
	"silica and blasting dust":                            "blasting dust",
	"battery acid and hydrogen":                           "battery",
	"short circuit burn":                                  "short circuit",
	"pressurised coolant scald":                           "hot coolant",
	"ethylene glycol poisoning":                           "coolant poison",
	"spring under compression":                            "spring under load",
	"compressed air and pressurised parts":                "pressure air",
	"tyre and split-rim explosion":                        "tyre pressure",
	"calcium chloride ballast in tyre":                    "wheel ballast",
	"press and puller ejection":                           "press and puller",
	"grinding wheel burst and sparks":                     "grinding wheel",
	"hot part and oil burn":                               "hot metal",
	"noise":                                               "noise",
	"used engine oil on skin":                             "used oil",
	"manual handling":                                     "heavy part",
	"work alone":                                          "working alone",
	"brake failure at trial":                              "brake trial",
	"locked-out energy left":                              "stored energy",
	"eye injury":                                          "eye injury",
	"abandoned or unknown chemical":                       "unknown liquid",
}

// marks are words that a caution must keep from its row: what is done or who
// is asked. They are few, and each is what would hurt if it were lost.
var marks = map[string][]string{
	"injection pressure": {"card", "hospital"}, "stored hydraulic pressure": {"load down", "Never feel"},
	"lifting": {"under it", "sling"}, "jacking": {"stands"}, "first drive": {"Flat", "no rider"},
	"protective frame": {"weld", "certified"}, "power take-off": {"Guard", "engine off"}, "rotating": {"gloves", "Battery off"},
	"runaway engine": {"plate", "Never a hand"}, "starting fluid": {"glow plugs"}, "hand cranking": {"Thumb"},
	"exhaust gas": {"headache"}, "fuel vapour": {"Never weld"}, "hot work": {"extinguisher"}, "chlorinated solvent": {"dry"},
	"burned seal": {"bare hands"}, "old lining dust": {"asbestos", "no air"}, "lead paint": {"No dry sanding"},
	"two-pack paint": {"air-fed"}, "solvent": {"spark"}, "blasting dust": {"No silica"}, "battery": {"Goggles", "no spark"},
	"short circuit": {"Earth lead off"}, "hot coolant": {"50 °C", "first stop"}, "coolant poison": {"label"},
	"spring under load": {"compressor"}, "pressure air": {"2.1 bar", "Lock the crank"}, "tyre pressure": {"cage", "out of line"},
	"wheel ballast": {"twice"}, "press and puller": {"hardened"}, "grinding wheel": {"ring test", "3 mm"}, "hot metal": {"120 °C"},
	"noise": {"85 dB(A)"}, "used oil": {"Gloves"}, "heavy part": {"25 kg"}, "working alone": {"within call"},
	"brake trial": {"standing", "straight stop"}, "stored energy": {"tag"}, "eye injury": {"Goggles"}, "unknown liquid": {"label"},
}

// TestSafetyRows: each row of the shared list has its caution, and a
// publication is shown only where it was read. 17_safety has no ids; rows go
// by their hazard.
func TestSafetyRows(t *testing.T) {
	f, err := os.Open(reftest.Shared(t, "reference/17_safety.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	named, without := 0, 0
	for _, line := range lines[1:] {
		word, ok := rowWord[line[0]]
		c, written := Of(word)
		if !ok || !written {
			t.Errorf("row %q has no caution", line[0])
			continue
		}
		for _, m := range marks[word] {
			if !strings.Contains(c.Text, m) {
				t.Errorf("row %q: caution %q lost %q", line[0], word, m)
			}
		}
		if len(marks[word]) == 0 {
			t.Errorf("row %q: nothing of it is held by a mark", line[0])
		}
		if c.Publication != "" {
			named++
		} else {
			without++
		}
	}
	t.Logf("17_safety: %d rows, all with a caution; %d name a publication that was read, %d stand without", len(lines)-1, named, without)
}

// TestReadRowsName: rows that say their publication was read must show it.
func TestReadRowsName(t *testing.T) {
	for word, want := range map[string]string{"old lining dust": "1910.1001", "brake trial": "2015/68"} {
		if c, _ := Of(word); !strings.Contains(c.Publication, want) {
			t.Errorf("%s: publication %q, want %s", word, c.Publication, want)
		}
	}
}

func TestPapersWereRead(t *testing.T) {
	for _, w := range warnings {
		if (w.paper == "") != (w.seen == "") {
			t.Errorf("%s: paper %q, seen %q: one without the other", w.hazard, w.paper, w.seen)
		}
	}
	if c := (warning{hazard: "x", paper: "Some Standard"}).caution(""); c.Publication != "" {
		t.Errorf("a publication nobody read is shown: %q", c.Publication)
	}
}

// TestWording: short, whole sentences, each word written once, company known.
func TestWording(t *testing.T) {
	seen := map[string]bool{}
	for _, w := range warnings {
		if seen[w.hazard] {
			t.Errorf("%s is written twice", w.hazard)
		}
		seen[w.hazard] = true
		if n := len([]rune(w.text)); n < 30 || n > 240 {
			t.Errorf("%s: %d letters, want 30 to 240", w.hazard, n)
		}
		for act, text := range w.acts {
			if !strings.HasSuffix(text, ".") {
				t.Errorf("%s at %s: %q is no sentence", w.hazard, act, text)
			}
			if !slices.Contains([]string{"open", "undo", "clean", "collect", "check", "rework", "trial", "close", "test"}, act) {
				t.Errorf("%s: no such act %q", w.hazard, act)
			}
		}
		if !strings.HasSuffix(w.text, ".") {
			t.Errorf("%s: %q is no sentence", w.hazard, w.text)
		}
		for _, c := range w.company {
			if _, ok := find(c); !ok {
				t.Errorf("%s comes with %q, which is not written", w.hazard, c)
			}
		}
	}
}

func TestForKeepsEveryHazard(t *testing.T) {
	all := Hazards()
	got := For(append(slices.Clone(all), "falling piano", "falling piano", all[0]), "open")
	if len(got) != len(all)+1 {
		t.Fatalf("%d cautions for %d words and one unknown", len(got), len(all))
	}
	for i, h := range all {
		if got[i].Hazard != h {
			t.Errorf("place %d is %s, want %s: the worst come first", i, got[i].Hazard, h)
		}
	}
	last := got[len(got)-1]
	if last.Hazard != "falling piano" || !strings.Contains(last.Text, "falling piano") {
		t.Errorf("unknown word gave %+v", last)
	}
	if out := For(nil, "close"); len(out) != 0 {
		t.Errorf("no hazards gave %v", out)
	}
}

func TestActAddsAndNeverTakes(t *testing.T) {
	for _, h := range Hazards() {
		plain, _ := Of(h)
		for _, act := range []string{"open", "clean", "rework", "close", "test", "unheard of"} {
			for _, c := range For([]string{h}, act) {
				if c.Hazard == h && !strings.HasSuffix(c.Text, plain.Text) {
					t.Errorf("%s at %s lost its words: %q", h, act, c.Text)
				}
			}
		}
	}
	if c := For([]string{"battery"}, "open")[0]; !strings.HasPrefix(c.Text, "Earth lead off first.") {
		t.Errorf("battery at opening: %q", c.Text)
	}
}

func TestLiftingIsNotDoneAlone(t *testing.T) {
	got := For([]string{"lifting"}, "open")
	if len(got) != 2 || got[1].Hazard != "working alone" {
		t.Errorf("lifting gave %v", got)
	}
}

func TestRefusalsCarryNoFigure(t *testing.T) {
	ids := map[string]bool{}
	for _, r := range Refusals() {
		if ids[r.ID] {
			t.Errorf("%s is listed twice", r.ID)
		}
		ids[r.ID] = true
		if !strings.Contains(r.Answer(), NotRecoverable) || strings.ContainsAny(r.Answer(), "0123456789") || r.DeferTo == "" {
			t.Errorf("%s answers %q, deferring to %q", r.ID, r.Answer(), r.DeferTo)
		}
	}
	if NotRecoverable != hydraulic.NotRecoverable {
		t.Errorf("two answers: %q and %q", NotRecoverable, hydraulic.NotRecoverable)
	}
	if _, ok := Refused("hydraulic-pressure"); !ok {
		t.Error("hydraulic pressure is not refused")
	}
	if _, ok := Refused("valve lash"); ok {
		t.Error("valve lash is refused")
	}
}

func TestGates(t *testing.T) {
	for _, want := range []string{"stop reaches zero fuel", "rack free", "power take-off guard", "protective frame", "brakes", "steering"} {
		if !slices.ContainsFunc(Gates(), func(g Gate) bool { return g.Name == want && strings.HasSuffix(g.Proof, ".") }) {
			t.Errorf("no life gate %q", want)
		}
	}
}
