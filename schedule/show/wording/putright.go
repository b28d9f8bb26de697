package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
)

// FailedHead says at the head of a sheet that a task failed its sign-off or another check and
// why, what is to be put right, that a sign-off must be got again, and what mustn't begin
// before that.
func (w *Writer) FailedHead(b *sheets.Book, t schedule.TaskID) string {
	text := w.failed(w.numbered(b, t.Activity()), t)
	by, until := b.Programme.Tasks[t].Finish, "put right"
	if w.plan.Tasks[t].Hold != nil {
		by, until = b.Programme.Tasks[t].Signed, "signed"
	}
	if by.IsReal() {
		text += fmt.Sprintf(" To be %s by %s.", until, w.Moment(by))
	}
	var waits []string
	for _, tie := range b.After(t.Activity()) {
		if tie.Kind.FromFinish() && !w.plan.Begun(tie.Activity) {
			waits = append(waits, w.numbered(b, tie.Activity))
		}
	}
	if len(waits) > 0 {
		text += fmt.Sprintf(" Nobody starts before it is %s: %s.", until, strings.Join(waits, ", "))
	}
	return text
}

// checkOf is what a task fails: its sign-off, or another check where the plan asks for none.
func (w *Writer) checkOf(t schedule.TaskID) string {
	if t == schedule.None || w.plan.Tasks[t].Hold != nil {
		return "sign-off"
	}
	return "check"
}

// failed says that a task failed, why, and what is to be done, as sentences.
func (w *Writer) failed(name string, t schedule.TaskID) string {
	was, hold := &w.plan.Progress.Tasks[t], w.plan.Tasks[t].Hold
	wrong := strings.TrimSuffix(was.Wrong, ".")
	text := fmt.Sprintf("%s failed its %s %s: %s.", name, w.checkOf(t), w.Moment(was.Failed), wrong)
	if hold == nil {
		return stopped(fmt.Sprintf("%s Put right: %s. %s", text, wrong, Capital(w.Left(t))))
	}
	again := fmt.Sprintf("the sign-off again (%s)", hold.What)
	if !w.plan.ToPutRight(t) {
		return fmt.Sprintf("%s Put right %s, so it is logged; now %s.", text, w.Moment(was.Finish), again)
	}
	return stopped(fmt.Sprintf("%s Put right: %s; then %s. %s", text, wrong, again, Capital(w.Left(t))))
}

// toPutRight says how long putting a task right takes, as a clause.
func (w *Writer) toPutRight(t schedule.TaskID, left calendars.Minutes) string {
	switch was := &w.plan.Progress.Tasks[t]; {
	case was.Untold:
		return "no time for putting it right is known; say it with \"log left\""
	case left <= 0:
		return "by the plan it would be put right: is it? what is left?"
	}
	said := work(left) + " to put it right"
	if team := w.Team(t, w.plan.Progress.Tasks[t].Heads); team != "" {
		said += ", by " + team
	}
	return said
}
