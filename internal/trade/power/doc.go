// Package power reckons what a finished machine gives and how it stops: power
// from torque and speed, the power take-off, correction to the standard
// atmosphere for a diesel, road speed and slip, fuel use, leak-down, and the
// brake trial.
//
// Power kW, torque N·m, force N, speed rpm or km/h, distance m, pressure kPa
// dry unless said. Sources: ISO1585 (and the editions that bound its engine
// factor otherwise), ISO2533, ISO500-1 (from memory), EU2015/68 annex II,
// UNR13.
//
// It holds no factor for spark ignition engines: a diesel corrected by one is
// wrong. Legal limits are those of the place; a formula here says what one
// regulation asks. It cannot tell a weak engine from a short test, nor a good
// brake from a dry day.
package power
