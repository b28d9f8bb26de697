package planfile

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// readDuties reads the section daily.
func (r *reader) readDuties(n *yaml.Node) {
	if n == nil {
		return
	}
	ids, values := r.collect(n, "daily duty", maxList, label{"daily", ""})
	for i, n := range values {
		it, ok := r.item(n, "daily "+ids.list[i], keys.Duty)
		if !ok {
			continue
		}
		it.required()
		d := schedule.Duty{ID: ids.list[i], Pos: ids.at[i]}
		d.Crew = r.fixedCrew(&it)
		if s, ok := r.plain(it.get("at"), it.of("at")); ok {
			at, err := calendars.ParseRange(s)
			if err != nil {
				r.textFault(posOf(it.get("at")), it.of("at"), err)
			}
			d.At = at
		}
		from, dated := r.dutyFrom(&it, d.At)
		to, ended := r.date(it.get("to"), it.of("to"))
		d.From, d.To = from, to
		if dated && ended && d.To < d.From {
			r.fault(posOf(it.get("to")), "end it on the day it starts or later", "%s ends before it starts", it.name)
		}
		r.plan.Duties = append(r.plan.Duties, d)
	}
}

// dutyFrom is the first day of a duty: its date, or that of the first span that
// begins at the arrival of a delivery or after it, as the plan books it. What
// comes later than booked moves no duty.
func (r *reader) dutyFrom(it *item, at calendars.Range) (calendars.Date, bool) {
	n, of := it.get("from"), it.of("from")
	s, ok := r.plain(n, of)
	if !ok || s[0] < 'a' || s[0] > 'z' {
		return r.date(n, of)
	}
	d, ok := r.findText(r.deliveries, s, posOf(n), of)
	if !ok || r.plan.Deliveries[d].Arrives == 0 {
		return 0, false
	}
	loc, arrives := r.plan.Site.Location, r.plan.Deliveries[d].Arrives
	day := calendars.DateIn(arrives, loc)
	if begins, _ := calendars.At(loc, day, at.From); begins < arrives {
		day++
	}
	return day, true
}

// warnDuties warns of duties at times at which their crews aren't at work: nobody
// is taken off a crew then.
func (r *reader) warnDuties() {
	for i := range r.plan.Duties {
		duty := &r.plan.Duties[i]
		for _, need := range duty.Crew {
			open := r.crewOpenings(need.Crew)
			var outside []calendars.Date
			for d := duty.From; d <= duty.To; d++ {
				from, _ := calendars.At(r.plan.Site.Location, d, duty.At.From)
				to, _ := calendars.At(r.plan.Site.Location, d, duty.At.To)
				if !slices.ContainsFunc(open, func(s calendars.Span) bool { return s.Start <= from && s.End >= to }) {
					outside = append(outside, d)
				}
			}
			if len(outside) > 0 {
				r.warnDuty(duty, need.Crew, outside)
			}
		}
	}
}

func (r *reader) warnDuty(duty *schedule.Duty, crew schedule.CrewID, outside []calendars.Date) {
	days := dayText(outside[0])
	switch more := len(outside) - 1; more {
	case 0:
	case 1:
		days += " and " + dayText(outside[1])
	default:
		days += fmt.Sprintf(" and %d days more", more)
	}
	r.warn(duty.Pos, "choose another time or other days, or open the crew's hours then",
		"daily %s at %s is not within the hours of crew %s on %s", duty.ID, duty.At, r.plan.Crews[crew].ID, days)
}
