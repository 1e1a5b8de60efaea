// Package fastener relates torque and preload of bolts, says how deep a thread
// must go into iron or aluminium, and puts the bolts of any field in an order
// of tightening.
//
// Lengths are in mm, stress in MPa, force in N, torque in N·m, angles in
// degrees. Friction is never known to a point, so a torque is always a range.
//
// It cannot detect a bolt that has stretched, cracked or been softened, a head
// mark that lies, a bottomed blind hole, oil under a head that was to be dry,
// or clamped parts that settle. A maker's figure, where there is one, comes
// before any figure from here.
package fastener

// Band is a range of a figure that is not known to a point.
type Band struct{ Lo, Hi float64 }
