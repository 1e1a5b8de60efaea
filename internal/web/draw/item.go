package draw

// Item is one part as the sheets see it. Number is its number all over the
// machine; like parts at several places stand one after another and share
// Type. State is one of "on", "off", "judged", "held", "away" and "built".
type Item struct {
	ID       string
	Type     string
	Number   int
	Name     string // with its place: "Piston, cylinder 2"
	Kind     string // without: "Piston"
	Place    string // "2", "left", "1 in"; empty where there is only one
	Family   string // what the places are: "cylinder"; empty where there is only one
	Sheet    string // id of its assembly
	Material string
	Qty      int
	MassKg   float64
	Bores    int
	Journals int
	Teeth    int      // 0 where not known
	Meets    []string // types of the parts it is joined to
	State    string
}
