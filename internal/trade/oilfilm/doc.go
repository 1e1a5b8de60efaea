// Package oilfilm tells how thick the oil is under a journal that turns in a
// plain bearing, what it costs in friction and oil, and what more clearance
// takes from it.
//
// Lengths are in mm, films and roughness in µm, viscosity is dynamic and in
// mPa·s, speed in rev/min, load in N, pressure in MPa. Clearance is always
// diametral, as it is measured; the formulas need half of it, and a factor of
// two there makes the film wrong by four.
//
// It cannot detect what is not in its model: a steady load on a full round,
// stiff, true bearing without grooves, filled with oil of one viscosity. The
// load on a crank journal swings, and squeezing oil out takes time, so at the
// firing stroke the real film is thicker than this one. Two clearances can be
// compared by it; no bearing can be passed or failed by it.
//
// Sources: [RB58] Raimondi and Boyd, ASLE Transactions 1 (1958), full bearing
// tables; [TN2808] DuBois and Ocvirk, NACA TN 2808 (1952), short bearing;
// [SHIGLEY] Mechanical Engineering Design, chapter 12.
package oilfilm
