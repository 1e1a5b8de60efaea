package kit

import (
	"fmt"
	"slices"
	"strings"
)

// condition is one part of an `only`: the choice must have one of the answers.
type condition struct {
	Choice  string
	Answers []string
}

// conditions reads "liners=dry|wet,cooling=water". An empty text has none.
func conditions(only string) ([]condition, error) {
	if strings.TrimSpace(only) == "" {
		return nil, nil
	}
	var out []condition
	for _, part := range strings.Split(only, ",") {
		choice, answers, ok := strings.Cut(part, "=")
		c := condition{Choice: strings.TrimSpace(choice)}
		for _, a := range strings.Split(answers, "|") {
			c.Answers = append(c.Answers, strings.TrimSpace(a))
		}
		if !ok || c.Choice == "" || slices.Contains(c.Answers, "") {
			return nil, fmt.Errorf("%q does not read as choice=answer", strings.TrimSpace(part))
		}
		out = append(out, c)
	}
	return out, nil
}

// holds tells whether the choices made meet every condition. A choice that is
// not among them meets none.
func holds(list []condition, choices map[string]string) bool {
	for _, c := range list {
		if !slices.Contains(c.Answers, choices[c.Choice]) {
			return false
		}
	}
	return true
}
