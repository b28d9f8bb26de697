package slip_test

import (
	"slices"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/slip"
)

// slipped is the court as at a moment, with a forecast that a test makes worse by hand.
type slipped struct {
	p         *schedule.Plan
	s         *progress.Standing
	now       network.Case
	g, agreed *schedule.Programme
}

func slipping(t *testing.T, text, now string) *slipped {
	t.Helper()
	x := &slipped{}
	x.p, x.agreed = agree(t, text)
	x.s = progress.At(x.p, nil, x.agreed, plans.Event(t, x.p, 0, now+" started dig").At)
	x.now = forecast(t, x.s.Plan, x.agreed)
	x.g = x.now.Programme
	return x
}

func (x *slipped) of() *slip.Slip { return slip.Of(x.s, x.now, x.agreed) }

// through lists the activities that a trace goes through.
func through(trace slip.Trace) (out []schedule.Activity) {
	for i := range trace.Steps {
		out = append(out, trace.Steps[i].Activity)
	}
	return out
}

// late puts off a task's finish by days, and the hand-over with the last.
func (x *slipped) late(t schedule.TaskID, days calendars.Minutes) {
	x.g.Tasks[t].Finish = x.g.Tasks[t].Finish.Plus(days * calendars.Day)
	x.g.Finish = max(x.g.Finish, x.g.Tasks[t].Finish)
}

// TestNoReason: a task that is late, and waits only for the sake of others, ends the
// trace without a reason.
func TestNoReason(t *testing.T) {
	x := slipping(t, court, "3 08:00")
	x.late(3, 1)
	x.g.Tasks[3].Why = nil
	found := x.of()
	if len(found.Traces) != 1 || len(found.Traces[0].Steps) != 1 {
		t.Fatalf("traces: %+v", found.Traces)
	}
	if s := found.Traces[0].Steps[0]; s.Activity != 3 || s.By != 8*60 || s.Why != nil || s.Due != 0 || len(s.Events) > 0 {
		t.Errorf("%+v", s)
	}
}

// TestLatestHolds: of several late tasks that hold work, the trace goes to the latest, and
// to the first of those as late.
func TestLatestHolds(t *testing.T) {
	for _, c := range []struct {
		plant, dig calendars.Minutes // late by days
		why        []schedule.Activity
		want       schedule.Activity
	}{
		{2, 1, []schedule.Activity{2, 0}, 2}, {2, 1, []schedule.Activity{0, 2}, 2},
		{1, 1, []schedule.Activity{2, 0}, 2}, {1, 1, []schedule.Activity{0, 2}, 0},
	} {
		x := slipping(t, court, "3 08:00")
		x.late(3, 3)
		x.late(2, c.plant)
		x.late(0, c.dig)
		x.g.Tasks[3].Why, x.g.Tasks[2].Why, x.g.Tasks[0].Why = nil, nil, nil
		for _, other := range c.why {
			x.g.Tasks[3].Why = append(x.g.Tasks[3].Why, schedule.Reason{Kind: schedule.ByLink, Other: other})
		}
		if got := through(x.of().Traces[0]); !slices.Equal(got, []schedule.Activity{3, c.want}) {
			t.Errorf("%+v: steps %v", c, got)
		}
	}
}

// TestNoTrace: a hand-over that is as agreed has no trace, though its last task is late,
// and neither has one without a chain.
func TestNoTrace(t *testing.T) {
	x := slipping(t, court, "3 08:00")
	x.late(3, 1)
	slips := x.g.Finish
	if x.g.Finish = x.agreed.Finish; len(x.of().Traces) > 0 {
		t.Errorf("as agreed: %+v", x.of().Traces)
	}
	x.g.Finish, x.g.Chain = slips, nil
	if found := x.of(); len(found.Traces) > 0 || found.By <= 0 {
		t.Errorf("without a chain: late by %d, %+v", found.By, found.Traces)
	}
}

// TestEachOnce: two late tasks that wait for each other are each explained
// once.
func TestEachOnce(t *testing.T) {
	x := slipping(t, court, "3 08:00")
	for task, other := range map[schedule.TaskID]schedule.Activity{2: 3, 3: 2} {
		x.late(task, 1)
		x.g.Tasks[task].Why = []schedule.Reason{{Kind: schedule.ByCrew, Other: other}}
	}
	if got := through(x.of().Traces[0]); !slices.Equal(got, []schedule.Activity{3, 2}) {
		t.Errorf("steps %v", got)
	}
}

// TestDueNow: what is to begin only now waits for hands that go to other late work
// first; what was to begin before now is itself overdue.
func TestDueNow(t *testing.T) {
	for now, want := range map[string][]schedule.Activity{"3 08:00": {3, 0, 2}, "3 08:01": {3, 0}} {
		x := slipping(t, court, now)
		x.late(2, 1)
		for task, other := range map[schedule.TaskID]schedule.Activity{3: 0, 0: 2} {
			x.late(task, 1)
			x.g.Tasks[task].Why = []schedule.Reason{{Kind: schedule.ByCrew, Other: other}}
		}
		x.g.Tasks[2].Why = nil
		trace := x.of().Traces[0]
		got, steps := through(trace), trace.Steps
		if overdue := steps[len(steps)-1].Due != 0; !slices.Equal(got, want) || overdue != (len(want) == 2) {
			t.Errorf("at %s: steps %v, not %v; overdue %v", now, got, want, overdue)
		}
	}
}

