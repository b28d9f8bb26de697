// Package search schedules an activity network with finite resources: crews,
// machines, room and gate places, each a count over time. It looks for the
// earliest finish of the whole network.
//
// A schedule is built by the serial generation scheme (Kelley, 1963): one
// activity after the other, in a priority order, takes the earliest start that
// its predecessors, its calendar and what is left of every resource allow. The
// same scheme run from the end gives a right-justified schedule. The search samples
// schedules with noise in their priorities, by the parallel scheme where every link
// only requires its predecessor to be done and no booking may move, and justifies
// them to the right and to the left (double justification: Valls, Ballestín and
// Quintanilla, 2005). Then it shakes the best of them in turn (iterated local search:
// Lourenço, Martin and Stützle, 2003), some by taking part of their order from
// another (path relinking: Glover, 1996). It restarts from other samples again and
// again, and shakes what the rounds end with together. While dates break, a part of
// each round follows how late all nodes together are, which falls before the dates
// themselves do. The sources are given from memory.
//
// Work is counted in schedules: every forward or backward pass is one. The same
// problem, seed and budget give the same schedule on any machine.
package search
