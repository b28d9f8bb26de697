package plans

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// failing is a test, as far as a log that can't be made needs one.
type failing interface {
	Helper()
	Fatalf(format string, args ...any)
}

// Log makes the events of a site log of lines such as "3 08:30 started dig": the day of
// May 2027, the time, the kind and what it happened to. After that stand the heads who
// turned up, perhaps with the times between which they were there, the minutes left, the times
// between which it was wet, windy and so on, the time for which a
// lorry is booked on the next day, or else why it was.
func Log(t failing, p *schedule.Plan, lines ...string) []sitelog.Event {
	t.Helper()
	var out []sitelog.Event
	for i, line := range lines {
		out = append(out, Event(t, p, i, line))
	}
	return out
}

// Event makes one of them, whose id is e and its number in the log.
func Event(t failing, p *schedule.Plan, number int, line string) sitelog.Event {
	t.Helper()
	day, words := 0, strings.Fields(line)
	if _, err := fmt.Sscan(words[0], &day); err != nil {
		t.Fatalf("%s: %v", line, err)
	}
	at := Moment(t, p, day, words[1])
	e := sitelog.Event{ID: fmt.Sprint("e", number), At: at, Written: at, By: "Ann", What: sitelog.Kind(words[2])}
	about, more := "", ""
	if len(words) > 3 {
		about, more = words[3], strings.Join(words[4:], " ")
	}
	switch e.What {
	case sitelog.People:
		e.Crew, e.Date = about, date(day)
		count, part, _ := strings.Cut(more, " ")
		if _, _ = fmt.Sscan(count, &e.People); part != "" {
			from, until, _ := strings.Cut(part, " ")
			e.From, e.Until = Moment(t, p, day, from), Moment(t, p, day, until)
		}
	case sitelog.Left:
		e.Task = about
		_, _ = fmt.Sscan(more, &e.Left)
	case sitelog.Wet, sitelog.Windy, sitelog.Frost, sitelog.Heat:
		e.Date = date(day)
		if about != "" {
			e.From, e.Until = Moment(t, p, day, about), Moment(t, p, day, more)
		}
	case sitelog.Rebooked:
		e.Delivery, e.To = about, at.Plus(calendars.Day)
		if more != "" {
			e.To = Moment(t, p, day+1, more)
		}
	default:
		happened(&e, about, more)
	}
	if err := e.Shape(); err != nil {
		t.Fatalf("%s: %v", line, err)
	}
	return e
}

// happened fills in an event that says no more than what it happened to, and why.
func happened(e *sitelog.Event, about, why string) {
	switch {
	case e.What.OfLorry():
		e.Delivery = about
	case e.What == sitelog.Away, e.What == sitelog.Back:
		e.Machine = about
	case e.What == sitelog.Settled:
		e.Desk = about
	case e.What == sitelog.Given:
		e.Given = about
	default:
		e.Task = about
	}
	switch e.What {
	case sitelog.Paused, sitelog.Failed, sitelog.Refused, sitelog.Short:
		why = cmp.Or(why, "so it was")
	case sitelog.Started: // who is at it, and how many
		_, _ = fmt.Sscan(why, &e.Crew, &e.People)
		why = ""
	}
	e.Text = why
}

func date(day int) calendars.Date { return calendars.DateOf(2027, time.May, day) }

// Moment is a minute of May 2027 on the clock of a plan's site.
func Moment(t failing, p *schedule.Plan, day int, clock string) calendars.Instant {
	t.Helper()
	minute, err := calendars.ParseClock(clock)
	if err != nil {
		t.Fatalf("%v", err)
	}
	at, _ := calendars.At(p.Site.Location, date(day), minute)
	return at
}
