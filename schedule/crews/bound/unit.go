package bound

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/network/critical"
)

// inUnits goes on in whole units: latest dates that aren't whole are rounded down. The
// earliest are whole already, as they follow from whole ones alone.
func (s *narrowing) inUnits(u crews.Unit) {
	if s.unit = u; u == crews.Minute {
		return
	}
	for o := range int32(len(s.options)) {
		s.late(o, s.ls[o], s.lf[o])
	}
}

// whole rounds the latest start of an option down to a whole unit, and gives the finish
// that goes with it.
func (d *dates) whole(o int32, start, finish calendars.Instant) (s, f calendars.Instant) {
	at := d.unit.Before(start)
	if at == start {
		return start, finish
	}
	if d.options[o].Work == 0 {
		return at, at
	}
	_, finish = critical.Place(d.n, &d.options[o].Node, at, calendars.Past)
	return at, finish
}
