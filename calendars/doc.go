// Package calendars is working time: when a place is open or a crew at work, in
// whole minutes on real instants, and how many heads or machines are there.
//
// [Hours] say by weekday and date when something is open; their openings over a
// time line in a time zone make a [Calendar], which adds, subtracts and counts
// open minutes and places work. A [Profile] is a count over time. Calendars and
// profiles never change once made and may be read by many at once. The package
// also reads and writes the times, hours and lengths that a plan file holds. It
// knows nothing of plans.
package calendars
