package web

import (
	"bytes"
	"regexp"
)

// What a module holds for its reader only. Each pattern is safe for modules
// written by the rules that TestModulesCanBeBared holds them to.
var forReaders = []*regexp.Regexp{
	regexp.MustCompile(`(?m)^[ \t]*//.*\n`),                                 // a line that is a comment
	regexp.MustCompile(`(?m)^[ \t]*/\*[^*]*\*+(?:[^/*][^*]*\*+)*/[ \t]*\n`), // lines that are one
	regexp.MustCompile(`/\*\* @[^*]*\*/ ?`),                                 // a type within a line
	regexp.MustCompile("(?m)[ \t]+//[^\"'`\n]*$"),                           // a comment behind a line
	regexp.MustCompile(`(?m)^[ \t]+`),                                       // the indent
}

// Where a space or a new line says nothing.
var (
	idleSpace = regexp.MustCompile(` ?(=>|===|!==|&&|\|\||\?\?) ?`)
	idleLine  = regexp.MustCompile(`([;{,])\n`)
)

// bare takes out of a module what only a reader needs: a third of what would
// go over the wire.
func bare(module []byte) []byte {
	for _, p := range forReaders {
		module = p.ReplaceAll(module, nil)
	}
	module = idleSpace.ReplaceAll(module, []byte("$1"))
	return bytes.TrimSpace(idleLine.ReplaceAll(module, []byte("$1")))
}

// What a style sheet holds for its reader only; no text in ours has a mark of
// these in it, which TestStylesCanBeBared holds.
var (
	styleNote  = regexp.MustCompile(`/\*[^*]*\*+(?:[^/*][^*]*\*+)*/`)
	styleSpace = regexp.MustCompile(`\s+`)
	styleIdle  = regexp.MustCompile(` ?([{};]) ?`)
)

// bareStyles takes out of a style sheet what only a reader needs.
func bareStyles(sheet []byte) []byte {
	sheet = styleSpace.ReplaceAll(styleNote.ReplaceAll(sheet, nil), []byte(" "))
	return bytes.TrimSpace(styleIdle.ReplaceAll(sheet, []byte("$1")))
}
