// Package hydraulic reckons a small machine's lift: pump displacement from
// its gears, flow, power, cylinder force and speed, what arrives at the ball
// ends, the stress in a cylinder wall, and where the relief may stand.
//
// Bars are gauge, bar; lengths mm; displacement cm³ a turn; flow L/min; power
// kW; force N; stress MPa. Formulas are textbook.
//
// It never says that more pressure would be safe. The strength of a hose, a
// casting or a weld does not show in its size; a ceiling here is only the
// weakest rating that somebody wrote down.
package hydraulic
