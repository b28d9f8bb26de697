package wording

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/rates"
)

// Took says how long all finished work took, against the plan.
func (w *Writer) Took(r *rates.Rates) string {
	if len(r.Tasks) == 0 {
		return "Nothing is finished yet that says how long work takes."
	}
	what := "The tasks finished so far took"
	if r.Open == 0 {
		what = "All tasks are finished. They took"
	}
	return fmt.Sprintf("%s %s.", what, hours(r.All))
}

// StageTook says how long the finished work of one stage took, against the plan.
func (w *Writer) StageTook(s *rates.Stage) string {
	return fmt.Sprintf("%s: %s (%d of %s).", Capital(w.plan.Stages[s.Stage]), hours(s.Hours), s.Finished,
		Count(s.Of, "task", "tasks"))
}

// RateTook says how fast the work went that was planned at one rate.
func (w *Writer) RateTook(r *rates.Rate) string {
	var names []string
	for _, t := range r.Tasks {
		names = append(names, w.plan.Tasks[t].Name)
	}
	is := "which is " + w.Rate(r)
	if math.Round(100*r.More()) == 0 {
		is = "as planned"
	}
	return fmt.Sprintf("%s, planned at %s: %s took %s, %s (%s).", Capital(w.plan.Stages[r.Stage]), r.Text,
		w.Amount(r), personHours(r.Took), is, strings.Join(names, "; "))
}

// Rate is how fast work went, as a plan may say it: "1.2 m2/person-hour".
func (w *Writer) Rate(r *rates.Rate) string { return figure(r.Is()) + " " + r.Unit + "/person-hour" }

// Amount is how much was done at a rate: "24 m2".
func (w *Writer) Amount(r *rates.Rate) string { return figure(r.Amount) + " " + r.Unit }

// TaskTook says how long one task took, against the plan.
func (w *Writer) TaskTook(t *rates.Task) string {
	return fmt.Sprintf("%s: %s.", w.plan.Tasks[t.Task].Name, hours(t.Hours))
}

// hours says how many hours work took, against the planned ones.
func hours(h rates.Hours) string {
	text := personHours(h.Took)
	switch share := math.Round(100 * h.More()); {
	case h.Took == h.Planned || personHours(h.Took) == personHours(h.Planned):
		return text + ", as planned"
	case share == 0:
		return fmt.Sprintf("%s, close to the %s planned", text, bare(h.Planned))
	case share > 0:
		return fmt.Sprintf("%s, %.0f %% more than the %s planned", text, share, bare(h.Planned))
	default:
		return fmt.Sprintf("%s, %.0f %% less than the %s planned", text, -share, bare(h.Planned))
	}
}

// personHours are person-minutes as hours, to the tenth.
func personHours(m calendars.Minutes) string {
	if bare(m) == "1" {
		return "1 person-hour"
	}
	return bare(m) + " person-hours"
}

func bare(m calendars.Minutes) string {
	return strconv.FormatFloat(math.Round(float64(m)/6)/10, 'f', -1, 64)
}

// figure is a number to three significant digits, or to a whole from 100 on.
func figure(f float64) string {
	if f >= 100 {
		return strconv.FormatFloat(math.Round(f), 'f', -1, 64)
	}
	short, err := strconv.ParseFloat(strconv.FormatFloat(f, 'g', 3, 64), 64)
	if err != nil {
		short = f // can't be: it is a number that was just written
	}
	return strconv.FormatFloat(short, 'f', -1, 64)
}
