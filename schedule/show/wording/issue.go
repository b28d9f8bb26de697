package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/issue"
)

// Fixed sentences about issues.
const (
	NothingIssued   = `Nothing is issued yet: "turflast issue" freezes the sheets.`
	NoIssueYet      = `Not issued: dates may still change; "turflast issue" freezes them.`
	IssuesUnread    = "Not issued: one of the issues or baselines can't be read."
	IssuedAsItIs    = "Nothing differs."
	NotIssuedToThem = "Nothing has been issued to them yet."
)

// IssueNamed names an issue: "Issue 3, Mon 3 May 17:40, by Ann".
func (w *Writer) IssueNamed(x *issue.Issue) string {
	return fmt.Sprintf("Issue %d, %s, by %s", x.Number, w.Moment(x.At), x.By)
}

// IssuedTo is an issue and who got it, as a sentence.
func (w *Writer) IssuedTo(x *issue.Issue) string {
	to := "everyone"
	if len(x.Crews) > 0 {
		var names []string
		for _, id := range x.Crews {
			names = append(names, w.crewNamed(id))
		}
		to = list(names)
	}
	return w.IssueNamed(x) + ", to " + to + "."
}

// IssueLine says which issue a sheet is of, or that it is of none and why, as a sentence.
// Crew is the id of the crew whose sheet it is, empty for everyone's.
func (w *Writer) IssueLine(s issue.Standing, crew string) string {
	n := len(s.Issues)
	if n == 0 {
		return NoIssueYet
	}
	last := s.Issues[n-1]
	if s.Differs > 0 {
		return fmt.Sprintf("Not issued: %s from issue %d; %q says which.", Count(s.Differs, "thing differs", "things differ"),
			last.Number, strings.TrimSpace("turflast changed "+crew))
	}
	text := w.IssueNamed(last)
	if n > 1 {
		text += fmt.Sprintf(", and what holds still of issue %d", s.Issues[0].Number)
	}
	if s.Logged > 0 {
		text += "; " + Count(s.Logged, "thing is", "things are") + " logged since"
	}
	return text + "."
}

// IssueInBrief is IssueLine in two words: "issue 3", "not issued".
func IssueInBrief(s issue.Standing) string {
	if n := len(s.Issues); n > 0 && s.Differs == 0 {
		return fmt.Sprintf("issue %d", s.Issues[n-1].Number)
	}
	return "not issued"
}

// Since says how what a crew is told of one activity differs from its last issue, as a
// sentence.
func (w *Writer) Since(b *sheets.Book, d issue.Difference) string {
	of := d.Of()
	name := fmt.Sprintf("%s (%d)", Capital(of.Name), b.Numbers.OfID(of.ID, of.Delivery))
	switch d.Change {
	case issue.New:
		return name + " is new" + w.toldOf(d.Now)
	case issue.Gone:
		return name + " is gone" + w.toldFor(d.Was)
	case issue.Others:
		return name + " is for others now: " + w.toldTeam(d.Now) + "."
	case issue.LeftOut:
		return name + " is left out" + w.toldFor(d.Was)
	case issue.PutBack:
		return name + " isn't left out any more" + w.toldOf(d.Now)
	case issue.Headed:
		return fmt.Sprintf("%s: %s, not %s.", name, w.toldTeam(d.Now), w.toldTeam(d.Was))
	case issue.Placed:
		return fmt.Sprintf("%s is at %s, not %s.", name, w.toldZones(d.Now), w.toldZones(d.Was))
	case issue.Ticked:
		return name + ": " + w.loggedOf(b, d.Now)
	}
	return name + " " + w.movedTo(d.Was, d.Now)
}

// toldOf ends a sentence with when, where and by whom an activity is done.
func (w *Writer) toldOf(t *issue.Told) string {
	if t.Start == 0 {
		return ", and has no place in the programme."
	}
	at := w.Moment(t.Start)
	if t.Arrives != 0 {
		at = "it comes " + w.Moment(t.Arrives) + ", unloading " + w.Then(t.Start, t.Arrives)
	}
	where := w.toldZones(t)
	if team := w.toldTeam(t); team != "" {
		where += ", " + team
	}
	return fmt.Sprintf(": %s to %s, %s.", at, w.Then(t.Finish, t.Start), where)
}

// toldFor ends a sentence with when an activity was told for.
func (w *Writer) toldFor(t *issue.Told) string {
	if t.Start == 0 {
		return "."
	}
	return "; it was told for " + w.Moment(t.Start) + "."
}

// movedTo says at which other moments an activity is, and how far they are from those told.
func (w *Writer) movedTo(was, now *issue.Told) string {
	at, then, verb := now.Start, was.Start, "starts"
	end := fmt.Sprintf("; it is to be done by %s.", w.Then(now.Finish, now.Start))
	if now.Delivery {
		at, then, verb = now.Arrives, was.Arrives, "comes"
		end = fmt.Sprintf("; it is unloaded by %s.", w.Then(now.Finish, now.Arrives))
	}
	if at == then || now.Happened.Started != 0 || now.Happened.Came {
		at, then, verb, end = now.Finish, was.Finish, "is to be done by", "."
		if now.Delivery {
			verb = "is unloaded by"
		}
	}
	if at == then { // the unloading begins at another moment, and ends at the same
		at, then, verb = now.Start, was.Start, "starts"
	}
	return fmt.Sprintf("%s %s, %s than %s%s", verb, w.Moment(at), apart(then, at), w.Then(then, at), end)
}

func (w *Writer) toldTeam(t *issue.Told) string {
	var said []string
	for _, h := range t.Crew {
		if h.Count > 0 {
			said = append(said, fmt.Sprintf("%s %d", w.crewNamed(h.ID), h.Count))
		}
	}
	for _, h := range t.Machines {
		if h.Count > 0 {
			said = append(said, fmt.Sprintf("%s %d", w.machineNamed(h.ID), h.Count))
		}
	}
	if len(said) == 0 {
		return "nobody"
	}
	return strings.Join(said, ", ")
}

func (w *Writer) toldZones(t *issue.Told) string {
	var names []string
	for _, id := range t.Zones {
		names = append(names, w.zoneNamed(id))
	}
	if t.Delivery {
		return "the gate"
	}
	return list(names)
}

func (w *Writer) zoneNamed(id string) string {
	for i := range w.plan.Zones {
		if w.plan.Zones[i].ID == id {
			return w.plan.Zones[i].Name
		}
	}
	return id
}

// loggedOf says what is logged of an activity.
func (w *Writer) loggedOf(b *sheets.Book, t *issue.Told) string {
	const beside = calendars.Past
	said := ""
	if t.Delivery {
		said = w.LorrySoFar(b.Programme, w.plan.FindDelivery(t.ID), beside)
	} else {
		said = w.SoFar(w.plan.FindTask(t.ID), beside)
	}
	if said == "" {
		return "what was logged of it is taken back."
	}
	return lower(said)
}
