// Package closing gathers what a fitter needs at arm's length when a joint is
// closed: torque as a range, the order of the bolts, shims, what goes on the
// faces, marks, photographs, what must be new, cautions, and what was really
// done. It is pure.
//
// No figure here is a maker's. A torque comes from thread, class and friction;
// a bolt without a mark is taken as 5.8, never as more. Where life hangs on a
// joint and its kit does not name the thread, or strength cannot be read off
// the metal, there is no figure but the name of who knows.
//
// What it cannot detect: a bolt that has stretched, a head mark that lies,
// a hole too shallow, a cone seat where a flat one was reckoned with, and a
// fastener that nobody wrote down.
package closing
