package sheets

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// DutyDone is the event that a daily duty was done on a date; nil when none is logged.
func (b *Book) DutyDone(d *schedule.Duty, on calendars.Date) *sitelog.Event {
	if b.standing == nil {
		return nil
	}
	return b.standing.State.Duties[sitelog.Due{Duty: d.ID, On: on}]
}

// Undone lists the daily duties of a crew, or of everyone, that were due on the day before the
// moment and aren't logged as done; none without a log.
func (b *Book) Undone(crew schedule.CrewID) []*schedule.Duty {
	if b.standing == nil || b.Plan.Progress == nil {
		return nil
	}
	var out []*schedule.Duty
	before := b.date(b.Plan.Now()) - 1
	for i := range b.Plan.Duties {
		d := &b.Plan.Duties[i]
		if before >= d.From && before <= d.To && Needs(d.Crew, crew) && b.DutyDone(d, before) == nil {
			out = append(out, d)
		}
	}
	return out
}

// Accidents lists the accidents and near misses that are logged and not dealt with.
func (b *Book) Accidents() []sitelog.Snag {
	if b.standing == nil {
		return nil
	}
	var out []sitelog.Snag
	for _, a := range b.standing.State.Accidents {
		if a.Closed == 0 {
			out = append(out, a)
		}
	}
	return out
}
