package fastener

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"matchmark/reference"
)

// Thread is a screw thread by its basic sizes.
type Thread struct {
	Designation string
	Series      string
	D           float64 // nominal diameter, mm
	Pitch       float64 // mm
	Flank       float64 // angle between the flanks, degrees
	Tapered     bool
	LeastD      float64 // smallest outer diameter of the bolt, less D, mm
	Source      string
}

const threadFile = "thread.csv"

// List is threads to look up by name.
type List []Thread

// Threads lists the threads of the reference table in its order. The list is
// shared and not to be changed.
// Errors: a cell that is not a number, with file and line.
func Threads() (List, error) { return threads() }

// threads is read from the embedded table once; it is the same ever after.
var threads = sync.OnceValues(readThreads)

func readThreads() (List, error) {
	tab, err := reference.Read(threadFile)
	if err != nil {
		return nil, err
	}
	list := make(List, 0, len(tab.Rows))
	for _, row := range tab.Rows {
		t := Thread{Designation: row.Text("designation"), Series: row.Text("series"), Source: row.Text("source")}
		taper := 0.0
		for _, c := range []struct {
			name string
			into *float64
		}{{"d", &t.D}, {"pitch", &t.Pitch}, {"angle", &t.Flank}, {"taper", &taper}, {"d_lo", &t.LeastD}} {
			if *c.into, err = strconv.ParseFloat(row.Text(c.name), 64); err != nil {
				return nil, fmt.Errorf("threads: %s: column %s is %q; a number was wanted", row.Where(), c.name, row.Text(c.name))
			}
		}
		t.Tapered = taper != 0
		if n := perInch(t.Designation); n > 0 { // the table rounds an inch pitch
			t.Pitch = 25.4 / n
		}
		list = append(list, t)
	}
	return list, nil
}

// perInch reads the threads per inch of "1-1/8-7 UNC"; 0 where there are none.
func perInch(designation string) float64 {
	head, _, found := strings.Cut(designation, " ")
	cut := strings.LastIndexByte(head, '-')
	if !found || cut < 0 {
		return 0
	}
	n, err := strconv.ParseFloat(head[cut+1:], 64)
	if err != nil {
		return 0
	}
	return n
}

// Named finds a thread in the reference table; see List.Named. Errors: as
// Threads and List.Named.
func Named(text string) (Thread, error) {
	list, err := Threads()
	if err != nil {
		return Thread{}, err
	}
	return list.Named(text)
}

// Named finds a thread: "M10", "M12x1.25", "M12 × 1,25", "1/2-20 UNF", "1/2
// UNF". M10 alone is the coarse thread, as ISO 261 has it; a fine one must be
// named with its pitch, for M10 is cut 1.25 or 1.0 and M12 1.25 or 1.5.
// Errors: UnknownThreadError, with the threads of that diameter.
func (l List) Named(text string) (Thread, error) {
	want := plain(text)
	e := UnknownThreadError{Text: text}
	wantSize := strings.TrimRight(want, "ABCDEFGHIJKLNOPQRSTUVWXYZ")
	wantSize, _, _ = strings.Cut(wantSize, "X")
	for _, t := range l {
		size, series := sizeOf(t.Designation)
		if plain(t.Designation) == want || series != "" && size+series == want {
			return t, nil
		}
		if size == wantSize {
			e.Known = append(e.Known, t.Designation)
		}
	}
	return Thread{}, e
}

// sizeOf parts "1/2-13 UNC" into "1/2" and "UNC", and "M12x1.25" into "M12"
// and nothing.
func sizeOf(designation string) (size, series string) {
	number, series, _ := strings.Cut(designation, " ")
	if cut := strings.LastIndexByte(number, '-'); cut > 0 {
		number = number[:cut]
	}
	size, _, _ = strings.Cut(plain(number), "X")
	return size, plain(series)
}

// plain is a designation without blanks, in capitals, with point and x.
func plain(text string) string { return tidy.Replace(strings.ToUpper(text)) }

var tidy = strings.NewReplacer(" ", "", "×", "X", ",", ".", "*", "X")

// UnknownThreadError says that a thread is not in the table and names those of
// its diameter.
type UnknownThreadError struct {
	Text  string
	Known []string
}

func (e UnknownThreadError) Error() string {
	if len(e.Known) == 0 {
		return fmt.Sprintf("thread %q is not known; a designation such as M10, M12x1.25 or 1/2-20 UNF was wanted", e.Text)
	}
	return fmt.Sprintf("thread %q is not known; measure the pitch over ten threads: it may be %s", e.Text, strings.Join(e.Known, ", "))
}

// Twins lists the other pitches that a diameter is cut with in the same
// system, for a thread whose pitch was not measured.
func (l List) Twins(t Thread) []string {
	var out []string
	for _, o := range l {
		if o.D == t.D && o.Flank == t.Flank && o.Designation != t.Designation && !o.Tapered {
			out = append(out, o.Designation)
		}
	}
	slices.Sort(out)
	return out
}

// whitworth tells the 55° threads from the 60° ones.
func (t Thread) whitworth() bool { return t.Flank == 55 }

// PitchDiameter is d₂ in mm: d − 0.649519·P, for 55° d − 0.640327·P.
// Source: ISO 68-1 and ISO 724; BS 84, from memory.
func (t Thread) PitchDiameter() float64 {
	if t.whitworth() {
		return t.D - 0.640327*t.Pitch
	}
	return t.D - 0.649519*t.Pitch
}

// NutMinor is D₁, the inner diameter of the nut, mm: d − 1.082532·P, for 55°
// d − 1.280654·P. Source: as PitchDiameter.
func (t Thread) NutMinor() float64 {
	if t.whitworth() {
		return t.D - 1.280654*t.Pitch
	}
	return t.D - 1.082532*t.Pitch
}

// Root is d₃, the diameter of the bolt at the bottom of the thread, mm:
// d − 1.226869·P, for 55° d − 1.280654·P. Source: as PitchDiameter.
func (t Thread) Root() float64 {
	if t.whitworth() {
		return t.D - 1.280654*t.Pitch
	}
	return t.D - 1.226869*t.Pitch
}

// stressDiameter is the diameter of the circle of StressArea, mm.
func (t Thread) stressDiameter() float64 {
	if strings.HasPrefix(t.Series, "UN") {
		return t.D - 0.9743*t.Pitch // ASME B1.1, from memory: 0.7854·(D − 0.9743/n)²
	}
	return (t.PitchDiameter() + t.Root()) / 2
}

// StressArea is the area that the thread carries with, mm²: π/4·((d₂+d₃)/2)²,
// for the unified threads π/4·(D − 0.9743·P)².
// Source: ISO 898-1; ASME B1.1, from memory. The standards print it to three
// figures.
func (t Thread) StressArea() float64 {
	d := t.stressDiameter()
	return math.Pi / 4 * d * d
}
