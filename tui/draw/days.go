package draw

import (
	"slices"
	"strings"

	"build.example/turflast/calendars"
)

// ruler writes the days on line y and, where there is room, the hours below them. With
// nights shown it marks the open hours instead.
func (w *window) ruler(y int) {
	days := w.rule.days(w.g)
	if i := slices.IndexFunc(days, func(d day) bool { return d.from >= w.rule.gate+w.rule.past }); i > 0 {
		w.gone(y, days[0], days[i].from)
		days = days[i:]
	}
	w.dayNames(y, days)
	rows := w.rule.rows(w.scale)
	switch {
	case w.scale.Nights:
		for s := range w.g.Hours.Site.Openings(w.rule.since, w.rule.line) {
			from := w.rule.column(s.Start)
			w.fill(from-w.look.Pan, max(w.rule.end(s.End), from+1)-w.look.Pan, y+1, markOpen, Quiet)
		}
	case rows > 1:
		for _, d := range days {
			w.hours(y+1, d)
		}
	}
	if w.rule.yard != nil {
		date := w.g.Date(w.rule.first)
		_, month, n := date.Civil()
		w.low = 0
		w.put(w.rule.left, y, Cut(itoa(n)+" "+month.String()[:3], w.rule.gate-w.rule.left-1), Quiet)
	}
	for y := range rows {
		if w.rule.at-w.look.Pan == w.lineX {
			w.set(w.lineX, w.head+y, markLine, Line)
		}
	}
}

// gone names the first of the days that are past and squeezed, up to a column.
func (w *window) gone(y int, d day, to int) {
	_, _, n := d.date.Civil()
	text := d.date.Weekday().String()[:3] + " " + itoa(n)
	if room := to - d.from - 1; Columns(text) > room {
		text = itoa(n)
	}
	if Columns(text) < to-d.from {
		w.put(d.from-w.look.Pan, y, text, Quiet)
	}
}

// dayNames writes each day above its first column, all in the longest of four
// forms that fits every day.
func (w *window) dayNames(y int, days []day) {
	forms := []func(calendars.Date) string{
		w.g.Words.Day,
		func(d calendars.Date) string {
			_, _, n := d.Civil()
			return d.Weekday().String()[:3] + " " + itoa(n)
		},
		func(d calendars.Date) string {
			_, _, n := d.Civil()
			return d.Weekday().String()[:3] + itoa(n)
		},
		func(d calendars.Date) string { _, _, n := d.Civil(); return itoa(n) },
	}
	for i, form := range forms {
		fits := true
		for _, d := range days {
			fits = fits && Columns(form(d.date)) < d.to-d.from
		}
		if !fits && i < len(forms)-1 {
			continue
		}
		for _, d := range days {
			if Columns(form(d.date)) <= max(d.to-d.from, 3) {
				x := w.put(d.from-w.look.Pan, y, form(d.date), Strong)
				w.opening(x+2, y, d)
			}
		}
		return
	}
}

// opening writes from when to when the site is open on a day, beside its name, where the
// ruler has no line of hours.
func (w *window) opening(x, y int, d day) {
	if w.rule.rows(w.scale) > 1 || w.head == headRows {
		return
	}
	first, last := w.g.siteHours(d.date)
	text := w.g.hour(first) + "–" + w.g.hour(last+1)
	if x+Columns(text)+1 < d.to-w.look.Pan {
		w.put(x, y, text, Quiet)
	}
}

// siteHours returns the first and the last open minute of a day of the site.
func (g *Garden) siteHours(on calendars.Date) (first, last calendars.Instant) {
	midnight, _ := calendars.At(g.Plan.Site.Location, on, 0)
	next, _ := calendars.At(g.Plan.Site.Location, on+1, 0)
	return g.Hours.Site.Next(midnight), g.Hours.Site.Last(next - 1)
}

// hour is clock without the minutes of a whole hour: 7, 12:30.
func (g *Garden) hour(t calendars.Instant) string {
	return strings.TrimPrefix(strings.TrimSuffix(g.clock(t), ":00"), "0")
}

// hours writes the whole hours of a day below it: every one, or every second, third or
// fourth, as room allows.
func (w *window) hours(y int, d day) {
	loc := w.g.Plan.Site.Location
	first, last := w.g.siteHours(d.date)
	for _, step := range []calendars.Minutes{1, 2, 3, 4} {
		if !w.rule.fitsHours(step) {
			continue
		}
		free := d.from
		for h := calendars.Minutes(0); h < 24; h += step {
			at, _ := calendars.At(loc, d.date, h*60)
			x := w.rule.column(at)
			if x < free || x+2 >= d.to || at >= w.rule.line || at < first || at > last {
				continue
			}
			w.put(x-w.look.Pan, y, itoa(int(h)), Quiet)
			free = x + 3
		}
		return
	}
}
