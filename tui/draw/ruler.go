package draw

import (
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

	left  int // the first column
	gate  int // the column of the gate opening
	width int // of the frame
	cols  int // columns from the opening to the line, at this zoom
	total int // minutes that take room from the opening to the line
	early int // minutes before the opening that are shown
	at    int // the column of the line
}

// The time before the gate opens takes 1/yardShare of the width, that beyond the line at
// most 1/beyondShare.
const (
	yardShare   = 7
	beyondShare = 4
)

func newRuler(g *Garden, width int, sc Scale) *ruler {
	site := &g.Plan.Site
	r := &ruler{site: g.Hours.Site, first: site.Opens, opens: site.Opens, line: site.Handover, left: 1, width: width}
	if sc.Nights {
		r.site = nil
	}
	r.gate = r.left
	if !sc.NoYard {
		r.gate += r.placeYard(g, width)
	}
	r.total = max(r.between(r.opens, r.line), 1)
	late := min(r.between(r.line, latest(g)), r.total/2)
	room := max(width-r.gate-2, 1) // less the line and a column after it
	r.cols = room
	if late > 0 {
		beyond := min(max(room*late/(r.total+late), 2), room/beyondShare)
		r.cols = room - beyond
	}
	r.cols = max(r.cols*max(sc.Zoom, 1), 1)
	r.at = r.gate + r.cols
	return r
}

// placeYard measures the work before the gate opens and returns how many columns it
// takes.
func (r *ruler) placeYard(g *Garden, width int) int {
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
	r.early = int(r.yard.Total())
	if r.early == 0 {
		r.yard = nil
		return 0
	}
	return min(max(width/yardShare, 8), 48)
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
	if t < r.opens {
		if r.yard == nil {
			return r.gate
		}
		return r.left + int(r.yard.Between(r.first, max(t, r.first)))*(r.gate-r.left)/r.early
	}
	c := r.gate + r.between(r.opens, t)*r.cols/r.total
	if t >= r.line {
		c = max(c, r.at) + 1
	}
	return c
}

// end returns the column after the last minute before t.
func (r *ruler) end(t calendars.Instant) int {
	if t >= r.opens && t <= r.line {
		return r.gate + r.between(r.opens, t)*r.cols/r.total
	}
	return r.column(t)
}

// rows returns the height of the ruler: 2 if there is a line of hours below the days,
// else 1.
func (r *ruler) rows(sc Scale) int {
	if sc.Nights || r.fitsHours(widestStep) {
		return 2
	}
	return 1
}

// widestStep is the longest step between two hours on the ruler.
const widestStep = 4

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
