// Package schema carries the JSON Schema of a log's entries, for readers of an
// archive who do not have this program.
//
// It is stricter than the program: Fold keeps and asks about what the schema
// refuses, such as a kind of a later version. It is written from the types of
// package machine by a test of that package, which fails where the two differ.
package schema

import _ "embed" // for the schema's text

// Entry is the schema of one entry, JSON Schema 2020-12. Its definitions are
// named after the kinds: "joint-opened".
//
//go:embed entry.schema.json
var Entry []byte
