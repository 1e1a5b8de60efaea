// Package labels draws the labels of trays and the tie-on tags of parts, on a
// sheet of labels or a roll, and writes them as PDF for a printer and as SVG
// for the page. Both are the same drawing: lines, areas and text in
// millimetres, black on white, never scaled. It is pure: the same labels give
// the same bytes.
//
// A label carries the tray's mark 14 mm high, what lies there, the machine, a
// date, an arrow, match dots, a code that opens the tray's page, and a rule of
// known length that shows whether a printer has scaled the sheet. A tag is cut
// as its call is: whole, one corner clipped, sawn through, or dashed.
//
// What does not fit, or has letters that the faces here do not have, is never
// dropped in silence: it is shrunk, cut with an ellipsis or drawn as an empty
// box, and named in the notes.
//
// What this package cannot detect: whether the paper in the printer is of the
// size chosen, and whether a phone can come at the address in the code.
package labels
