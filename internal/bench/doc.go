// Package bench keeps one machine's log, its fold and its findings in step: a
// typed fact goes in, the store keeps it, the fold and the findings follow.
// It is the only place that joins the store to the pure packages; pages and
// commands stand on it and compute nothing themselves.
//
// It refuses a closing that would hide an open check, unless the hold was
// passed by hand. It never refuses a fact that already happened (Keep).
package bench
