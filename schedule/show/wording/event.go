package wording

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// Event says what happened, without when and without a full stop: "Set out started".
// What isn't in the plan is called by its id in the log.
func (w *Writer) Event(e *sitelog.Event) string {
	if e.What == sitelog.Added || e.What == sitelog.Signed {
		return w.extra(e)
	}
	said := w.happening(e)
	if e.Text != "" && e.What != sitelog.Note && e.What != sitelog.SnagOpened {
		said += ": " + e.Text
	}
	if e.Takes != 0 {
		said += "; " + work(e.Takes) + " to put it right"
	}
	if e.Crew != "" && e.What != sitelog.People {
		said += ", by " + w.teamNamed(e)
	}
	return said
}

// happening is [Writer.Event] without the text that somebody added to the event.
func (w *Writer) happening(e *sitelog.Event) string {
	switch {
	case e.What.OfLorry():
		return w.lorryNamed(e.Delivery) + " " + w.lorryDid(e)
	case e.Machine != "":
		return w.machineOf(e.Machine) + " " + w.machineDid(e)
	case e.What == sitelog.Appointed:
		return w.taskNamed(e.Task) + ": " + w.appointed(e)
	}
	switch e.What {
	case sitelog.Cancelled:
		return w.taskNamed(e.Task) + " cancelled"
	case sitelog.Failed:
		return w.taskNamed(e.Task) + " failed its " + w.checkOf(w.plan.FindTask(e.Task))
	case sitelog.Given, sitelog.Settled, sitelog.People:
		return w.there(e)
	case sitelog.Wet, sitelog.Windy, sitelog.Frost, sitelog.Heat:
		return w.sky(e)
	case sitelog.DutyDone:
		return Capital(dutyNamed(e.Duty)) + " of " + w.Day(e.Date) + " " + w.DutyDone(e)
	case sitelog.Accident, sitelog.NearMiss:
		return w.accident(e)
	case sitelog.Note, sitelog.SnagOpened:
		return w.note(e)
	case sitelog.Closed, sitelog.SnagClosed, sitelog.Undone:
		return ofEvent(e)
	}
	return w.worked(e)
}

// ofEvent words events about other events.
func ofEvent(e *sitelog.Event) string {
	switch e.What {
	case sitelog.Closed:
		return "Accident or near miss " + e.Of + " closed"
	case sitelog.SnagClosed:
		return "Snag " + e.Of + " put right"
	}
	return "Event " + e.Of + " taken back"
}

func (w *Writer) worked(e *sitelog.Event) string {
	name := w.taskNamed(e.Task)
	switch e.What {
	case sitelog.Finished:
		return name + " finished"
	case sitelog.Paused:
		return name + " paused"
	case sitelog.Resumed:
		return name + " went on"
	case sitelog.Left:
		return fmt.Sprintf("%s has %s left", name, work(e.Left))
	}
	return name + " started"
}

// there words events about givens, the desk list and people.
func (w *Writer) there(e *sitelog.Event) string {
	switch e.What {
	case sitelog.Given:
		for i := range w.plan.Givens {
			if w.plan.Givens[i].ID == e.Given {
				return Capital(w.plan.Givens[i].What) + " is there"
			}
		}
		return e.Given + " is there"
	case sitelog.Settled:
		if id := w.plan.FindDesk(e.Desk); id != schedule.None {
			return "Settled: " + w.plan.Desk[id].What
		}
		return "Settled: " + e.Desk
	}
	crew := w.crewNamed(e.Crew)
	if !e.WholeDay() {
		return fmt.Sprintf("%s: %d there %s to %s", crew, e.People, w.Moment(e.From), w.Then(e.Until, e.From))
	}
	turn := "turned"
	if e.Date > calendars.DateIn(e.At, w.plan.Site.Location) {
		turn = "will turn"
	}
	return fmt.Sprintf("%s: %d %s up on %s", crew, e.People, turn, w.Day(e.Date))
}

func (w *Writer) note(e *sitelog.Event) string {
	what, on := "Note", " on "
	if e.What == sitelog.SnagOpened {
		what, on = "Snag", " at "
	}
	switch {
	case e.Task != "":
		what += on + w.taskNamed(e.Task)
	case e.Delivery != "":
		what += on + w.lorryNamed(e.Delivery)
	}
	return what + ": " + e.Text
}

func (w *Writer) taskNamed(id string) string {
	if t := w.plan.FindTask(id); t != schedule.None {
		return w.Task(t)
	}
	for i := range w.plan.Cancelled {
		if w.plan.Cancelled[i].ID == id {
			return w.plan.Cancelled[i].Name
		}
	}
	return id
}

func (w *Writer) lorryNamed(id string) string {
	if d := w.plan.FindDelivery(id); d != schedule.None {
		return Capital(w.Delivery(d))
	}
	return id
}

func (w *Writer) crewNamed(id string) string {
	if c := w.plan.FindCrew(id); c != schedule.None {
		return w.plan.Crews[c].Name
	}
	return id
}

// LogTitle says how many events a log has, how many of them are taken back and how many
// don't count, each with the mark of those events.
func (w *Writer) LogTitle(events, undone, conflicts int, undoneMark, conflictMark string) string {
	if events == 0 {
		return w.plan.Garden + ", site log: nothing is logged yet."
	}
	text := w.plan.Garden + ", site log: " + Count(events, "event", "events")
	if undone > 0 {
		text += fmt.Sprintf(", %d taken back (%s)", undone, undoneMark)
	}
	if conflicts > 0 {
		text += ", " + Count(conflicts, "doesn't count", "don't count") + " (" + conflictMark + ")"
	}
	return text + "."
}

// LogLine says what happened, who wrote it, when it was written if that isn't within an
// hour, its number within the day, and a remark.
func (w *Writer) LogLine(events []sitelog.Event, e *sitelog.Event, number int, remark string) string {
	written := ""
	if e.Written < e.At || e.Written > e.At.Plus(calendars.Hour) {
		written = "written " + w.Then(e.Written, e.At)
	}
	return dotted(w.EventIn(events, e), e.By, written, fmt.Sprintf("no. %d", number), remark)
}

// EventName is what people call an event: the day on which it was true, and its number
// within that.
func (w *Writer) EventName(e *sitelog.Event, number int) string {
	return fmt.Sprintf("%s no. %d", w.Day(calendars.DateIn(e.At, w.plan.Site.Location)), number)
}

// TakenBack is the remark on an event that another one takes back.
const TakenBack = "taken back"

// NotCounted is the remark on an event that doesn't count, and why.
func NotCounted(why string) string { return "doesn't count: " + why }

// SetAside says what is wrong with a line of a log that is no event.
func SetAside(a sitelog.Aside) string {
	return fmt.Sprintf("Line %d, column %d: %s.", a.Line, a.Column, a.Why)
}

// AsAt says from which moment the plan's progress is, as a sentence; empty without
// progress.
func (w *Writer) AsAt() string {
	if w.plan.Now() == calendars.Past {
		return ""
	}
	return fmt.Sprintf("As at %s, by the site log.", w.Moment(w.plan.Now()))
}
