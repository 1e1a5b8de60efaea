package web

import (
	"fmt"
	"strconv"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
	"matchmark/internal/trade/spelling"
)

// setRow is one line of fasteners or shims as typed.
type setRow struct {
	N                  int
	Count, Size, Where string
	State              string
	States             []option
}

// How many lines of fasteners and of shims a form has at least; mostLines is
// what one form may bring.
const (
	setLines  = 4
	shimLines = 3
	mostLines = 20
)

// fastenerStates are the ways a fastener comes out, sound first.
var fastenerStates = []string{"", "broken", "missing", "stretched", "bent", "rounded", "stripped", "seized", "loose"}

// setRows gives the lines of a form, with what was typed in them.
func (v *visit) setRows(name string, n int) []setRow {
	for n < mostLines && (v.typed(fmt.Sprintf("%s-count-%d", name, n)) != "" || v.typed(fmt.Sprintf("%s-size-%d", name, n)) != "") {
		n++
	}
	rows := make([]setRow, n)
	for i := range rows {
		field := func(s string) string { return v.typed(fmt.Sprintf("%s-%s-%d", name, s, i)) }
		rows[i].N = i
		rows[i] = rows[i].with(field("count"), field("size"), field("where"), field("state"))
	}
	return rows
}

// with fills a line.
func (r setRow) with(count, size, where, state string) setRow {
	out := setRow{N: r.N, Count: count, Size: size, Where: where, State: state}
	for _, s := range fastenerStates {
		word := s
		if s == "" {
			word = "sound"
		}
		out.States = append(out.States, option{s, word, s == state})
	}
	return out
}

// blank tells whether nothing was typed in any line.
func blank(rows []setRow) bool {
	for _, r := range rows {
		if r.Count != "" || r.Size != "" {
			return false
		}
	}
	return true
}

// fastenersTyped reads the lines of fasteners; an empty line is none.
func fastenersTyped(rows []setRow) ([]machine.Fastener, string) {
	var out []machine.Fastener
	for _, r := range rows {
		if r.Count == "" && r.Size == "" {
			continue
		}
		n, err := strconv.Atoi(r.Count)
		if err != nil || n < 1 || n > 999 {
			return nil, fmt.Sprintf("“%s” is no count of fasteners. Nothing was kept yet; give how many of %s.", clip(r.Count, 20), clip(r.Size, 40))
		}
		if r.Size == "" {
			return nil, fmt.Sprintf("The size of the %d fasteners is missing. Nothing was kept yet; write it as M10x1.25x60.", n)
		}
		out = append(out, machine.Fastener{Size: clip(r.Size, 60), Count: n, Where: clip(r.Where, 100), State: r.State})
	}
	return out, ""
}

// shimsTyped reads the lines of shims: a thickness with or without its unit.
func shimsTyped(rows []setRow) ([]machine.Shim, string) {
	var out []machine.Shim
	for _, r := range rows {
		if r.Size == "" && r.Count == "" {
			continue
		}
		a, err := bench.Amount(r.Size, "mm")
		if err != nil {
			return nil, spelling.Head(err.Error()) + ". Nothing was kept yet; write the shim's thickness, as 0.15."
		}
		n := 1
		if r.Count != "" {
			if n, err = strconv.Atoi(r.Count); err != nil || n < 1 || n > 99 {
				return nil, fmt.Sprintf("“%s” is no count of shims. Nothing was kept yet; give how many of %s.", clip(r.Count, 20), clip(r.Size, 20))
			}
		}
		if a.Value <= 0 || a.Value > 50 {
			return nil, fmt.Sprintf("A shim of %s is out of reason. Nothing was kept yet; write its thickness in mm.", withUnit(a.Value, "mm"))
		}
		out = append(out, machine.Shim{ThicknessMM: a.Value, Count: n, Where: clip(r.Where, 100), Typed: r.Size})
	}
	return out, ""
}
