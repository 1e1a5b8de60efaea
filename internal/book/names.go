package book

import (
	"strings"

	"matchmark/internal/machine"
)

// typeName is a part's name without its place: "Piston" for "Piston, cylinder 2".
func (s *sheet) typeName(p *machine.Part) string { return withoutPlace(p.Name, p.Place) }

// withoutPlace takes the place off the end of a name.
func withoutPlace(name string, at machine.Place) string {
	if at == "" {
		return name
	}
	if i := strings.LastIndex(name, ", "); i > 0 && strings.HasSuffix(name, string(at)) {
		return name[:i]
	}
	return name
}

// checkType is a check's name without its place.
func (s *sheet) checkType(c *machine.Check) string { return withoutPlace(c.Name, c.Place) }

// checkTypes names checks without their places, each once.
func (s *sheet) checkTypes(ids []machine.CheckID) []string {
	var out []string
	for _, id := range ids {
		if c := s.m.Check(id); c != nil {
			out = append(out, s.checkType(c))
		}
	}
	return unique(out)
}

// places joins what stands behind the names of like parts: "cylinder 1, 2".
func (s *sheet) places(ids []machine.PartID) string {
	var out []string
	for _, id := range ids {
		p := s.m.Part(id)
		if p == nil || p.Place == "" {
			continue
		}
		word := strings.TrimPrefix(p.Name, s.typeName(p)+", ")
		if len(out) > 0 {
			word = string(p.Place)
		}
		out = append(out, word)
	}
	return strings.Join(out, ", ")
}

func forWhat(names []string) string {
	if len(names) == 0 {
		return "."
	}
	return ", for " + strings.Join(names, "; ") + "."
}

func behind(mark, text string) string {
	if text == "" {
		return ""
	}
	return mark + text
}

func orSomebody(name string) string {
	if name == "" {
		return "somebody"
	}
	return name
}
