package web

import (
	"net/http"
	"strings"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// questionsView lists what the log says that could not be placed.
type questionsView struct {
	Base    string
	List    []questionRow
	Clashes []pointClash
}

type questionRow struct {
	Text, About, At string
	When            string
	Kind            string
	Entry           string
}

func questionsPage(v *visit) error {
	return v.show("questions", http.StatusOK, frame{Title: "Questions", Here: "Questions", Data: viewQuestions(v.view, v.base())})
}

func viewQuestions(v *bench.View, base string) questionsView {
	qv := questionsView{Base: base}
	qv.Clashes = pointClashes(v.Machine, base+"/questions", v.AsOf, func(machine.Clash) bool { return true })
	for _, q := range v.Machine.Questions {
		row := questionRow{Text: spelling.Head(q.Text) + ".", Entry: string(q.Entry), Kind: spelling.Head(strings.ReplaceAll(string(q.Kind), "-", " "))}
		row.Text = strings.ReplaceAll(row.Text, "..", ".")
		if !q.At.IsZero() {
			row.When = minute(q.At) + behind(", ", q.By)
		}
		row.About, row.At = refLink(v.Machine, base, q.About)
		qv.List = append(qv.List, row)
	}
	return qv
}

// refLink names what something is about, with its page where it has one.
func refLink(m *machine.Machine, base string, ref machine.Ref) (name, at string) {
	if ref == "" {
		return "", ""
	}
	switch id := ref.ID(); ref.Kind() {
	case "joint":
		if j := m.Joint(machine.JointID(id)); j != nil {
			return j.Name, jointAddress(base, j.ID)
		}
	case "part":
		if p := m.Part(machine.PartID(id)); p != nil {
			return p.Name, partAddress(base, p.ID)
		}
	}
	return refName(m, ref), ""
}
