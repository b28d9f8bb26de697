package wording

import (
	"fmt"
	"strings"

	"build.example/turflast/schedule/site/sitelog"
)

// accident says that somebody was hurt, or nearly, where, and who saw it, without what happened.
func (w *Writer) accident(e *sitelog.Event) string {
	text := "Accident"
	if e.What == sitelog.NearMiss {
		text = "Near miss"
	}
	for i := range w.plan.Zones {
		if w.plan.Zones[i].ID == e.Zone {
			text += ", " + w.plan.Zones[i].Name
		}
	}
	if e.Task != "" {
		text += ", at " + w.taskNamed(e.Task)
	}
	if e.Who != "" {
		text += ", seen by " + e.Who
	}
	return text
}

// accidentCare is the usual caution after an accident or a near miss.
const accidentCare = "The usual: make the place safe and stop work there; first aid, and call for help; change " +
	"nothing else until it has been looked at. Tell whoever is responsible for safety on the site now. Many places " +
	"have duties to report such things, some at once: local rules, and who is responsible, say which."

// Accident says what to do after an accident or a near miss that was logged, as usual, and what
// of it isn't said yet.
func (w *Writer) Accident(e *sitelog.Event) []string {
	var lacks []string
	if e.Zone == "" {
		lacks = append(lacks, "where (--zone)")
	}
	if e.Who == "" {
		lacks = append(lacks, "who saw it (--saw)")
	}
	out := []string{accidentCare}
	if len(lacks) > 0 {
		out = append(out, fmt.Sprintf("Not said: %s; add it as a note, or undo this and log it anew.", list(lacks)))
	}
	return append(out, "It stays on the lead's sheet until it is closed: \"turflast log accident --closed EVENT\".")
}

// OpenAccident says of an accident or a near miss that isn't dealt with what happened, as a
// sentence for the lead alone: it may name who was hurt.
func (w *Writer) OpenAccident(a *sitelog.Snag) string {
	what := strings.TrimSuffix(w.Event(&a.Event), ".")
	return fmt.Sprintf("%s: %s. Open until it is logged as closed.", w.Moment(a.At), what)
}
