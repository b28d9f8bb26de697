// Package oracle finds, for tests, the best crew programme of a tiny plan by
// trying every order of its work. It shares no code with the solvers and none
// with the verifier: the time line is cut into equal slots, a slot is open or
// closed, and every question is answered slot by slot.
//
// Why every order is enough: take a best programme and list its work by start.
// Place each piece in turn at the earliest slot that the pieces before it leave
// free, but not before the piece placed last. Nothing lands later than in the
// best programme: what holds back a start or a finish holds it back more only
// when it is itself later, and work already placed, being no later, is out of
// the way no later. Where work placed later turns out to hold back work placed
// before (a lead, a longest wait), the least start of the earlier work is
// raised and all is placed again; that least start holds in the best programme
// too. Lateness and the last finish only grow when starts get later, except for
// the stock that a lorry brings, which waits from the booking on. So every
// booking that a movable lorry may have is tried as well, and so are all heads
// of ranges and everything that may be dropped.
package oracle
