// Package coolant knows when a coolant freezes and boils, how to mix and
// change it, and which metals it eats where they touch.
//
// Strengths are in per cent by volume, never by mass: half and half by volume
// freezes about three kelvin lower than half and half by mass. Pressures of
// caps are gauge. Volumes are taken as adding up; a mix shrinks by less than
// one per cent. Sources: ASHRAE (Handbook Fundamentals, secondary coolants,
// from memory), LANGE (Handbook of Chemistry, 15th edition, table 5.13),
// IAPWS-IF97 region 4, ISO2533, MIL-STD-889 as reprinted.
//
// It cannot detect a dead inhibitor, a wrong kind of inhibitor, or oil and
// rust in what is drained; tables are of pure glycol, and a concentrate with
// its inhibitors differs by one or two kelvin.
package coolant
