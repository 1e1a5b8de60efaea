// Package machine is the model: parts held by joints, joints that carry
// checks, and the log of facts from which both are rebuilt.
//
// An Entry is one small typed fact. Fold turns entries into a Machine; it is
// pure, total and independent of the order in which entries are handed to it.
// A fact that cannot be placed becomes a Question, never an error and never a
// loss.
//
// Kits and entries speak of types ("liner", "main-cap"); the folded Machine
// holds instances ("liner.2", "main-cap.3"), each with its own readings,
// state and holds.
//
// Units inside: mm, N, N·m, MPa, °C, s, kg, W, V, A, Ω, L, rpm, deg.
//
// What this package cannot detect: whether a recorded fact is true, and
// whether an order is physically possible. It knows only what was written.
package machine
