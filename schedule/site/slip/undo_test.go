package slip_test

import (
	"fmt"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/site/slip"
)

// upsets are two things that are told as the site opens: lorries booked for later, fewer
// people of a crew, wet days.
func upsets(src plans.Source, p *schedule.Plan) []sitelog.Event {
	var out []sitelog.Event
	for k := range 2 {
		e := sitelog.Event{ID: fmt.Sprint("e", k), At: p.Site.Opens, Written: p.Site.Opens, By: "Ann"}
		date := calendars.DateIn(p.Site.Opens, p.Site.Location) + calendars.Date(src.Int(0, 1))
		switch kind := src.Int(0, 2); {
		case kind == 0 && len(p.Deliveries) > 0:
			d := &p.Deliveries[src.Int(0, len(p.Deliveries)-1)]
			e.What, e.Delivery, e.To = sitelog.Rebooked, d.ID, d.Arrives.Plus(calendars.Minutes(60*src.Int(1, 30)))
		case kind == 1:
			e.What, e.Date = sitelog.Wet, date
		default:
			c := &p.Crews[src.Int(0, len(p.Crews)-1)]
			e.What, e.Crew, e.Date = sitelog.People, c.ID, date
		}
		out = append(out, e)
	}
	return out
}

// late is when a date that breaks somewhere is met in a programme: the last finish
// for none, the date where it doesn't break.
func late(g *schedule.Programme, b *schedule.Break) calendars.Instant {
	if b == nil {
		return g.Finish
	}
	for _, now := range g.Breaks {
		if now.Kind == b.Kind && now.Activity == b.Activity && now.Stock == b.Stock {
			return now.Actual
		}
	}
	return min(b.Limit, b.Actual-1)
}

// What a trace names is the cause: without the events at its end, all else as it was
// logged, the date that it explains is met again or less late; or else something else that
// was logged makes it as late too, and they alone make it late. Every trace names a cause
// but for those that end with another order of hands, which says so.
func TestUndoneCause(t *testing.T) {
	traces, anew, twice := 0, 0, 0
	for seed := range uint64(150) {
		p := plans.Dryish(seed)
		agreed := forecast(t, p, nil).Programme
		begun := func(d schedule.TaskDates) bool { return d.Start < p.Site.Opens }
		if agreed.Blocked != nil || slices.ContainsFunc(agreed.Tasks, begun) {
			continue
		}
		look := func(events []sitelog.Event) (*progress.Standing, network.Case) {
			s := progress.At(p, events, agreed, p.Site.Opens)
			return s, forecast(t, s.Plan, agreed)
		}
		events := upsets(plans.Seeded(seed+700), p)
		s, now := look(events)
		for _, trace := range slip.Of(s, now, agreed).Traces {
			traces++
			last := &trace.Steps[len(trace.Steps)-1]
			if len(last.Events) == 0 && last.Anew {
				anew++
				continue
			}
			var end []sitelog.Event
			for _, step := range trace.Steps {
				end = append(end, step.Events...)
			}
			if len(last.Events) == 0 {
				t.Errorf("seed %d: of %v nothing explains %+v: %+v\n%s", seed, events, trace.Break, last, plans.YAML(p))
			}
			left := slices.DeleteFunc(slices.Clone(events), func(e sitelog.Event) bool {
				return slices.ContainsFunc(end, func(x sitelog.Event) bool { return x.ID == e.ID })
			})
			_, without := look(left)
			if late(without.Programme, trace.Break) < late(now.Programme, trace.Break) {
				continue
			}
			twice++
			if _, alone := look(end); late(alone.Programme, trace.Break) <= late(agreed, trace.Break) {
				t.Errorf("seed %d: of %v it isn't %v that makes %+v late\n%s", seed, events, end, trace.Break, plans.YAML(p))
			}
		}
	}
	if traces < 80 || anew > traces/20 || twice > traces/20 {
		t.Errorf("%d traces, of which %d end with another order, and %d name one of two causes", traces, anew, twice)
	}
}
