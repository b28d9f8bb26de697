package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/progress"
)

// LorrySoFar says what has happened to a lorry, as a sentence: "Came 07:10, unloaded 07:40."
// An end of unloading that nobody has logged is told as the plan's. Moments on the date of
// beside are given by their time alone. Empty if nothing has happened.
func (w *Writer) LorrySoFar(g *schedule.Programme, d schedule.DeliveryID, beside calendars.Instant) string {
	if w.plan.Progress == nil {
		return ""
	}
	x, then := &w.plan.Progress.Deliveries[d], func(at calendars.Instant) string { return w.Then(at, beside) }
	came := "Came " + then(g.Unloads[d].Arrives)
	if at := w.plan.Deliveries[d].Loaded; at != 0 {
		came = "Loaded " + then(at) + ", came " + then(g.Unloads[d].Arrives)
	}
	if len(x.Parts) > 0 && !x.Arrived {
		return w.partsCame(g, d, then)
	}
	switch {
	case x.Refused && !x.Arrived:
		return "Refused at the gate."
	case !x.Arrived:
		return ""
	case x.Unseen:
		return fmt.Sprintf("%s %s; when it came isn't logged.", Capital(w.overAt(d)), then(x.Finish))
	case x.Logged:
		return fmt.Sprintf("%s, %s %s.", came, w.overAt(d), then(x.Finish))
	case x.Finish != 0:
		return fmt.Sprintf("%s, by the plan %s by %s.", came, w.unloaded(d), then(x.Finish))
	case x.Start != 0:
		return fmt.Sprintf("%s, by the plan %s since %s.", came, w.unloading(d), then(x.Start))
	}
	return came + "."
}

// overAt says what has happened to a lorry that the log has as over, before its moment.
func (w *Writer) overAt(d schedule.DeliveryID) string {
	if w.plan.Deliveries[d].Out {
		return "loaded and gone"
	}
	return "unloaded"
}

// lorryHadnt says what hadn't happened to a lorry when a task that uses its load was started.
func (w *Writer) lorryHadnt(o progress.OutOfOrder) string {
	if w.onlyCame(o) {
		return "wasn't unloaded"
	}
	return "hadn't come"
}

// onlyCame says whether a lorry had come when a task was started, and wasn't unloaded yet.
func (w *Writer) onlyCame(o progress.OutOfOrder) bool {
	d, lorry := w.plan.Delivery(o.After)
	return lorry && w.plan.LoggedOver(d) && w.plan.Deliveries[d].Arrives <= w.plan.Progress.Tasks[o.Task].Start
}

// partsCame says what came of a load of which the rest is still to come, as sentences.
func (w *Writer) partsCame(g *schedule.Programme, d schedule.DeliveryID, then func(calendars.Instant) string) string {
	parts := w.plan.Progress.Deliveries[d].Parts
	text := ""
	for _, x := range parts {
		if x.Unseen {
			text += "Unloaded " + then(x.Over)
		} else if text += "Came " + then(x.Arrived); x.Over != 0 {
			text += ", unloaded " + then(x.Over)
		}
		text += ", short: " + strings.TrimSuffix(x.Short, ".")
		if x.Keeps != 0 {
			text += "; what came keeps until " + then(x.Keeps)
		}
		text += ". "
	}
	return text + "The rest is still to come " + w.Moment(g.Unloads[d].Arrives) + "."
}

// StillToCome says what is still to come of a load, and when; empty when nothing is, or
// nothing of it has come.
func (w *Writer) StillToCome(g *schedule.Programme, d schedule.DeliveryID) string {
	if w.plan.Progress == nil || w.plan.Arrived(d) {
		return ""
	}
	parts := w.plan.Progress.Deliveries[d].Parts
	if len(parts) == 0 {
		return ""
	}
	return fmt.Sprintf("%s still to come %s", strings.TrimSuffix(parts[len(parts)-1].Short, "."),
		w.Moment(g.Unloads[d].Arrives))
}
