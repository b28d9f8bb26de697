package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// FailedHead says at the head of a sheet that a task's sign-off failed and why, what is to be
// put right, that the sign-off must be got again, and what mustn't begin before that.
func (w *Writer) FailedHead(b *sheets.Book, t schedule.TaskID) string {
	text := w.failed(w.numbered(b, t.Activity()), t)
	if by := b.Programme.Tasks[t].Signed; by.IsReal() {
		text += fmt.Sprintf(" To be signed by %s.", w.Moment(by))
	}
	var waits []string
	for _, tie := range b.After(t.Activity()) {
		if tie.Hold && !w.plan.Begun(tie.Activity) {
			waits = append(waits, w.numbered(b, tie.Activity))
		}
	}
	if len(waits) > 0 {
		text += fmt.Sprintf(" Nobody starts before it is signed: %s.", strings.Join(waits, ", "))
	}
	return text
}

// failed says that a task's sign-off failed, why, and what is to be done, as sentences.
func (w *Writer) failed(name string, t schedule.TaskID) string {
	was, hold := &w.plan.Progress.Tasks[t], w.plan.Tasks[t].Hold
	text := fmt.Sprintf("%s failed its sign-off %s: %s.", name, w.Moment(was.Failed), strings.TrimSuffix(was.Wrong, "."))
	again := fmt.Sprintf("the sign-off again (%s)", hold.What)
	if !w.plan.ToPutRight(t) {
		return fmt.Sprintf("%s Put right %s, so it is logged; now %s.", text, w.Moment(was.Finish), again)
	}
	return stopped(fmt.Sprintf("%s Put right: %s; then %s. %s", text, strings.TrimSuffix(was.Wrong, "."), again,
		Capital(w.Left(t))))
}

// toPutRight says how long putting a task right takes, as a clause.
func (w *Writer) toPutRight(t schedule.TaskID, left calendars.Minutes) string {
	switch was := &w.plan.Progress.Tasks[t]; {
	case was.Untold:
		return "no time for putting it right is known; say it with \"log left\""
	case left <= 0:
		return "by the plan it would be put right: is it? what is left?"
	}
	return work(left) + " to put it right"
}
