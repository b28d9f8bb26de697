package said_test

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/said"
)

// What is understood, in its normal form, is understood as the same again; what isn't is a
// doubt whose choices are understood. Nothing panics.
func FuzzSaid(f *testing.F) {
	kinds := []string{"tick", "whatif", "ask"}
	for _, p := range phrases(f, "phrases.txt") {
		for i, k := range kinds {
			if k == p.kind {
				f.Add(uint8(i), p.said)
			}
		}
	}
	g := garden(f)
	f.Fuzz(func(t *testing.T, k uint8, text string) {
		kind := kinds[int(k)%len(kinds)]
		normal, err := meaning(g, kind, text)
		var doubt *said.Doubt
		switch {
		case errors.As(err, &doubt):
			if doubt.Error() == "" || doubt.Why == "" {
				t.Errorf("%s %q: a doubt without a reason", kind, text)
			}
			return
		case err != nil:
			t.Fatalf("%s %q: %v is no doubt", kind, text, err)
		}
		if again, err := meaning(g, kind, normal); err != nil || again != normal {
			t.Errorf("%s %q is %q, which is %q, %v", kind, text, normal, again, err)
		}
	})
}

// Every change, as what-if files write it, is understood as that change.
func TestChangesAsFilesWriteThem(t *testing.T) {
	g := garden(t)
	rapid.Check(t, func(t *rapid.T) {
		c := drawnChange(g.Plan).Draw(t, "change")
		list, err := g.Changes(c.String())
		if err != nil || len(list) != 1 || list[0].String() != c.String() {
			t.Errorf("%q is understood as %v, %v", c, list, err)
		}
	})
}

// drawnChange draws changes of all kinds to things of a plan.
func drawnChange(p *schedule.Plan) *rapid.Generator[schedule.Change] {
	return rapid.Custom(func(t *rapid.T) schedule.Change {
		kind := schedule.ChangeKind(rapid.IntRange(int(schedule.ChangeShift), int(schedule.ChangeStop)).Draw(t, "kind"))
		first := calendars.DateIn(p.Site.Opens, p.Site.Location)
		date := rapid.Map(rapid.IntRange(-30, 60), func(n int) calendars.Date { return first + calendars.Date(n) })
		c := schedule.Change{Kind: kind, From: schedule.Unsaid, To: schedule.Unsaid, Name: drawnName(p, kind).Draw(t, "name")}
		minute := rapid.Map(rapid.IntRange(0, 1438), func(n int) calendars.Minutes { return calendars.Minutes(n) })
		c.At = schedule.Moment{Date: date.Draw(t, "date"), Minute: minute.Draw(t, "minute")}
		c.Length = calendars.Minutes(rapid.IntRange(1, 20_000).Draw(t, "length"))
		c.Heads = rapid.IntRange(1, 20).Draw(t, "heads")
		if rapid.Bool().Draw(t, "back") {
			c.Length, c.Heads = -c.Length, -c.Heads
		}
		c.Dates = rapid.SliceOfNDistinct(date, 1, 3, rapid.ID[calendars.Date]).Draw(t, "dates")
		switch kind {
		case schedule.ChangeWork, schedule.ChangeOpen:
			c.Dates = c.Dates[:1]
			c.From, c.To = minute.Draw(t, "from"), schedule.Unsaid
			if rapid.Bool().Draw(t, "end") {
				c.To = calendars.Minutes(rapid.IntRange(int(c.From)+1, 1439).Draw(t, "to"))
			}
		case schedule.ChangeClosure:
			c.Dates = c.Dates[:1]
			if rapid.Bool().Draw(t, "at") {
				c.From = minute.Draw(t, "from")
			}
		case schedule.ChangeAway, schedule.ChangeClose, schedule.ChangeSlot, schedule.ChangeStop:
			if kind == schedule.ChangeSlot || rapid.Bool().Draw(t, "span") {
				c.Span[0] = c.At
				end := rapid.IntRange(int(c.At.Minute)+1, 1439).Draw(t, "end")
				c.Span[1] = schedule.Moment{Date: c.At.Date, Minute: calendars.Minutes(end)}
				if rapid.Bool().Draw(t, "long") {
					c.Span[1].Date++
				}
			}
		}
		return c
	})
}

// drawnName draws the id of something that a kind of change is about.
func drawnName(p *schedule.Plan, kind schedule.ChangeKind) *rapid.Generator[string] {
	var ids []string
	switch kind {
	case schedule.ChangeShift, schedule.ChangeBook:
		for i := range p.Deliveries {
			ids = append(ids, p.Deliveries[i].ID)
		}
	case schedule.ChangeGive:
		for i := range p.Givens {
			ids = append(ids, p.Givens[i].ID)
		}
	case schedule.ChangeStretch, schedule.ChangeDrop, schedule.ChangeSign, schedule.ChangeStop:
		for i := range p.Tasks {
			ids = append(ids, p.Tasks[i].ID)
		}
	case schedule.ChangeHeads, schedule.ChangeWork:
		for i := range p.Crews {
			ids = append(ids, p.Crews[i].ID)
		}
	case schedule.ChangeAway, schedule.ChangeSlot:
		for i := range p.Machines {
			ids = append(ids, p.Machines[i].ID)
		}
	default:
		ids = []string{schedule.SiteHours, schedule.GateHours}
	}
	return rapid.SampledFrom(ids)
}
