package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// ZoneDone says that all the tasks of a zone are done, and since when.
func (w *Writer) ZoneDone(g *schedule.Programme, tasks []schedule.TaskID) string {
	return fmt.Sprintf("%s, all done %s", Count(len(tasks), "task", "tasks"), w.Moment(lastDone(g, tasks)))
}

// ZoneReady says when the last of the tasks of a place off the site is done.
func (w *Writer) ZoneReady(g *schedule.Programme, tasks []schedule.TaskID) string {
	return fmt.Sprintf("%s, all ready by %s", Count(len(tasks), "task", "tasks"), w.day(lastDone(g, tasks)))
}

// ZoneHurts is ZoneReady with the name of the task that may slip least, and the day by
// which it must be done.
func (w *Writer) ZoneHurts(g *schedule.Programme, tasks []schedule.TaskID, first string, by calendars.Instant) string {
	return fmt.Sprintf("%s; the first to hurt: %s, by %s", w.ZoneReady(g, tasks), first, w.day(by))
}

// ZoneTightest is ZoneReady with the least that one of the tasks may slip.
func (w *Writer) ZoneTightest(g *schedule.Programme, tasks []schedule.TaskID, least calendars.Minutes) string {
	return fmt.Sprintf("%s ready by %s, the tightest slips %s",
		Count(len(tasks), "task", "tasks"), w.day(lastDone(g, tasks)), work(least))
}

func (w *Writer) day(at calendars.Instant) string {
	return w.Day(calendars.DateIn(at, w.plan.Site.Location))
}

func lastDone(g *schedule.Programme, tasks []schedule.TaskID) (last calendars.Instant) {
	for _, t := range tasks {
		last = max(last, g.Tasks[t].Done)
	}
	return last
}

// Slip is how far something may slip, short enough to stand beside its name: "30m", "2h20",
// "69h"; "5m late" where it is negative.
func Slip(m calendars.Minutes) string {
	switch {
	case m == schedule.NoFloat:
		return "late"
	case m < 0:
		return Slip(-m) + " late"
	case m >= schedule.FreeRange:
		return "any"
	case m < calendars.Hour:
		return fmt.Sprintf("%dm", m)
	case m%calendars.Hour == 0 || m >= longSlip:
		return fmt.Sprintf("%dh", m/calendars.Hour)
	}
	return fmt.Sprintf("%dh%02d", m/calendars.Hour, m%calendars.Hour)
}

// BrokenBy is how late a broken date is, short enough to stand beside a name.
func (w *Writer) BrokenBy(b schedule.Break) string { return Slip(w.late(b).Time) }

// From longSlip on a figure beside a name has no minutes.
const longSlip = 10 * calendars.Hour

// LateAndTight says how many off the chain are late, and how many more may slip up to an
// hour; empty for none.
func LateAndTight(late, tight int, chain bool) string {
	switch {
	case late == 0 && tight == 0:
		return ""
	case tight == 0:
		return Count(late, "start that breaks a date", "starts that break a date")
	case late > 0:
		return fmt.Sprintf("%d too late off the chain; %d more tasks and lorries may slip up to an hour", late, tight)
	case chain:
		return Count(tight, "more task or lorry", "more tasks and lorries") + " may slip up to an hour"
	}
	return Count(tight, "task or lorry", "tasks and lorries") + " may slip up to an hour"
}

// DaysAside says how many days lie left and right of what is in sight; empty for none.
func DaysAside(left, right int) string {
	switch {
	case left == 0 && right == 0:
		return ""
	case left == 0:
		return Count(right, "more day right", "more days right")
	case right == 0:
		return Count(left, "more day left", "more days left")
	}
	return fmt.Sprintf("%s, %d right", Count(left, "more day left", "more days left"), right)
}

// MoreZones says how many zones lie above and below those in sight.
func MoreZones(above, below int) string {
	switch {
	case above == 0:
		return "+" + Count(below, "zone", "zones")
	case below == 0:
		return "+" + Count(above, "zone", "zones") + " above"
	}
	return fmt.Sprintf("+%s above, %d below", Count(above, "zone", "zones"), below)
}

// RowsAway says how many rows are out of sight, by arrows that say where.
func RowsAway(arrows string, rows int) string {
	if rows == 1 {
		return arrows + " row"
	}
	return arrows + " rows"
}

// MoreTasks counts tasks without a name.
func MoreTasks(n int) string { return "+" + Count(n, "task", "tasks") }

// MoreLorries counts lorries without a name.
func MoreLorries(n int) string { return "+" + Count(n, "lorry", "lorries") }

// DoneTasks counts the tasks that were done on days that are over.
func DoneTasks(n int) string { return fmt.Sprintf("%d done", n) }

// MoreNames counts names that have no room.
func MoreNames(n int) string { return "+" + Count(n, "name", "names") }

// MoreLines counts the lines of a text that have no room.
func MoreLines(n int) string { return "+" + Count(n, "line", "lines") }

// CauseOf says where what led to an activity begins.
func (w *Writer) CauseOf(g *schedule.Programme, a schedule.Activity) string {
	root := w.rootOf(g, a)
	if d, lorry := w.plan.Delivery(root.Activity); lorry && root.Reason.Kind == schedule.ByArrival {
		return fmt.Sprintf("Cause: %s comes %s.", w.lorry(d), w.Moment(g.Unloads[d].Arrives))
	}
	start := g.Of(root.Activity).Start
	what := fmt.Sprintf("Cause: %s starts %s", w.named(root.Activity), w.Moment(start))
	return w.because(what, []schedule.Reason{root.Reason}, start, root.Activity)
}

// rootOf returns the first step of what led to an activity.
func (w *Writer) rootOf(g *schedule.Programme, a schedule.Activity) schedule.Step {
	root := schedule.Step{Activity: a}
	for range g.Tasks {
		why := g.Of(root.Activity).Why
		if len(why) == 0 {
			break
		}
		root.Reason = why[0]
		next := why[0].After()
		if next == schedule.Nothing || len(g.Of(next).Why) == 0 {
			break
		}
		root.Activity = next
	}
	return root
}

// BreakAndMore says which date breaks, and how many others do.
func (w *Writer) BreakAndMore(b schedule.Break, more int) string {
	if more == 0 {
		return w.Break(b)
	}
	return strings.TrimSuffix(w.Break(b), ".") + "; " + Count(more, "more breaks", "more break")
}
