// Package sequence says what can be done now, what is held and by which
// check, what blocks a step, and in which order to build back. It is pure.
//
// Steps and the rules between them are derived from the folded machine and
// the verdicts on its checks; nobody types them. A rule is one of two duals:
//
//	After:  the step comes after ALL steps of SOME alternative
//	Before: the step comes before ALL steps of SOME alternative
//
// What had to be open before a joint came apart is an After rule on opening
// and, with the very same alternatives, a Before rule on closing: with "A or B
// gave access" the joint closes before the later of A and B.
//
// After rules are settled by forward chaining, which is monotone. Before rules
// with several alternatives are not, but run backwards in time they are After
// rules: the order is filled from its end, so that every such rule is settled
// without guessing wherever one can be (see settle). An opening step that is one
// of several ways never waits for a closing step, which is why the two passes do
// not disturb each other.
//
// A trial closing hides nothing for good: it is held only by checks of its own
// joint that must be made apart and have not been read at all. Dry checks hold
// the final closing. A joint on trial that lies over others is to come apart
// again before they can be worked on: that is an undo step.
//
// What the package cannot detect: whether a record is true, and whether an
// order is physically possible. It says only what is consistent with the
// record.
package sequence
