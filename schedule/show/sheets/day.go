package sheets

import (
	"cmp"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/safety"
	"build.example/turflast/schedule/site/sitelog"
)

// Day is the run sheet of one crew, or of everyone, on one date.
type Day struct {
	On      calendars.Date
	Crew    schedule.CrewID   // or Everyone
	Open    []calendars.Span  // when the crew is at work, or for everyone when the site is open
	Heads   int               // the most of the crew that are at work at a time, daily duties taken off
	Asked   []Question        // what should have been ticked off, on today's date and later ones
	Undone  []*schedule.Duty  // that were due on the day before the moment, and aren't logged as done
	Failed  []schedule.TaskID // whose sign-off failed, of the crew or what its work waits for
	Terms   []Condition       // on which something was signed, not done yet
	Gone    []Gone            // what was cancelled on the day or the one before
	Begun   []schedule.TaskID // begun, not ticked as finished, and without a line
	Lines   []Line            // what is begun and not ticked as finished first, then by start
	Duties  []Duty
	Gate    []Pass        // what comes and goes through the gate
	SignOff []Appointment // that somebody must come for on the day
	Hazards []string      // of the lines, each once
	Tired   []Tired       // where hours go over published guidance
	Next    []schedule.TaskID
}

// mostNext is how many tasks of later days a run sheet names.
const mostNext = 3

// Duty is a daily duty on a date.
type Duty struct {
	Duty *schedule.Duty
	Crew schedule.CrewID
	Span calendars.Span
	Who  int            // heads
	Done *sitelog.Event // it is done on the date by the log; nil when it isn't
}

// Tired is a finding that the hours of a crew go over published guidance.
type Tired struct {
	Crew     schedule.CrewID
	Finding  safety.Finding
	Guidance safety.Guidance
}

// Of returns the run sheet of a date, for one crew or for Everyone.
func (b *Book) Of(on calendars.Date, crew schedule.CrewID) *Day {
	d := &Day{On: on, Crew: crew, Failed: b.Failed(on, crew), Lines: b.Lines(on, crew), Gate: b.Gate(on)}
	d.Terms, d.Gone = b.Conditions(on, crew), b.Gone(on)
	if on >= b.date(b.Plan.Now()) {
		d.Asked, d.Undone = b.Questions(crew), b.Undone(crew)
	}
	b.begunFirst(d)
	day := b.day(on)
	if crew == Everyone {
		d.Open = slices.Collect(b.Hours.Site.Openings(day.Start, day.End))
	} else {
		d.Open, d.Heads = b.present(crew, day)
	}
	d.Duties = b.duties(on, crew)
	d.Hazards = b.hazards(d)
	for _, a := range b.Appointments() {
		if b.date(a.At) == on && Needs(b.Plan.Tasks[a.Task].Crew, crew) {
			d.SignOff = append(d.SignOff, a)
		}
	}
	for c := range b.Plan.Crews {
		if crew == Everyone || crew == schedule.CrewID(c) {
			d.Tired = append(d.Tired, b.Tired(on, schedule.CrewID(c))...)
		}
	}
	d.Next = b.next(day.End, crew)
	return d
}

// hazards lists the hazards of a day's work, each once: of its lines and of what is begun.
func (b *Book) hazards(d *Day) (out []string) {
	var all []string
	for _, l := range d.Lines {
		if t, ok := b.Plan.Task(l.Activity); ok {
			all = append(all, b.Plan.Tasks[t].Hazards...)
		}
	}
	for _, t := range d.Begun {
		all = append(all, b.Plan.Tasks[t].Hazards...)
	}
	for _, h := range schedule.Hazards() {
		if slices.Contains(all, h) {
			out = append(out, h)
		}
	}
	return out
}

// present returns when a crew is at work within a span, and the most heads at work at a
// time.
func (b *Book) present(c schedule.CrewID, in calendars.Span) (open []calendars.Span, most int) {
	for s, n := range b.Hours.Crews[c].Steps {
		if s.Start >= in.End {
			break
		}
		s = calendars.Span{Start: max(s.Start, in.Start), End: min(s.End, in.End)}
		if n == 0 || s.Start >= s.End {
			continue
		}
		most = max(most, n)
		if k := len(open); k > 0 && open[k-1].End == s.Start {
			open[k-1].End = s.End
		} else {
			open = append(open, s)
		}
	}
	return open, most
}

