package wall

import (
	"slices"
	"sort"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
)

// day is one day of the ruler with its open hours.
type day struct {
	date  calendars.Date
	open  []calendars.Span
	past  bool    // it is over, and squeezed
	x, to float64 // in millimetres; a seam follows
}

// minutes are the open minutes of a day.
func (d *day) minutes() (n calendars.Minutes) {
	for _, s := range d.open {
		n += calendars.Minutes(s.End - s.Start)
	}
	return n
}

// weight is the room that a day asks for: its hours, but less when it is over.
func (d *day) weight() float64 {
	if d.past {
		return float64(d.minutes()) * pastShare
	}
	return float64(d.minutes())
}

const (
	pastShare = 0.35 // of its hours that a day that is over takes room for
	seamWidth = 2.2  // of a night
)

// axis maps moments to millimetres: open hours take room, nights a seam each, through which
// cures run.
type axis struct {
	days  []day
	knots []knot
}

// knot is a moment whose place is given; between two of them time runs evenly.
type knot struct {
	at calendars.Instant
	x  float64
}

// daysOf lists the days with open hours from the opening to the last finish, at least to the
// hand-over.
func daysOf(c network.Case) []day {
	site := &c.Plan.Site
	end := site.Handover
	for i := range c.Programme.Tasks {
		if d := &c.Programme.Tasks[i]; d.Done.IsReal() && !d.Dropped {
			end = max(end, d.Done)
		}
	}
	for i := range c.Programme.Unloads {
		if u := &c.Programme.Unloads[i]; u.Finish.IsReal() {
			end = max(end, u.Finish)
		}
	}
	now := c.Plan.Now()
	var out []day
	for s := range c.Hours.Site.Openings(site.Opens, end) {
		on := calendars.DateIn(s.Start, site.Location)
		if n := len(out); n > 0 && out[n-1].date == on {
			out[n-1].open = append(out[n-1].open, s)
			continue
		}
		next, _ := calendars.At(site.Location, on+1, 0)
		out = append(out, day{date: on, open: []calendars.Span{s}, past: next <= now})
	}
	return out
}

// newAxis lays days out from x on, in so many millimetres.
func newAxis(days []day, x, width float64) *axis {
	a := &axis{days: slices.Clone(days)}
	all := 0.0
	for i := range a.days {
		all += a.days[i].weight()
	}
	scale := (width - seamWidth*float64(len(days)-1)) / max(all, 1)
	for i := range a.days {
		d := &a.days[i]
		d.x = x
		each := scale
		if d.past {
			each *= pastShare
		}
		for _, s := range d.open {
			a.knots = append(a.knots, knot{s.Start, x})
			x += each * float64(s.End-s.Start)
			a.knots = append(a.knots, knot{s.End, x})
		}
		d.to = x
		x += seamWidth
	}
	return a
}

func (a *axis) start() calendars.Instant { return a.knots[0].at }
func (a *axis) end() calendars.Instant   { return a.knots[len(a.knots)-1].at }
func (a *axis) left() float64            { return a.knots[0].x }
func (a *axis) right() float64           { return a.knots[len(a.knots)-1].x }

// from is where what begins at a moment begins: after a seam, not before it.
func (a *axis) from(t calendars.Instant) float64 {
	i := sort.Search(len(a.knots), func(i int) bool { return a.knots[i].at > t })
	return a.between(i, t)
}

// to is where what ends at a moment ends: before a seam.
func (a *axis) to(t calendars.Instant) float64 {
	i := sort.Search(len(a.knots), func(i int) bool { return a.knots[i].at >= t })
	return a.between(i, t)
}

// between is the place of a moment before knot i.
func (a *axis) between(i int, t calendars.Instant) float64 {
	switch {
	case i == 0:
		return a.knots[0].x
	case i == len(a.knots):
		return a.right()
	}
	p, q := a.knots[i-1], a.knots[i]
	return p.x + (q.x-p.x)*float64(t-p.at)/float64(q.at-p.at)
}

// has says whether any of a stretch lies on the axis.
func (a *axis) has(s calendars.Span) bool { return s.Start < a.end() && s.End > a.start() }

// chunks splits days into as few runs as leave each day a least width, about as long as each
// other.
func chunks(days []day, width, least float64) [][]day {
	most := max(int((width+seamWidth)/(least+seamWidth)), 1)
	n := (len(days) + most - 1) / most
	var out [][]day
	for i := range n {
		out = append(out, days[i*len(days)/n:(i+1)*len(days)/n])
	}
	return out
}

// onAxis says whether an activity has dates on a chart.
func onAxis(c network.Case, a schedule.Activity) bool {
	return c.Programme.Of(a).Start.IsReal() && !c.Programme.LeavesOut(a)
}
