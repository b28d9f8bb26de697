// Package search schedules an activity network with finite resources: crews,
// machines, room and gate places, each a count over time. It looks for the
// earliest finish of the whole network.
//
// A schedule is built by the serial generation scheme (Kelley, 1963): one
// activity after the other, in a priority order, takes the earliest start that
// its predecessors, its calendar and what is left of every resource allow. The
// same scheme run from the end gives a right-justified schedule. The search
// keeps two populations, one of each kind, and breeds each from the other, so
// that every schedule built also justifies its parents (double justification:
// Valls, Ballestín and Quintanilla, 2005; bi-population genetic algorithm: Debels
// and Vanhoucke, 2005). Then it shakes the best schedule again and again (iterated
// local search: Lourenço, Martin and Stützle, 2003).
//
// Where every link only requires its predecessor to be done, no booking may move
// and no date breaks, it works another way: it justifies samples built by the
// parallel generation scheme and shakes the best of them in turn, some by taking
// part of their order from another (path relinking: Glover, 1996). The sources are
// given from memory.
//
// Work is counted in schedules: every forward or backward pass is one. The same
// problem, seed and budget give the same schedule on any machine.
package search
