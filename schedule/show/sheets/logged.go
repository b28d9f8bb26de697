package sheets

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

// Standing is what a site log comes to; nil without one.
func (b *Book) Standing() *progress.Standing { return b.standing }

// WeatherOn lists the weather that is logged for a date, in which some work stood still.
func (b *Book) WeatherOn(on calendars.Date) []sitelog.Event {
	if b.standing == nil {
		return nil
	}
	var out []sitelog.Event
	for _, e := range b.standing.State.Weather {
		if e.Date == on || !e.WholeDay() && b.date(e.From) == on {
			out = append(out, e)
		}
	}
	return out
}

// Logged adds what a site log says besides progress: notes, open snags and overdue
// lorries.
func (b *Book) Logged(s *progress.Standing) {
	for _, e := range s.State.Notes {
		about := schedule.Nothing
		if t := b.Plan.FindTask(e.Task); t != schedule.None {
			about = t.Activity()
		} else if d := b.Plan.FindDelivery(e.Delivery); d != schedule.None {
			about = b.Plan.Unload(d)
		}
		b.Notes = append(b.Notes, Note{Activity: about, At: e.At, By: e.By, Text: e.Text})
	}
	for _, e := range s.State.Snags {
		if e.Closed == 0 {
			b.Snags = append(b.Snags, Snag{ID: e.ID, Task: b.Plan.FindTask(e.Task), Text: e.Text, Opened: e.At})
		}
	}
	b.standing = s
	b.Overdue = make(map[schedule.DeliveryID]calendars.Instant)
	for _, o := range s.Overdue {
		b.Overdue[o.Delivery] = o.Booked
	}
}
