package quantity

import "strings"

// plainDecimal turns a run of digits, points, commas and group spaces into
// digits with at most one point, and counts the decimals.
// "5,5" → "5.5"; "1,234" → "1.234"; "1,234.5" and "1.234,5" → "1234.5";
// "1,234,567" → "1234567".
func plainDecimal(run string) (plain string, decimals int, why string) {
	run = spaceGroups(run)
	mark, groups, why := marksOf(run)
	if why != "" {
		return "", 0, why
	}
	whole, part := run, ""
	if mark != "" {
		whole, part, _ = strings.Cut(run, mark)
	}
	if groups != "" {
		if whole, why = joinGroups(whole, groups); why != "" {
			return "", 0, why
		}
	}
	if whole+part == "" || !allDigits(whole+part) {
		return "", 0, "is not a number"
	}
	if whole == "" {
		whole = "0"
	}
	if part == "" {
		return whole, 0, ""
	}
	return whole + "." + part, len(part), ""
}

// spaceGroups drops the narrow spaces between groups of digits; leadingRun
// has made sure that three digits follow each.
func spaceGroups(run string) string {
	return strings.Map(func(r rune) rune {
		if isGroupSpace(r) {
			return -1
		}
		return r
	}, run)
}

// marksOf tells which mark, if any, is the decimal mark and which parts groups.
func marksOf(run string) (mark, groups, why string) {
	commas, points := strings.Count(run, ","), strings.Count(run, ".")
	mark, groups = ",", "."
	if strings.LastIndex(run, ".") > strings.LastIndex(run, ",") {
		mark, groups = ".", ","
	}
	switch {
	case commas+points == 0:
		return "", "", ""
	case commas+points == 1:
		return mark, "", ""
	case commas == 0 || points == 0:
		return "", mark, "" // several of one kind: groups only
	case strings.Count(run, mark) == 1:
		return mark, groups, ""
	}
	return "", "", "mixes points and commas in a way that cannot be read"
}

// joinGroups removes the group marks after checking for groups of three.
func joinGroups(whole, mark string) (joined, why string) {
	parts := strings.Split(whole, mark)
	for i, p := range parts {
		good := len(p) == 3 || (i == 0 && len(p) > 0 && len(p) < 3)
		if !good || !allDigits(p) {
			return "", "does not part its thousands in groups of three"
		}
	}
	return strings.Join(parts, ""), ""
}

func allDigits(text string) bool { return text != "" && leadingDigits(text) == text }

func leadingDigits(text string) string {
	end := 0
	for end < len(text) && isDigit(rune(text[end])) {
		end++
	}
	return text[:end]
}

func startsWithGlyph(text string) bool {
	for _, r := range text {
		_, ok := glyphs[r]
		return ok
	}
	return false
}

func startsWithSlash(text string) bool {
	_, _, ok := cutSlash(text)
	return ok
}

// cutSlash removes a leading slash or fraction slash.
func cutSlash(text string) (before, after string, ok bool) {
	for _, slash := range []string{"/", "\u2044"} {
		if rest, found := strings.CutPrefix(text, slash); found {
			return slash, rest, true
		}
	}
	return "", text, false
}

// trimSpaces removes spaces of every width at both ends.
func trimSpaces(text string) string {
	return strings.TrimFunc(text, func(r rune) bool {
		return r == ' ' || r == '\t' || r == '\n' || r == '\r' || isGroupSpace(r)
	})
}
