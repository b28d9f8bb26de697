// Package builds builds a crew programme again and again, each time with other working
// times, late lorries and sign-offs that fail, in the programme's order of hands: each crew, machine, room and
// gate place goes from one user to the next as programmed, and everything starts as early
// as links, hand-ons and hours allow. What the programme holds back for reasons of its own,
// living stock for one, starts no earlier than programmed. A [Replanner] builds it with people
// who take other orders and call machines and sign-offs again.
//
// What is drawn is drawn alike for all programmes of a plan that have the same heads: the
// same seed gives the same numbers build by build (common random numbers), so that their
// outcomes are pairs. Weather isn't drawn here; who wants it changes the calendars of a
// builder's network.
//
// What has no place in the programme takes no part in any build.
package builds