// TestNoFinish: a forecast without a last finish is late by no number, and a task
// without a place is late by none.
func TestNoFinish(t *testing.T) {
	x := slipping(t, court, "3 08:00")
	x.g.Finish, x.g.Tasks[3].Finish, x.g.Tasks[3].Start = calendars.Never, calendars.Never, calendars.Never
	found := x.of()
	if found.By != 0 || found.OnClock || len(found.Traces) > 0 {
		t.Errorf("late by %d, on the clock %v, traces %+v", found.By, found.OnClock, found.Traces)
	}
	if !slices.Equal(found.Never, []schedule.TaskID{3}) {
		t.Errorf("without a place: %v", found.Never)
	}
}

// TestLateByNight: what is later by closed hours only is late on the clock.
func TestLateByNight(t *testing.T) {
	x := slipping(t, court, "3 08:00")
	x.g.Tasks[3].Finish = x.agreed.Tasks[3].Finish
	was := x.p.Site.Handover
	x.agreed.Tasks[3].Finish, x.agreed.Finish = was.Plus(4*60), was.Plus(4*60) // 16:00
	x.g.Tasks[3].Finish, x.g.Finish = was.Plus(4*60+90), was.Plus(4*60+90)     // 17:30
	found := x.of()
	if found.By != 90 || !found.OnClock {
		t.Errorf("late by %d, on the clock %v", found.By, found.OnClock)
	}
	if len(found.Tasks) != 1 || found.Tasks[0].By != 90 || !found.Tasks[0].OnClock {
		t.Errorf("tasks: %+v", found.Tasks)
	}
}

// TestLateLorry: how late a lorry is runs on the clock, also where it is only unloaded
// late; one without a place is late by no number.
func TestLateLorry(t *testing.T) {
	broken := func(x *slipped, d schedule.DeliveryID) []slip.Trace {
		x.g.Breaks = []schedule.Break{{Kind: schedule.BreakSentAway, Activity: x.p.Unload(d)}}
		return x.of().Traces
	}
	x := slipping(t, yard, "4 10:00")
	found := broken(x, 0)
	last := found[len(found)-1] // the hand-over's own trace, if it slips, stands first
	if s := last.Steps[0]; s.Activity != x.p.Unload(0) || s.By != 2*60 || !s.OnClock {
		t.Errorf("a lorry that hasn't come: %+v", s)
	}

	x = slipping(t, yard, "3 08:00")
	x.g.Unloads[0].Finish = x.agreed.Unloads[0].Finish.Plus(calendars.Day)
	x.g.Unloads[0].Why = []schedule.Reason{{Kind: schedule.ByCrew, Other: schedule.Nothing}}
	found = broken(x, 0)
	if s := found[0].Steps[0]; s.By != 24*60 || !s.OnClock || s.Why == nil || s.Why.Kind != schedule.ByCrew {
		t.Errorf("unloaded late: %+v", s)
	}

	x.g.Unloads[0].Finish = calendars.Never
	if found = broken(x, 0); len(found) > 0 {
		t.Errorf("without a place: %+v", found)
	}
}

// corner has work that follows three others, which may all be late at once.
const corner = `
garden: Slip Corner
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-06 12:00
  hours: {mon-fri: 08:00-16:00}
  holidays_drop: []
zones:
  rear: {name: Rear}
  front: {name: Front}
crews:
  ones: {name: Ones, people: 1}
  twos: {name: Twos, people: 1}
  threes: {name: Threes, people: 1}
  fours: {name: Fours, people: 1}
rules:
  - groundworks before planting
tasks:
  first: {name: First, zone: front, stage: groundworks, crew: {ones: 1}, takes: 4h}
  second: {name: Second, zone: rear, stage: groundworks, crew: {twos: 1}, takes: 4h}
  third: {name: Third, zone: rear, stage: paving, crew: {threes: 1}, takes: 4h, cure: 2h}
  last: {name: Last, zone: [rear, front], stage: planting, crew: {fours: 1}, takes: 2h, after: [AFTER]}
`

// TestWaitedFor: of what was over late at one moment, work waited for what it is linked
// to, else for the first in the plan; and never for what was over after its start.
func TestWaitedFor(t *testing.T) {
	done := []string{"3 08:00 started first", "3 08:00 started second", "3 08:00 started third"}
	for _, c := range []struct {
		name, after string
		log         []string
		want        []schedule.Activity // steps
	}{
		{"all late at once", "{task: third, link: finish-start, cure: 0m}", []string{
			"3 14:00 finished first", "3 14:00 finished second", "3 12:00 finished third", "3 14:00 started last",
		}, []schedule.Activity{3, 0}},
		{"a link to the second too", "second", []string{
			"3 14:00 finished first", "3 14:00 finished second", "3 12:00 finished third", "3 14:00 started last",
		}, []schedule.Activity{3, 1}},
		{"what only shares the zone over last", "second", []string{
			"3 12:00 finished first", "3 13:00 finished second", "3 14:00 finished third", "3 15:00 started last",
		}, []schedule.Activity{3, 1}},
		{"the link over last", "third", []string{
			"3 13:00 finished first", "3 13:30 finished second", "3 13:00 finished third", "3 15:00 started last",
		}, []schedule.Activity{3, 2}},
		{"the cure of the link not over", "third", []string{
			"3 12:00 finished first", "3 12:00 finished second", "3 13:00 finished third", "3 14:30 started last",
		}, []schedule.Activity{3}},
	} {
		p, agreed := agree(t, strings.Replace(corner, "AFTER", c.after, 1))
		events := plans.Log(t, p, append(slices.Clone(done), c.log...)...)
		s := progress.At(p, events, agreed, plans.Event(t, p, 0, "3 15:30 started last").At)
		var got []schedule.Activity
		for _, trace := range slip.Of(s, forecast(t, s.Plan, agreed), agreed).Traces {
			got = append(got, through(trace)...)
		}
		if !slices.Equal(c.want, got) {
			t.Errorf("%s: steps %v, not %v", c.name, got, c.want)
		}
	}
}
