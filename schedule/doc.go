// Package schedule holds the nouns of a build plan: what the plan file says
// ([Plan] and its parts), what is computed from it ([Programme] and its parts)
// and what is wrong with it ([Problem]). It holds no algorithms: those live in
// the packages below it.
//
// Everything is whole minutes on real instants ([calendars.Instant]), spans are
// half-open, and lists are in plan order; the typed ids index them.
package schedule
