package kit

import (
	"sort"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Lines tells on which line of the file an item or one of its fields stands.
// Keys are paths: "check.3", "check.3.limit.0.high", "joint.1.or_behind.0.2".
// Lists count from 0.
type Lines map[string]int

// Of is the line of a path, or of the nearest thing around it that is known;
// 1 where nothing is.
func (l Lines) Of(path string) int {
	for path != "" {
		if n, ok := l[path]; ok {
			return n
		}
		cut := strings.LastIndexByte(path, '.')
		if cut < 0 {
			break
		}
		path = path[:cut]
	}
	return 1
}

// scan finds the lines of everything in a text that has been decoded without
// error before. Cost: linear in the text.
func scan(text []byte) Lines {
	s := &scanner{lines: Lines{}, tables: map[string]int{}}
	for i, b := range text {
		if b == '\n' {
			s.breaks = append(s.breaks, i)
		}
	}
	var p unstable.Parser
	p.Reset(text)
	base := ""
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			base = s.header(e)
		case unstable.KeyValue:
			s.pair(base, e)
		}
	}
	return s.lines
}

// scanner walks the text once, keeping how many tables of each list it met.
type scanner struct {
	lines  Lines
	tables map[string]int
	breaks []int // offsets of line ends
}

// mark keeps the line of an offset for a path, the first time it is met.
func (s *scanner) mark(path string, at unstable.Range) {
	if _, known := s.lines[path]; known || at.Length == 0 {
		return
	}
	s.lines[path] = 1 + sort.SearchInts(s.breaks, int(at.Offset))
}

// header enters [a.b] or [[a.b]] and returns the path of its table.
func (s *scanner) header(e *unstable.Node) string {
	path := ""
	for it := e.Key(); it.Next(); {
		k := it.Node()
		path = join(path, string(k.Data))
		if e.Kind == unstable.ArrayTable && it.IsLast() {
			s.tables[path]++
		}
		if n := s.tables[path]; n > 0 {
			path = join(path, strconv.Itoa(n-1))
		}
		if it.IsLast() {
			s.mark(path, k.Raw)
		}
	}
	return path
}

// pair marks a key and what is inside its value.
func (s *scanner) pair(base string, e *unstable.Node) {
	path := base
	for it := e.Key(); it.Next(); {
		path = join(path, string(it.Node().Data))
		s.mark(path, it.Node().Raw)
	}
	s.value(path, e.Value())
}

// value marks the members of a list and the keys of an inline table.
func (s *scanner) value(path string, v *unstable.Node) {
	switch v.Kind {
	case unstable.Array:
		i := 0
		for it := v.Children(); it.Next(); i++ {
			member := join(path, strconv.Itoa(i))
			s.mark(member, it.Node().Raw)
			s.value(member, it.Node())
		}
	case unstable.InlineTable:
		for it := v.Children(); it.Next(); {
			s.pair(path, it.Node())
		}
	}
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
