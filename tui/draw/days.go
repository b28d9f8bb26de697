package draw

import "build.example/turflast/calendars"

// ruler writes the days and, below them, the hours. With nights shown it marks the open
// hours instead.
func (w *window) ruler() {
	days := w.rule.days(w.g)
	w.dayNames(days)
	if w.scale.Nights {
		for s := range w.g.Hours.Site.Openings(w.rule.opens, w.rule.line) {
			from := w.rule.column(s.Start)
			w.fill(from-w.look.Pan, max(w.rule.end(s.End), from+1)-w.look.Pan, headRows+1, markOpen, Quiet)
		}
	} else {
		for _, d := range days {
			w.hours(d)
		}
	}
	if w.rule.yard != nil {
		text := Cut(w.g.Words.Day(w.g.Date(w.rule.first)), w.rule.gate-w.rule.left-1)
		w.put(w.rule.left-w.look.Pan, headRows, text, Quiet)
	}
	for y := range w.rule.rows(w.scale) {
		if w.rule.at-w.look.Pan == w.lineX {
			w.set(w.lineX, headRows+y, markLine, Line)
		}
	}
}

// dayNames writes each day above its first column, all in the longest of four
// forms that fits every day.
func (w *window) dayNames(days []day) {
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
				w.put(d.from-w.look.Pan, headRows, form(d.date), Strong)
			}
		}
		return
	}
}

// hours writes the whole hours of a day below it: every one, or every second, third or
// fourth, as room allows.
func (w *window) hours(d day) {
	loc := w.g.Plan.Site.Location
	midnight, _ := calendars.At(loc, d.date, 0)
	next, _ := calendars.At(loc, d.date+1, 0)
	first, last := w.g.Hours.Site.Next(midnight), w.g.Hours.Site.Last(next-1)
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
			w.put(x-w.look.Pan, headRows+1, itoa(int(h)), Quiet)
			free = x + 3
		}
		return
	}
}
