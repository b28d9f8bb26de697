package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Marks of a hold point.
const (
	openMark   = "◌"
	signedMark = "●"
)

// HoldMark is the mark of a hold point, signed or not.
func HoldMark(signed bool) string {
	if signed {
		return signedMark
	}
	return openMark
}

// SoFar says what has happened to a task by the plan's progress, as sentences: "Started
// 07:05; 3 h left." Moments on the date of beside are given by their time alone. Empty
// if it hasn't been started.
func (w *Writer) SoFar(t schedule.TaskID, beside calendars.Instant) string {
	if !w.plan.Started(t) {
		return ""
	}
	x, then := &w.plan.Progress.Tasks[t], func(at calendars.Instant) string { return w.Then(at, beside) }
	switch {
	case x.Ended != 0:
		return fmt.Sprintf("Started %s, cancelled %s.", then(x.Start), then(x.Ended))
	case w.plan.ToPutRight(t):
		return w.partlyRight(t, then)
	case x.Finish == 0 && x.Paused:
		return stopped(fmt.Sprintf("Started %s, paused; %s", then(x.Start), w.Left(t)))
	case x.Finish == 0:
		return stopped(fmt.Sprintf("Started %s; %s", then(x.Start), w.Left(t)))
	}
	said := fmt.Sprintf("Started %s, finished %s.", then(x.Start), then(x.Finish))
	if hold := w.plan.Tasks[t].Hold; hold != nil {
		switch {
		case x.Signed != 0:
			said += fmt.Sprintf(" %s %s, signed %s%s.", signedMark, hold.What, then(x.Signed), w.signer(t))
		case x.Failed != 0:
			said += fmt.Sprintf(" %s %s: failed %s, put right since; now the sign-off again.", openMark, hold.What,
				then(x.Failed))
		default:
			said += fmt.Sprintf(" %s %s: not signed yet.", openMark, hold.What)
		}
	}
	return said
}

// partlyRight is SoFar of a task that is to be put right.
func (w *Writer) partlyRight(t schedule.TaskID, then func(calendars.Instant) string) string {
	x := &w.plan.Progress.Tasks[t]
	said := fmt.Sprintf("Started %s, finished %s. ", then(x.Start), then(x.Before))
	wrong := strings.TrimSuffix(x.Wrong, ".")
	if hold := w.plan.Tasks[t].Hold; hold == nil {
		said += fmt.Sprintf("Failed its check %s: %s. Put it right: %s", then(x.Failed), wrong, w.Left(t))
	} else {
		said += fmt.Sprintf("%s %s: failed %s: %s. Put it right, then the sign-off again: %s", openMark, hold.What,
			then(x.Failed), wrong, w.Left(t))
	}
	if x.Paused {
		said += "; nobody is at it"
	}
	return stopped(said)
}

// stopped is a sentence with a full stop, unless it ends as a question.
func stopped(said string) string {
	if strings.HasSuffix(said, "?") {
		return said
	}
	return said + "."
}

// StillBegun says of work that is begun, isn't ticked as finished and has no place on a date
// what has happened to it and where it is, and asks how far it is, as sentences.
func (w *Writer) StillBegun(g *schedule.Programme, t schedule.TaskID, beside calendars.Instant) string {
	said, finish := w.SoFar(t, beside), g.Tasks[t].Finish
	switch {
	case w.leftTime(t) <= 0: // that asks already
	case !finish.IsReal():
		said += " It has no place in the programme: is it finished? what is left?"
	default:
		said += fmt.Sprintf(" By the plan it would be finished %s: is it? what is left?", w.Then(finish, beside))
	}
	return said + " " + dotted(w.Where(t), w.Team(t, g.Tasks[t].Heads)) + "."
}

// Left says what is left of a task in hand, as a clause.
func (w *Writer) Left(t schedule.TaskID) string {
	switch time := w.leftTime(t); {
	case w.plan.ToPutRight(t):
		return w.toPutRight(t, time)
	case time <= 0:
		return "by the plan it would be finished: is it? what is left?"
	case w.plan.Rest(t).Shared():
		return work(time) + " left for those at it"
	default:
		return work(time) + " left"
	}
}

// leftTime is the working time that is left of a task in hand for those at it.
func (w *Writer) leftTime(t schedule.TaskID) calendars.Minutes {
	heads := 0
	for _, n := range w.plan.Progress.Tasks[t].Heads {
		heads += n
	}
	return w.plan.Rest(t).Time(heads)
}
