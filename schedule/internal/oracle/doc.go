// Package oracle finds, for tests, the best crew programme of a tiny plan by
// trying every order of its work. It shares no code with the solvers and none
// with the verifier: the time line is cut into equal slots, a slot is open or
// closed, and every question is asked slot by slot.
//
// Why every order is enough: take a best programme and its work by start. Put
// each in turn at the earliest slot that what came before it leaves, not before
// the one put last. Nothing lands later than in the best programme: what holds
// a start or finish back only holds it back more when it is itself later, and
// work already put, being no later, is out of the way no later. Where work put
// later turns out to hold back work put before (a lead, the longest wait), the
// least start of that is raised and all put again; that least start holds in the
// best programme too. Lateness and the last finish grow with starts, but for the
// stock that a lorry brings, which waits from the booking on: so every booking
// that a movable lorry may have is tried as well, and so are all heads of ranges
// and everything that may be dropped.
package oracle
