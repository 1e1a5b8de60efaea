// Package lubricant knows the viscosity grades of engine and gear oils, of
// industrial oils and greases, how oil thins with heat, and what a sump holds.
//
// Kinematic viscosity is in mm²/s (cSt), dynamic in mPa·s (cP), temperature
// in °C. Sources: SAEJ300 (2015, the limits here are those of 2021 too),
// SAEJ306 (2019, with the older editions that differ), ISO3448 (1992), D341
// and D2270 (ASTM). An engine oil number and a gear oil number are different
// scales: gear 90 is about as thick as engine 40 to 50.
//
// It cannot tell the winter grade of an oil from its thickness at 40 and
// 100 °C: that needs a cold cranking test. Nor does it know additives, age,
// fuel or water in the oil.
package lubricant