func (b *Book) duties(on calendars.Date, crew schedule.CrewID) []Duty {
	var out []Duty
	for i := range b.Plan.Duties {
		duty := &b.Plan.Duties[i]
		if on < duty.From || on > duty.To {
			continue
		}
		for _, n := range duty.Crew {
			if crew == Everyone || n.Crew == crew {
				from, _ := calendars.At(b.Plan.Site.Location, on, duty.At.From)
				to, _ := calendars.At(b.Plan.Site.Location, on, duty.At.To)
				out = append(out, Duty{duty, n.Crew, calendars.Span{Start: from, End: to}, n.Least, b.DutyDone(duty, on)})
			}
		}
	}
	slices.SortStableFunc(out, func(a, c Duty) int { return cmp.Compare(a.Span.Start, c.Span.Start) })
	return out
}

// Tired returns what guidance advises against in the hours of a crew, where it ends on
// the date, the first finding of each kind. What counts is the time on site from the first
// work of a day to the last, as it was done or is planned, from a week before the date on.
func (b *Book) Tired(on calendars.Date, crew schedule.CrewID) []Tired {
	var busy []calendars.Span
	worked := false
	for d := on - 7; d <= on; d++ {
		here := b.busy(d, crew)
		worked = len(here) > 0
		busy = append(busy, here...)
	}
	if !worked {
		return nil
	}
	g := safety.GuidanceFor(b.Plan.Site.Region, b.Plan.Site.Location)
	var out []Tired
	for _, f := range safety.Find(busy, b.Plan.Site.Location, g) {
		if f.To != on {
			continue
		}
		if k := slices.IndexFunc(out, func(t Tired) bool { return t.Finding.Kind == f.Kind }); k < 0 {
			out = append(out, Tired{crew, f, g})
		}
	}
	return out
}

// busy returns when a crew is there on a date from its first work to its last, and works
// outside that, sorted and apart; none on a date without work.
func (b *Book) busy(on calendars.Date, crew schedule.CrewID) []calendars.Span {
	day := b.day(on)
	var all []calendars.Span
	for _, l := range b.Lines(on, crew) {
		for _, s := range b.worked(l.Activity) {
			if s = (calendars.Span{Start: max(s.Start, day.Start), End: min(s.End, day.End)}); s.Start < s.End {
				all = append(all, s)
			}
		}
	}
	if len(all) == 0 {
		return nil
	}
	whole := all[0]
	for _, s := range all {
		whole = calendars.Span{Start: min(whole.Start, s.Start), End: max(whole.End, s.End)}
	}
	there, _ := b.present(crew, whole)
	all = append(all, there...)
	slices.SortFunc(all, func(x, y calendars.Span) int { return cmp.Compare(x.Start, y.Start) })
	out := all[:1]
	for _, s := range all[1:] {
		if last := &out[len(out)-1]; s.Start <= last.End {
			last.End = max(last.End, s.End)
		} else {
			out = append(out, s)
		}
	}
	return out
}

// next lists the first tasks of a crew that start at a moment or later, at most
// mostNext.
func (b *Book) next(from calendars.Instant, crew schedule.CrewID) []schedule.TaskID {
	out := slices.DeleteFunc(b.byStart(), func(t schedule.TaskID) bool {
		d := &b.Programme.Tasks[t]
		return !d.Start.IsReal() || d.Dropped || d.Start < from || !Needs(b.Plan.Tasks[t].Crew, crew)
	})
	return out[:min(len(out), mostNext)]
}

// byStart lists all tasks by their start.
func (b *Book) byStart() []schedule.TaskID {
	out := make([]schedule.TaskID, len(b.Plan.Tasks))
	for i := range out {
		out[i] = schedule.TaskID(i)
	}
	slices.SortStableFunc(out, func(a, c schedule.TaskID) int {
		return cmp.Compare(b.Programme.Tasks[a].Start, b.Programme.Tasks[c].Start)
	})
	return out
}
