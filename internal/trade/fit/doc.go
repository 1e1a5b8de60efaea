// Package fit gives the limits of size of ISO 286 up to 500 mm, what a hole and
// a shaft leave between them, what it takes to press or shrink one on the
// other, what a chain of tolerances adds up to, and which part goes where when
// each is measured.
//
// Sizes are in mm; deviations are in µm, as the standard prints them, and keep
// their halves. Pressure is in MPa, force in N, torque in N·m, temperature in
// °C.
//
// It cannot detect roughness that is pressed flat (a press fit loses a few µm
// by it), a bore out of round, a hub of uneven wall, or a part that was never
// made to ISO 286: an old drawing may follow another system.
package fit
