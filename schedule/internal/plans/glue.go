package plans

import "strings"

// Glue is the text of a plan in which masons begin a long task before they can glue, and
// what is glued must cure, or be signed, before the coping goes on: with another key of
// the long task, what the gluing waits for afterwards, and the coping's link to it.
func Glue(more, wait, link string) string {
	return strings.NewReplacer("MORE", more, "WAIT", wait, "LINK", link).Replace(glue)
}

const glue = `garden: Glue Court
site:
  timezone: Europe/London
  opens: 2027-05-04 07:00
  handover: 2027-05-05 17:00
  hours: {mon-fri: 07:00-19:00}
zones:
  wall: {people: 6}
  yard: {people: 6}
crews:
  masons: {people: 2}
givens:
  power: {what: power, from: 2027-05-04 13:00}
tasks:
  face: {name: Face, zone: yard, stage: cladding, crew: {masons: 2}, takes: 11h, MORE}
  glue: {name: Glue, zone: wall, stage: cladding, crew: {masons: 2}, takes: 2h, after: [power], WAIT}
  coping: {name: Coping, zone: wall, stage: cladding, crew: {masons: 2}, takes: 8h, after: [LINK]}
`
