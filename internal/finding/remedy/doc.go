// Package remedy decides which remedies make every failing check good: at
// least cost, soonest, or so that the worst of them lasts longest. It proves
// the set it gives and says what would change it. It is pure.
//
// Rules of reading a kit, kept simple so that a person can check them:
//   - A check fails when its verdict is worn, or when the person has chosen a
//     remedy for it. One whose remedy is done and that was not read since is
//     waiting, not failing.
//   - A job is one remedy key on one part instance, and is paid once, whatever
//     number of checks it serves. The part is that which the remedy reworks,
//     or else renews (one-use parts do not count, where there are others). A
//     remedy that names no part is a job of its check, and of the checks that it
//     mends and that list the same key.
//   - One key on one surface (or, where no surface is named, on one part) is one
//     piece of work. Done for one check it is done for all that list it, with
//     every shift and every mend any of them states, sound checks included.
//   - Mends: once the job is chosen for one check, the checks it mends are good.
//   - A size group is worked as a whole: every job of the group on the machine
//     is done, sound members included, and all take one size. The size must
//     clean up the worst point of every member.
//   - A group without sizes binds nothing; the plan notes it.
//   - A remedy that costs nothing and changes nothing leaves the check as it
//     is. It is taken only on the person's word.
//   - Shifts of all chosen jobs are added to the present value of a check; past
//     its limits the set is refused, unless that check gets a remedy too. One
//     job shifts one check once, by the greatest amount stated for it. A shift
//     alone never makes a worn check good.
//
// What it cannot detect: a cost, a lead time or an effect that the kit states
// wrongly, parts that cannot be had, remedies nobody listed, and two remedies
// that exclude one another for a reason the kit does not state.
package remedy
