package sitelog

import (
	"fmt"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Due is a daily duty on a date.
type Due struct {
	Duty string
	On   calendars.Date
}

// duty adds that a daily duty was done.
func (s *State) duty(e *Event) string {
	due := Due{e.Duty, e.Date}
	if s.Duties[due] != nil {
		return fmt.Sprintf("%s is done already on %s; undo that first if it was wrong", e.Duty, e.Date)
	}
	s.Duties[due] = e
	return ""
}

// due says that a daily duty isn't due on the date on which it is said to be done.
func (e *Event) due(p *schedule.Plan) error {
	for i := range p.Duties {
		if d := &p.Duties[i]; d.ID == e.Duty && (e.Date < d.From || e.Date > d.To) {
			return fmt.Errorf("%s isn't due on %s; by the plan it is from %s to %s", d.ID, e.Date, d.From, d.To)
		}
	}
	return nil
}
