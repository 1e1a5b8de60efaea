// Package reference holds the standard tables as CSV files, embedded in the
// binary: sizes of bearings, seals, rings, keys, belts, threads and gears, and
// the tolerances that go with them.
//
// The first line of each file names its columns. The column "source" says which
// standard a row comes from and how it is known: read somewhere, from memory,
// by a rule of the standard, or common practice without a source. Lengths are
// in mm and angles in degrees.
//
// It cannot detect a figure that was remembered wrongly: the rows that say
// "from memory" are as good as the memory, and tests set them against outside
// tables where there are any.
package reference

import (
	"bytes"
	"embed"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
)

//go:embed *.csv
var files embed.FS

// Row is one line of a table: Line is its number in the file (the head is 1).
type Row struct {
	File  string
	Line  int
	cells map[string]string
}

// Text is the cell of a column without outer blanks; empty where the table has
// no such column.
func (r Row) Text(column string) string { return r.cells[column] }

// Where names file and line for an error.
func (r Row) Where() string { return fmt.Sprintf("%s line %d", r.File, r.Line) }

// Table is a file read whole, rows in file order.
type Table struct {
	File    string
	Columns []string
	Rows    []Row
}

// Names lists the files in order of name.
func Names() []string {
	list, _ := files.ReadDir(".") // an embedded root always reads
	names := make([]string, 0, len(list))
	for _, f := range list {
		names = append(names, f.Name())
	}
	return names
}

// Read gives the table of a file. Errors: a file that is not there; what
// Parse refuses.
func Read(file string) (Table, error) {
	text, err := files.ReadFile(file)
	if err != nil {
		return Table{}, fmt.Errorf("reference table %q: there is none of that name", file)
	}
	return Parse(file, bytes.NewReader(text))
}

// Parse reads a table in the form of this package from r; file is only named
// in errors. Errors, with file and line: a line of another length than the
// head, a head without the column source, an empty source.
func Parse(file string, r io.Reader) (Table, error) {
	in := csv.NewReader(r)
	head, err := in.Read()
	if err != nil {
		return Table{}, fmt.Errorf("reference table %s: head: %w", file, err)
	}
	if !slices.Contains(head, "source") {
		return Table{}, fmt.Errorf("reference table %s line 1: columns %s have no source", file, strings.Join(head, ", "))
	}
	tab := Table{File: file, Columns: head}
	for {
		cells, err := in.Read()
		if err == io.EOF {
			return tab, nil
		}
		if err != nil {
			return Table{}, fmt.Errorf("reference table %s: %w", file, err)
		}
		line, _ := in.FieldPos(0)
		row := Row{File: file, Line: line, cells: make(map[string]string, len(head))}
		for i, col := range head {
			row.cells[col] = strings.TrimSpace(cells[i])
		}
		if row.Text("source") == "" {
			return Table{}, fmt.Errorf("reference table %s: the row has no source", row.Where())
		}
		tab.Rows = append(tab.Rows, row)
	}
}
