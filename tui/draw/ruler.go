package draw

import (
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Scale says which time takes room on the window, and how much.
type Scale struct {
	Nights bool // closed hours take room too
	NoYard bool // the time before the gate opens takes none
	Zoom   int  // factor on the width that fits the frame; 0 and 1 are the same
}

// ruler maps moments to columns. From the gate opening on, the site's open hours take
// room, up to the hand-over line and beyond it. Before, if anyone works then, the hours
// of the places off site do, at a scale of their own.
type ruler struct {
	site  *calendars.Calendar // nil: all minutes count, nights too
	yard  *calendars.Calendar // the hours off site before the gate opens; nil: none
	first calendars.Instant   // the earliest work off site
	opens calendars.Instant
	line  calendars.Instant

	left   int // the first column
	gate   int // the column of the gate opening
	width  int // of the frame
	cols   int // columns from the opening to the line, at this zoom
	total  int // minutes that take room from the opening to the line
	early  int // minutes before the opening that are shown
	at     int // the column of the line
	late   int // minutes after the line that are shown
	beyond int // columns that they take
	edge   int // the column after the last

	since calendars.Instant // what lies before is past and squeezed; the opening where nothing is
	past  int               // columns from the opening to then
	gone  int               // minutes that take room from the opening to then
	step  calendars.Minutes // the widest between two hours on the ruler
}

// The names of zones take 1/nameShare of the width, within limits. The time beyond the line
// takes as much as its length asks for, or as names want, but at most 1/beyondShare. Days
// that are past take at most 1/pastShare.
const (
	nameShare   = 8
	leastNames  = 13
	mostNames   = 26
	beyondShare = 4
	leastBeyond = 22
	pastShare   = 12
)

func newRuler(g *Garden, width int, sc Scale) *ruler {
	site := &g.Plan.Site
	r := &ruler{site: g.Hours.Site, first: site.Opens, opens: site.Opens, line: site.Handover, left: 1, width: width}
	r.since, r.gate, r.step = site.Opens, r.left, 4
	if sc.Nights {
		r.site = nil
	}
	if !sc.NoYard {
		r.step = 2
		r.gate += min(max(width/nameShare, leastNames), mostNames, max(g.longestZone()+1, leastNames))
		r.placeYard(g)
	}
	r.total = max(r.between(r.opens, r.line), 1)
	r.late = r.between(r.line, latest(g))
	room := max(width-r.gate-2, 1) // less the line and a column after it
	if r.late > 0 {
		r.beyond = min(max(room*r.late/(r.total+r.late), leastBeyond), room/beyondShare)
	}
	zoom := max(sc.Zoom, 1)
	r.cols = max((room-r.beyond)*zoom, 1)
	r.beyond *= zoom
	r.at = r.gate + r.cols
	r.edge = r.at + 1 + max(r.beyond, 1)
	r.squeeze(g, room)
	return r
}

// longestZone returns the columns of the longest name that stands beside the zones.
func (g *Garden) longestZone() int {
	most := Columns(chainName)
	for z := range g.Plan.Zones {
		most = max(most, Columns(strings.ToUpper(g.zoneName(schedule.ZoneID(z)))))
	}
	return most
}

// squeeze makes the days that are past narrow while a build is under way.
func (r *ruler) squeeze(g *Garden, room int) {
	if g.Plan.Progress == nil || g.Now <= r.opens {
		return
	}
	midnight, _ := calendars.At(g.Plan.Site.Location, g.Date(g.Now), 0)
	since := min(max(g.Hours.Site.Next(midnight), r.opens), g.Now)
	gone := r.between(r.opens, since)
	if since <= r.opens || since >= r.line || gone == 0 || gone >= r.total {
		return
	}
	r.since, r.gone, r.past = since, gone, min(r.cols*gone/r.total, max(room/pastShare, 1))
}

// placeYard measures the work before the gate opens, which is drawn below the zones' names.
func (r *ruler) placeYard(g *Garden) {
	var spans []calendars.Span
	for z := range g.Plan.Zones {
		if !g.Plan.Zones[z].OffSite {
			continue
		}
		first := r.opens
		for t := range g.Plan.Tasks {
			if g.Shown(schedule.Activity(t)) && g.Plan.Tasks[t].Zones[0] == schedule.ZoneID(z) {
				first = min(first, g.Programme.Tasks[t].Start)
			}
		}
		if first < r.opens {
			for s := range g.Hours.Places[z].Openings(first, r.opens) {
				spans = append(spans, s)
			}
		}
		r.first = min(r.first, first)
	}
	r.yard = calendars.New(spans)
	if r.early = int(r.yard.Total()); r.early == 0 {
		r.yard = nil
	}
}

// latest returns when the last work, cure or unloading is over; at least the hand-over.
func latest(g *Garden) calendars.Instant {
	end := g.Plan.Site.Handover
	for i := range g.Programme.Tasks {
		if d := g.Programme.Tasks[i]; d.Done.IsReal() && g.Shown(schedule.Activity(i)) {
			end = max(end, d.Done)
		}
	}
	for _, u := range g.Programme.Unloads {
		if u.Finish.IsReal() {
			end = max(end, u.Finish)
		}
	}
	return end
}

// between counts the minutes that take room between two moments.
func (r *ruler) between(a, b calendars.Instant) int {
	if r.site == nil {
		return int(b) - int(a)
	}
	return int(r.site.Between(a, b))
}

// column returns where the minute that starts at t is drawn on a frame that isn't
// panned; with zoom it may lie far beyond the frame.
func (r *ruler) column(t calendars.Instant) int {
	switch {
	case t < r.opens && r.yard == nil:
		return r.gate
	case t < r.opens:
		return r.left + int(r.yard.Between(r.first, max(t, r.first)))*(r.gate-1-r.left)/r.early
	case t >= r.line:
		return r.at + 1 + r.after(t)
	}
	return r.before(t)
}

// before is column for a moment from the opening to the line.
func (r *ruler) before(t calendars.Instant) int {
	if t < r.since {
		return r.gate + r.between(r.opens, t)*r.past/r.gone
	}
	return r.gate + r.past + r.between(r.since, t)*(r.cols-r.past)/(r.total-r.gone)
}

// after returns how many columns beyond the line a moment is: to the scale before it, where
// that leaves the last moment in sight.
func (r *ruler) after(t calendars.Instant) int {
	m := r.between(r.line, t)
	if room := r.beyond - 2; r.late*r.cols > room*r.total {
		return m * max(room, 0) / max(r.late, 1)
	}
	return m * r.cols / r.total
}

// end returns the column after the last minute before t.
func (r *ruler) end(t calendars.Instant) int {
	if t >= r.opens && t <= r.line {
		return r.before(t)
	}
	return r.column(t)
}

// rows returns the height of the ruler: 2 if there is a line of hours below the days,
// else 1.
func (r *ruler) rows(sc Scale) int {
	if sc.Nights || r.fitsHours(r.step) {
		return 2
	}
	return 1
}

// fitsHours says whether there is room for the hours at a step.
func (r *ruler) fitsHours(step calendars.Minutes) bool {
	return r.cols*int(step)*60 >= r.total*4
}

// day is one day of the ruler.
type day struct {
	date     calendars.Date
	from, to int // columns
}

// days lists the days that have a column, in order.
func (r *ruler) days(g *Garden) []day {
	var out []day
	last := max(r.line, latest(g))
	for d := g.Date(r.opens); d <= g.Date(last-1); d++ {
		from, _ := calendars.At(g.Plan.Site.Location, d, 0)
		to, _ := calendars.At(g.Plan.Site.Location, d+1, 0)
		if g.Hours.Site.Next(max(from, r.opens)) >= to && r.site != nil {
			continue
		}
		x, end := r.column(max(from, r.opens)), r.end(to)
		if r.site != nil {
			x = r.column(g.Hours.Site.Next(max(from, r.opens)))
		}
		if end > x {
			out = append(out, day{d, x, end})
		}
	}
	return out
}
