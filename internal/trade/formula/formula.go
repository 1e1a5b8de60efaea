// Package formula works out the short formulas in which limits are written:
// "0.0014*d", "0.85*p0", "-0.005", "(Vn - 0.4)/2".
//
// A formula has numbers, names, + - * / , unary signs and brackets, and
// nothing else: no functions, no powers, no assignment. It is safe on text of
// any kind: length and depth are bounded and nothing panics.
//
// It cannot detect a wrong figure or a wrong unit: names stand for bare
// numbers.
package formula

import (
	"math"
	"slices"
	"strings"
)

// Bounds on what is read.
const (
	MaxLength = 400 // bytes
	MaxDepth  = 40  // brackets and signs within one another
)

// Expr is a formula that was read. The zero Expr has no value. It is never
// changed after Parse and can be shared.
type Expr struct {
	text string
	code []step // in postfix order
}

// step is one instruction: a number, a name, or an operation on what is on
// top of the stack.
type step struct {
	op    op
	value float64
	name  string
}

type op byte

const (
	number op = iota
	named
	plus
	minus
	times
	over
	negate
)

// String is the formula as it was written, without surrounding blanks.
func (e Expr) String() string { return e.text }

// Vars lists the names in the formula, sorted, each once.
func (e Expr) Vars() []string {
	var names []string
	for _, s := range e.code {
		if s.op == named {
			names = append(names, s.name)
		}
	}
	slices.Sort(names)
	return slices.Compact(names)
}

// Eval works the formula out with the values given; names are told apart by
// case.
// Errors: MissingError for a name without a value; ValueError for a division
// by zero, a value or a result that is not a finite number, and for the zero
// Expr. A value that is returned is finite; minus zero is given as zero.
// Cost: linear in the length of the formula.
func (e Expr) Eval(vars map[string]float64) (float64, error) {
	if len(e.code) == 0 {
		return 0, ValueError{e.text, "it is empty"}
	}
	stack := make([]float64, 0, 8)
	for _, s := range e.code {
		switch s.op {
		case number:
			stack = append(stack, s.value)
			continue
		case named:
			v, ok := vars[s.name]
			if !ok {
				return 0, MissingError{e.text, s.name}
			}
			if !finite(v) {
				return 0, ValueError{e.text, s.name + " is not a finite number"}
			}
			stack = append(stack, v)
			continue
		case negate:
			stack[len(stack)-1] = -stack[len(stack)-1]
			continue
		}
		n := len(stack) - 2
		v, why := combine(s.op, stack[n], stack[n+1])
		if why != "" {
			return 0, ValueError{e.text, why}
		}
		stack[n] = v
		stack = stack[:n+1]
	}
	return stack[0] + 0, nil // + 0 turns minus zero into zero
}

// combine works out one operation; why is empty when it went well.
func combine(o op, a, b float64) (v float64, why string) {
	switch o {
	case plus:
		v = a + b
	case minus:
		v = a - b
	case times:
		v = a * b
	case over:
		if b == 0 {
			return 0, "it divides by zero"
		}
		v = a / b
	}
	if !finite(v) {
		return 0, "its result is beyond all numbers"
	}
	return v, ""
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// Value parses and works out in one go; see Parse and Eval for the errors.
func Value(text string, vars map[string]float64) (float64, error) {
	e, err := Parse(text)
	if err != nil {
		return 0, err
	}
	return e.Eval(vars)
}

// Words shows the formula for reading: "0.0014 × d" for "0.0014*d".
func (e Expr) Words() string {
	spaced := strings.ReplaceAll(strings.ReplaceAll(e.text, "*", " × "), "/", " / ")
	return strings.Join(strings.Fields(spaced), " ")
}
