package sheets

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/progress"
)

// Logged takes over what a site log says beside the progress of the plan.
func (b *Book) Logged(s *progress.Standing) {
	for _, e := range s.State.Notes {
		b.Notes = append(b.Notes, Note{
			Thing: Thing{Task: b.Plan.FindTask(e.Task), Delivery: b.Plan.FindDelivery(e.Delivery)}, At: e.At, By: e.By, Text: e.Text})
	}
	for _, e := range s.State.Snags {
		if e.Closed == 0 {
			b.Snags = append(b.Snags, Snag{ID: e.ID, Task: b.Plan.FindTask(e.Task), Text: e.Text, Opened: e.At})
		}
	}
	b.Overdue = make(map[schedule.DeliveryID]calendars.Instant)
	for _, o := range s.Overdue {
		b.Overdue[o.Delivery] = o.Booked
	}
}
