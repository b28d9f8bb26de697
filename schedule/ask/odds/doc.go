// Package odds says how likely a crew programme is to hold: it builds the garden
// many times, each time with other working times, late lorries and wet days, and
// counts.
//
// As programmed, every build keeps the programme's order of hands, as [builds] says; or
// people re-plan as it goes ([Options.Replan], [Better]). Longest waits hold: work that must
// be followed soon starts late enough for that; a build in which they can't all hold is never
// done.
//
// What has no place in the programme takes no part in any build, and neither its dates
// nor its finish count: the chances are those of the rest.
//
// What is uncertain:
//   - the working time of a task with a spread, whose effort is the likeliest
//     ([PERT] or [Triangular]); scaled when the programme has other heads on it than
//     the logic programme; all other tasks are certain;
//   - the pace of each crew, one factor in a build for all its tasks with a spread;
//     a task of several crews has the mean of theirs, by heads;
//   - lorries: each is late with its own chance, by a time drawn from its likely and
//     worst lateness; a late lorry comes in once the gate is open; keep and waits run
//     from then;
//   - wet days: a two-state Markov chain of days that begins in its long-run share
//     (Gabriel and Neumann, 1962); dry work stops on a wet day, and on the next
//     morning until the place has dried. Dry work later than [Weather] after the
//     hand-over has no place;
//   - windy days in the same way, on which calm work stops;
//   - sign-offs: each fails the first time with its own chance; then the open time of the
//     place that it takes to put right, by nobody's hands, and the sign-off again;
//   - who turns out: each of a crew that says with which chance, each day anew (those of
//     a part of the day only are the first on its list); work that needs more than have
//     come stands still. A task begins only where those who have come, by the draws of
//     its days, are enough for it beside what is in hand: it gives nobody back.
//
// A build that misses a slot of a machine, a day with volunteers or an appointment
// gets after the hand-over what any programme gets there (worktime.New); a crew is
// never fewer than the programme has on any one task.
//
// Every build draws from a stream of its own, and only whole numbers are added
// up, so the result is the same on any number of cores. Memory doesn't grow
// with the number of builds.
package odds
