package language

import (
	"bytes"
	"html"
	"regexp"
	"strings"
	"unicode"

	"matchmark/internal/trade/quantity"
)

// spoken are the attributes that people read or hear.
var spoken = regexp.MustCompile(` (aria-label|alt|placeholder|title|data-lines|data-words)="([^"]*)"`)

var tag = regexp.MustCompile(`^<(/?)([a-zA-Z][a-zA-Z0-9-]*)`)

// asTyped are the elements whose text is not the program's to change.
var asTyped = map[string]bool{"script": true, "style": true, "textarea": true}

// empty are the elements that nothing stands in.
var empty = map[string]bool{"input": true, "img": true, "br": true, "hr": true, "meta": true, "link": true}

// Page puts a page that html/template wrote into the language: its texts and
// the attributes that people read or hear. Values of fields stay as they are.
// missing, where not nil, is told each text of which something stayed English.
func (l *Language) Page(page []byte, missing func(string)) []byte {
	var out bytes.Buffer
	out.Grow(len(page) + len(page)/8)
	tell := func(text string) string {
		said, all := l.kept(text)
		if !all && missing != nil {
			missing(text)
		}
		return said
	}
	closed := "" // element whose end is waited for
	depth := 0   // of elements of that name in one another
	for len(page) > 0 {
		open := bytes.IndexByte(page, '<')
		if open < 0 {
			open = len(page)
		}
		if text := string(page[:open]); closed == "" {
			out.WriteString(l.text(text, tell))
		} else {
			out.WriteString(text)
		}
		page = page[open:]
		end := bytes.IndexByte(page, '>') + 1
		if end == 0 {
			end = len(page)
		}
		mark := string(page[:end])
		page = page[end:]
		name := ""
		leaving := false
		if m := tag.FindStringSubmatch(mark); m != nil {
			name, leaving = strings.ToLower(m[2]), m[1] != ""
		}
		switch {
		case closed == "" && !leaving && !empty[name] && (asTyped[name] || strings.Contains(mark, ` translate="no"`) || name != "html" && strings.Contains(mark, ` lang="`)):
			closed, depth = name, 1
		case closed != "" && name == closed && leaving:
			if depth--; depth == 0 {
				closed = ""
			}
		case closed != "" && name == closed:
			depth++
		case closed == "" && !leaving:
			mark = spoken.ReplaceAllStringFunc(mark, func(a string) string {
				m := spoken.FindStringSubmatch(a)
				parts := strings.Split(m[2], "|")
				for i, p := range parts {
					parts[i] = l.text(p, tell)
				}
				return " " + m[1] + `="` + strings.Join(parts, "|") + `"`
			})
		}
		out.WriteString(mark)
	}
	return out.Bytes()
}

// text says one text of the page, with its marks of HTML and the space round it.
func (l *Language) text(raw string, tell func(string) string) string {
	core := strings.TrimSpace(raw)
	if core == "" {
		return raw
	}
	i := strings.Index(raw, core)
	plain := strings.Join(strings.Fields(html.UnescapeString(core)), " ")
	said := tell(plain)
	if said == plain {
		return raw
	}
	return raw[:i] + html.EscapeString(said) + raw[i+len(core):]
}

// mostKept is how many texts are remembered; a shop has some thousands.
const mostKept = 20000

// kept is Say, remembered: the same words stand on every page.
func (l *Language) kept(text string) (string, bool) {
	if v, ok := l.seen.Load(text); ok {
		a := v.(answer)
		return a.said, a.all
	}
	said, all := l.Say(text)
	if l.many.Add(1) < mostKept {
		l.seen.Store(text, answer{said, all})
	}
	return said, all
}

type answer struct {
	said string
	all  bool
}

// wordy tells whether a text has a word to put into another language: it is no
// figure, unit, sign or place to fill in, nor what somebody typed, in quotes.
func wordy(text string) bool {
	if strings.IndexFunc(text, unicode.IsLetter) < 0 || enclosed(text, '{', '}') || enclosed(text, '"', '"') {
		return false
	}
	return !quantity.IsUnit(strings.TrimLeft(text, "0123456789.,+-−–±×/ "))
}

// enclosed tells whether a text begins and ends with marks that it does not
// have between.
func enclosed(text string, open, shut byte) bool {
	n := len(text) - 1
	return n > 0 && text[0] == open && text[n] == shut && strings.IndexByte(text[1:n], shut) < 0
}
