package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/sitelog"
)

// extra words a signature, with who signed and on what condition, and work that is added.
func (w *Writer) extra(e *sitelog.Event) string {
	if e.What == sitelog.Signed {
		said := w.taskNamed(e.Task) + " signed"
		if e.Who != "" {
			said += " by " + e.Who
		}
		if e.Text == "" {
			return said
		}
		return fmt.Sprintf("%s on condition: %s; %s by %s, to be done by %s", said, e.Text, work(e.Takes), w.teamNamed(e),
			w.Moment(e.Until))
	}
	said := fmt.Sprintf("%s added to the plan: %s by %s", e.Text, work(e.Takes), w.teamNamed(e))
	for z := range w.plan.Zones {
		if w.plan.Zones[z].ID == e.Zone {
			said += ", " + w.plan.Zones[z].Name
		}
	}
	for _, x := range [...]struct{ word, ids string }{{"after", e.Follows}, {"before", e.Precedes}} {
		var names []string
		for _, id := range sitelog.List(x.ids) {
			names = append(names, w.taskNamed(id))
		}
		if len(names) > 0 {
			said += ", " + x.word + " " + list(names)
		}
	}
	if e.Until != 0 {
		said += ", to be done by " + w.Moment(e.Until)
	}
	return said
}

// teamNamed names the crew of an event, and how many of it if that is said.
func (w *Writer) teamNamed(e *sitelog.Event) string {
	if e.People == 0 {
		return w.crewNamed(e.Crew)
	}
	return fmt.Sprintf("%s %d", w.crewNamed(e.Crew), e.People)
}

// signer is who signed a task, to follow when; empty if that isn't known.
func (w *Writer) signer(t schedule.TaskID) string {
	if w.plan.Progress == nil || w.plan.Progress.Tasks[t].By == "" {
		return ""
	}
	return " by " + w.plan.Progress.Tasks[t].By
}

// OnCondition says at the head of a sheet on what condition a task was signed, and until when
// that is to be done.
func (w *Writer) OnCondition(b *sheets.Book, c sheets.Condition) string {
	text := fmt.Sprintf("%s was signed %s%s on condition: %s, %s.", w.numbered(b, c.Of.Activity()),
		w.Moment(w.plan.Progress.Tasks[c.Of].Signed), w.signer(c.Of), w.numbered(b, c.Work.Activity()),
		"to be done by "+w.Moment(w.plan.Tasks[c.Work].By))
	if d := &b.Programme.Tasks[c.Work]; d.Finish.IsReal() && d.Finish > w.plan.Tasks[c.Work].By {
		text += fmt.Sprintf(" By the plan it takes until %s, too late.", w.Moment(d.Finish))
	}
	return text
}

// Gone says at the head of a sheet that a task is cancelled, and why.
func (w *Writer) Gone(number int, c *schedule.Cancelled) string {
	text := fmt.Sprintf("%s (%d) is cancelled since %s", c.Name, number, w.Moment(c.At))
	if c.Why != "" {
		text += ": " + strings.TrimSuffix(c.Why, ".")
	}
	return text + "."
}

// WasSigned says which hold point of which task was signed, when and by whom.
func (w *Writer) WasSigned(a *sheets.Appointment) string {
	return fmt.Sprintf("%s %s · %s, signed %s%s", signedMark, a.Hold.What, w.Task(a.Task), w.Moment(a.Signed),
		w.signer(a.Task))
}
