package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"turflast/calendars"
	"turflast/schedule"
)

// latestMsg brings how late one delivery of a target may come.
type latestMsg struct {
	gen      int
	delivery schedule.DeliveryID
	at       calendars.Instant
}

// latest tries later arrivals of one delivery.
func latest(opts Options, gen int, t target, now *schedule.Programme, d schedule.DeliveryID) tea.Cmd {
	return func() tea.Msg {
		return latestMsg{gen, d, latestArrival(opts.Solve, t.plan, now, d)}
	}
}

// latestArrival is the latest arrival of a delivery at which every date that
// holds in now still holds: its own booking when any later one breaks a date,
// Never when none does before the hand-over, zero when that can't be told. Each
// step of the search solves the plan twice: once to find when a lorry of that
// arrival is unloaded, and once with the lorry arriving just then, so that one
// that would stand at a closed gate is booked for its opening.
func latestArrival(solve func(*schedule.Plan) (Solution, error), p *schedule.Plan, now *schedule.Programme, d schedule.DeliveryID) calendars.Instant {
	from := p.Deliveries[d].Arrives
	if now.Blocked != nil {
		return 0
	}
	holds := func(at calendars.Instant) (unloaded calendars.Instant, ok bool) {
		s, err := solve(p.Rebooked(d, at))
		if err != nil {
			return 0, false
		}
		unloaded = s.Programme.Unloads[d].Start
		if unloaded != at && unloaded.IsReal() {
			if s, err = solve(p.Rebooked(d, unloaded)); err != nil {
				return 0, false
			}
		}
		return unloaded, unloaded.IsReal() && !breaksMore(now, s.Programme)
	}
	best, low, high := from, from, p.Site.Handover
	for low < high {
		middle := low + (high-low+1)/2
		if at, ok := holds(middle); ok {
			best, low = max(best, at), max(middle, min(at, high))
		} else {
			high = middle - 1
		}
	}
	if best >= p.Site.Handover {
		return calendars.Never
	}
	return best
}

// breaksMore says whether a programme breaks a date that another doesn't.
func breaksMore(before, after *schedule.Programme) bool {
	for _, b := range after.Breaks {
		if !slices.ContainsFunc(before.Breaks, func(a schedule.Break) bool {
			return a.Kind == b.Kind && a.Task == b.Task && a.Delivery == b.Delivery
		}) {
			return true
		}
	}
	return after.Blocked != nil && before.Blocked == nil
}

// searchNext begins the search for the next delivery of the shown plan, if any
// is left and nothing else is being solved.
func (a app) searchNext() (app, tea.Cmd) {
	d := schedule.DeliveryID(len(a.latest))
	if a.solving || a.garden == nil || int(d) >= len(a.shown.plan.Deliveries) {
		return a, nil
	}
	a.solving = true
	return a, latest(a.opts, a.gen, a.shown, a.garden.Programme, d)
}

// searched takes what a search found, unless a newer target waits: that is
// solved next.
func (a app) searched(msg latestMsg) (app, tea.Cmd) {
	a.solving = false
	if msg.gen != a.gen {
		a.solving = true
		return a, solve(a.opts, a.gen, a.want)
	}
	a.latest = append(a.latest[:len(a.latest):len(a.latest)], msg.at)
	a.deliveries = a.deliveries.SetLatest(a.latest)
	return a.searchNext()
}
