// Package plans makes plans for tests: small random ones that use every
// construct a plan may have ([Small]), large ordinary ones ([Big]), and their
// text as a plan file ([YAML]). They are what a reader accepts: nothing needs
// more than there is, no links run in a ring, no time is skipped by the clocks.
package plans

import (
	"math/rand/v2"
	"time"

	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Source makes choices.
type Source interface {
	Int(lo, hi int) int // from lo to hi, both included
}

// Seeded makes choices from a seed.
func Seeded(seed uint64) Source { return seeded{rand.New(rand.NewPCG(seed, 7))} }

type seeded struct{ r *rand.Rand }

func (s seeded) Int(lo, hi int) int { return lo + s.r.IntN(hi-lo+1) }

// Drawn lets a property test choose, so that it can look for a smaller plan
// that fails as well.
func Drawn(t *rapid.T) Source { return drawn{t} }

type drawn struct{ t *rapid.T }

func (d drawn) Int(lo, hi int) int { return rapid.IntRange(lo, hi).Draw(d.t, "choice") }

// maker makes one plan.
type maker struct {
	src   Source
	p     *schedule.Plan
	first calendars.Date // of the window
	days  int            // of the window
}

// Small makes a plan of 2 to 12 tasks over a window of 3 to 9 days.
func Small(src Source) *schedule.Plan {
	m := &maker{src: src, p: &schedule.Plan{Garden: "Random Court", Currency: "GBP", Stages: schedule.BuiltInStages()}}
	m.window()
	m.siteHours()
	m.gate()
	m.zones()
	m.crews()
	m.machines()
	m.duties()
	m.tasks()
	m.deliveries()
	m.rules()
	m.links()
	m.extras()
	m.measures()
	m.excuse()
	m.aged()
	m.soaks()
	m.standsClear()
	m.unused()
	m.ends()
	m.dries()
	m.stands()
	m.owed()
	return m.p
}

// Dryish is a small plan in which a third of the work must be dry.
func Dryish(seed uint64) *schedule.Plan {
	p := Small(Seeded(seed))
	p.Site.Wet = &schedule.WetDays{Dries: 90}
	for i := range p.Tasks {
		if i%3 == 0 {
			p.Tasks[i].Weather |= schedule.Dry
		}
	}
	return p
}

func (m *maker) in(lo, hi int) int { return m.src.Int(lo, hi) }

// chance is true in this many of a hundred cases; the simplest choice is false.
func (m *maker) chance(percent int) bool { return m.src.Int(0, 99) >= 100-percent }

func pick[T any](m *maker, list []T) T { return list[m.in(0, len(list)-1)] }

// minutes is a length of whole steps of 15 minutes.
func (m *maker) minutes(lo, hi calendars.Minutes) calendars.Minutes {
	return calendars.Minutes(m.in(int(lo/15), int(hi/15))) * 15
}

// when is a wall-clock moment of a day of the window, a step later where the
// clocks skip it.
func (m *maker) when(day int, minute calendars.Minutes) calendars.Instant {
	return wall(m.p.Site.Location, m.first+calendars.Date(day), minute)
}

func wall(loc *time.Location, d calendars.Date, minute calendars.Minutes) calendars.Instant {
	t, clock := calendars.At(loc, d, minute)
	for clock == calendars.Skipped {
		minute += 60
		t, clock = calendars.At(loc, d, minute)
	}
	return t
}

// said is a moment that a plan file can write: of two with the same wall-clock
// time the first.
func (m *maker) said(t calendars.Instant) calendars.Instant {
	local := t.In(m.p.Site.Location)
	return wall(m.p.Site.Location, calendars.DateIn(t, m.p.Site.Location),
		calendars.Minutes(60*local.Hour()+local.Minute()))
}
