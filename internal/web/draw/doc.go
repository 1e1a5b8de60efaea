// Package draw turns a machine's parts into sheets of line symbols: a general
// arrangement and one sheet for each assembly.
//
// A sheet is 1000 units wide; its height follows from what stands on it. A
// symbol is written in hundredths of its own box (path.go), so that one line
// of a table draws it at any size. Everything is worked out from the items
// given: the same items give the same bytes.
//
// The package cannot know what a part looks like. It goes by the last word of
// the part's name that it knows, and draws a plain block where it knows none.
package draw
