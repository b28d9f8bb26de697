// Package planfile reads a plan file, strictly, into a [schedule.Plan].
//
// The file is YAML in one document: block and flow collections, plain and
// quoted scalars, block text. Everything that YAML would silently bend is
// refused or read exactly as written: anchors, aliases, merge keys and tags are
// refused; so is a key given twice, an empty value, a number, time, date, name
// or true and false in quotes, plain text that runs on over several lines, a tab
// in the indentation, a second document, and every control or invisible
// character. A mark of byte order at the very start and one "---" line before
// the plan are passed over.
//
// Reading never stops at the first fault: [Read] gives all problems by place. A
// faulty value is reported once; what builds on it is not.
//
// # Limits
//
// A file holds at most 4 MiB, 16 levels of nesting, 10,000 tasks, 1,000 each of
// zones, crews, machines, givens, deliveries, rules, daily duties, measures and
// stages of its own, 1,000 entries in any other list. An id is at most 64
// characters, a name 120, other text 2,000. Counts go to 10,000, decimals to
// 1,000,000 with three places, money to 100,000,000. A window is at most 26
// weeks; off-site work starts at most 104 weeks before the gate opens; every
// other date lies between 26 weeks before the earliest work and 52 weeks after
// the hand-over; a task works at most 26 weeks. At most 200 problems are given,
// the rest is counted.
package planfile
