package formula

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Parse reads a formula. Names start with a letter or "_" and go on with
// letters, figures and "_". Multiplication is always written: "2*d", not
// "2d". Decimals take a point.
// Errors: FaultError with the column of the first fault; also for text longer
// than MaxLength bytes or nested deeper than MaxDepth.
// Cost: linear in the length.
func Parse(text string) (Expr, error) {
	trimmed := strings.TrimSpace(text)
	p := &parser{text: text}
	if len(text) > MaxLength {
		return Expr{}, FaultError{text[:validCut(text, 40)] + "…", 1, "it is too long"}
	}
	if !utf8.ValidString(text) {
		return Expr{}, FaultError{strings.ToValidUTF8(text, "?"), 1, "it is no readable text"}
	}
	if err := p.sum(0); err != nil {
		return Expr{}, err
	}
	p.blanks()
	if p.at < len(text) {
		return Expr{}, p.stray()
	}
	return Expr{text: trimmed, code: p.code}, nil
}

// validCut is the longest cut of at most n bytes that splits no character.
func validCut(text string, n int) int {
	for n > 0 && !utf8.RuneStart(text[n]) {
		n--
	}
	return n
}

// parser reads by descent and writes postfix code. Its recursion is bounded by
// MaxDepth.
type parser struct {
	text string
	at   int // byte offset
	code []step
}

func (p *parser) fault(why string) error {
	return FaultError{p.text, utf8.RuneCountInString(p.text[:p.at]) + 1, why}
}

// stray names what stands where an operator or the end was wanted.
func (p *parser) stray() error {
	r, _ := p.peek()
	switch {
	case r == ',':
		return p.fault("a comma; write decimals with a point")
	case r == ')':
		return p.fault("a closing bracket without an opening one")
	case unicode.IsLetter(r) || unicode.IsDigit(r) || r == '(' || r == '_' || r == '.':
		return p.fault("an operator (+ - * /) is wanted here")
	}
	return p.fault(strconv.Quote(string(r)) + " has no meaning here")
}

func (p *parser) peek() (r rune, size int) {
	if p.at >= len(p.text) {
		return 0, 0
	}
	return utf8.DecodeRuneInString(p.text[p.at:])
}

func (p *parser) blanks() {
	for {
		r, size := p.peek()
		if size == 0 || !unicode.IsSpace(r) {
			return
		}
		p.at += size
	}
}

// take passes over one of the given signs and returns it, 0 if none is next.
func (p *parser) take(signs string) byte {
	p.blanks()
	if p.at < len(p.text) && strings.IndexByte(signs, p.text[p.at]) >= 0 {
		p.at++
		return p.text[p.at-1]
	}
	return 0
}

var ops = map[byte]op{'+': plus, '-': minus, '*': times, '/': over}

func (p *parser) sum(depth int) error {
	return p.chain(depth, "+-", p.product)
}

func (p *parser) product(depth int) error {
	return p.chain(depth, "*/", p.signed)
}

// chain reads terms joined by the given operators, from the left.
func (p *parser) chain(depth int, signs string, term func(int) error) error {
	if err := term(depth); err != nil {
		return err
	}
	for {
		sign := p.take(signs)
		if sign == 0 {
			return nil
		}
		if err := term(depth); err != nil {
			return err
		}
		p.code = append(p.code, step{op: ops[sign]})
	}
}

// signed reads a value with any signs before it.
func (p *parser) signed(depth int) error {
	if depth > MaxDepth {
		return p.fault("it is nested too deep")
	}
	switch p.take("+-(") {
	case '+':
		return p.signed(depth + 1)
	case '-':
		if err := p.signed(depth + 1); err != nil {
			return err
		}
		p.code = append(p.code, step{op: negate})
		return nil
	case '(':
		if err := p.sum(depth + 1); err != nil {
			return err
		}
		if p.take(")") == 0 {
			if p.at < len(p.text) {
				return p.stray()
			}
			return p.fault("a closing bracket is missing")
		}
		return nil
	}
	return p.value()
}

// value reads a number or a name.
func (p *parser) value() error {
	p.blanks()
	r, size := p.peek()
	switch {
	case size == 0:
		return p.fault("a number or a name is missing")
	case r >= '0' && r <= '9' || r == '.':
		return p.number()
	case unicode.IsLetter(r) || r == '_':
		start := p.at
		for size > 0 && (unicode.IsLetter(r) || unicode.IsDigit(r) || r == '_') {
			p.at += size
			r, size = p.peek()
		}
		p.code = append(p.code, step{op: named, name: p.text[start:p.at]})
		return nil
	}
	return p.fault("a number or a name is wanted here, not " + strconv.Quote(string(r)))
}

// number reads figures with at most one point and an exponent.
func (p *parser) number() error {
	start := p.at
	p.figures()
	if p.at < len(p.text) && p.text[p.at] == '.' {
		p.at++
		p.figures()
	}
	p.exponent()
	v, err := strconv.ParseFloat(p.text[start:p.at], 64)
	if err != nil || !finite(v) {
		p.at = start
		return p.fault("this is not a number that can be used")
	}
	p.code = append(p.code, step{op: number, value: v})
	return nil
}

func (p *parser) figures() {
	for p.at < len(p.text) && p.text[p.at] >= '0' && p.text[p.at] <= '9' {
		p.at++
	}
}

// exponent passes over "e-3"; an "e" without figures behind it is left.
func (p *parser) exponent() {
	if p.at >= len(p.text) || p.text[p.at] != 'e' && p.text[p.at] != 'E' {
		return
	}
	back := p.at
	p.at++
	if p.at < len(p.text) && (p.text[p.at] == '+' || p.text[p.at] == '-') {
		p.at++
	}
	first := p.at
	p.figures()
	if p.at == first {
		p.at = back
	}
}
