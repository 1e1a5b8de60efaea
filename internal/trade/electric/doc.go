// Package electric sizes cables and fuses and reads batteries, starters,
// chargers and glow plugs of small machines of 6, 12 and 24 volts.
//
// Volts, amperes, ohms, watts, mm², metres, °C. Sources: IEC60228 (largest
// resistance of plain copper at 20 °C), ASTMB258 (wire gauge), ISO8820-3
// (blade fuses, from memory), TRADE (common practice, no source) for what is
// said of that.
//
// It cannot see a cable corroded under its skin, a joint that holds until it
// is warm, or a battery that gives its volts and no current: those are found
// under load.
package electric
