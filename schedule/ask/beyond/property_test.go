package beyond_test

import (
	"context"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/beyond"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
)

// late is a random plan whose hand-over comes so soon that work is left, and its logic
// or crew programme.
func late(t *testing.T, seed uint64) network.Case {
	t.Helper()
	p := plans.Small(plans.Seeded(seed))
	c := programme(t, p, seed%2 == 0)
	if c.Programme.Finish.IsReal() && seed%5 != 0 {
		q := *p
		sooner := c.Programme.Finish.Plus(-calendars.Minutes(60 * (1 + seed%24)))
		q.Site.Handover = max(p.Site.Opens+1, min(p.Site.Handover, sooner))
		q.Site.Aim = 0
		c = programme(t, &q, seed%2 == 0)
	}
	return c
}

func programme(t *testing.T, p *schedule.Plan, crews bool) network.Case {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	if crews {
		return s.Crews(context.Background(), solve.Options{Schedules: 20})
	}
	return s.Logic()
}

// What is left and what was worked before make the whole, and a programme that meets its
// line has nothing beyond it.
func TestUnfinishedWorkAddsUp(t *testing.T) {
	left := 0
	for seed := range uint64(150) {
		c := late(t, seed)
		a := beyond.Of(c)
		if meets(c) != (len(a.Unfinished) == 0) || meets(c) && len(a.Needs) > 0 {
			t.Fatalf("plan %d: meets its line %v, but %+v", seed, meets(c), a)
		}
		for _, u := range a.Unfinished {
			task, ok := c.Plan.Task(u.Activity)
			if !ok || u.NoPlace {
				continue
			}
			left++
			heads := 0
			for _, n := range c.Programme.Tasks[task].Heads {
				heads += n
			}
			before := calendars.Minutes(0)
			for _, s := range c.Programme.Tasks[task].Work {
				for m := s.Start; m < s.End && m < c.Plan.Site.Handover; m++ {
					before++
				}
			}
			if whole := c.Plan.Tasks[task].Effort.Time(heads); before+u.Left != whole || u.All != whole {
				t.Errorf("plan %d: %s: %d before the line and %d after it of %d, told %d", seed,
					c.Plan.Tasks[task].ID, before, u.Left, whole, u.All)
			}
		}
	}
	if left < 100 {
		t.Errorf("only %d tasks are unfinished in all", left)
	}
}

func meets(c network.Case) bool {
	for a := range c.Plan.Activities() {
		if c.Plan.Required(a) && c.Programme.Done(a) > c.Plan.Site.Handover {
			return false
		}
	}
	return true
}

// Minute by minute, what is named is what is used beyond what the plan's text has then.
func TestNeedsAreWhatThePlanLacks(t *testing.T) {
	seen := make(map[beyond.Kind]int)
	for seed := range uint64(150) {
		c := late(t, seed)
		a := beyond.Of(c)
		for _, n := range a.Needs {
			seen[n.Kind]++
			if n.Kind != beyond.SignOff && (n.Span.Start < c.Plan.Site.Handover || n.Span.Start >= n.Span.End) {
				t.Errorf("plan %d: %+v isn't beyond the line", seed, n)
			}
		}
		if len(a.Unfinished) > 0 {
			text{c}.compare(t, seed, a.Needs)
		}
	}
	for _, k := range []beyond.Kind{beyond.SiteOpen, beyond.People, beyond.Machine} { // the rest: TestNeeds
		if seen[k] == 0 {
			t.Errorf("no plan needs %d", k)
		}
	}
}

// text asks a plan what it has, by the minute and from its words alone.
type text struct{ network.Case }

// compare holds the needs against each minute of the work after the line.
func (x text) compare(t *testing.T, seed uint64, needs []beyond.Need) {
	t.Helper()
	end := x.Plan.Site.Handover
	for a := range x.Plan.Activities() {
		if f := x.Programme.Of(a).Finish; f.IsReal() {
			end = max(end, f)
		}
	}
	for m := x.Plan.Site.Handover; m < end; m++ {
		for i := range x.Plan.Machines {
			x.told(t, seed, needs, beyond.Need{Kind: beyond.Machine, Machine: schedule.MachineID(i)}, m, x.machines(i, m))
		}
		for i := range x.Plan.Crews {
			x.told(t, seed, needs, beyond.Need{Kind: beyond.People, Crew: schedule.CrewID(i)}, m, x.people(i, m))
		}
		x.told(t, seed, needs, beyond.Need{Kind: beyond.SiteOpen}, m, x.site(m))
	}
	for i := range x.Plan.Tasks {
		h, signed := x.Plan.Tasks[i].Hold, x.Programme.Tasks[i].Signed
		if h == nil || len(h.Appointments) == 0 || !signed.IsReal() || signed < x.Plan.Site.Handover {
			continue
		}
		named := slices.ContainsFunc(needs, func(n beyond.Need) bool {
			return n.Kind == beyond.SignOff && n.Work[0] == schedule.Activity(i) && n.Span.End == signed
		})
		if dated := slices.Contains(h.Appointments, signed.Plus(-h.Takes)); named == dated {
			t.Errorf("plan %d: %s signed %d: dated %v, named %v", seed, x.Plan.Tasks[i].ID, signed, dated, named)
		}
	}
}

// told checks that so many of something are named in a minute, or none.
func (x text) told(t *testing.T, seed uint64, needs []beyond.Need, of beyond.Need, m calendars.Instant, want int) {
	t.Helper()
	got := 0
	for _, n := range needs {
		same := n.Kind == of.Kind && (of.Kind != beyond.Machine || n.Machine == of.Machine) &&
			(of.Kind != beyond.People || n.Crew == of.Crew)
		if same && n.Span.Start <= m && m < n.Span.End {
			got = x.together(got, max(n.Count, 1))
		}
	}
	if got != max(want, 0) {
		t.Fatalf("plan %d: minute %d lacks %d of %+v, told %d", seed, m, want, of, got)
	}
}

// together is what two use of the same thing: in a logic programme nobody shares.
func (x text) together(a, b int) int {
	if x.Programme.Scope == schedule.Logic {
		return max(a, b)
	}
	return a + b
}

func covers(spans []calendars.Span, m calendars.Instant) bool {
	return slices.ContainsFunc(spans, func(s calendars.Span) bool { return s.Start <= m && m < s.End })
}

// works says whether an activity is worked on in a minute.
func (x text) works(a schedule.Activity, m calendars.Instant) bool {
	if t, ok := x.Plan.Task(a); ok {
		return covers(x.Programme.Tasks[t].Work, m)
	}
	d := x.Programme.Of(a)
	return d.Finish.IsReal() && d.Start <= m && m < d.Finish
}

func (x text) machines(id int, m calendars.Instant) (lack int) {
	kind := &x.Plan.Machines[id]
	if len(kind.Ours) == 0 || covers(kind.Ours, m) {
		return 0
	}
	for i := range x.Plan.Tasks {
		d, task := &x.Programme.Tasks[i], &x.Plan.Tasks[i]
		held := task.Stays && d.Finish.IsReal() && d.Start <= m && m < d.Finish
		mine := 0
		for _, need := range task.Machines {
			if int(need.Machine) == id && (held || x.works(schedule.Activity(i), m)) {
				mine += need.Count
			}
		}
		lack = x.together(lack, mine)
	}
	for i := range x.Plan.Deliveries {
		for _, need := range x.Plan.Deliveries[i].Unload.Machines {
			if int(need.Machine) == id && x.works(x.Plan.Unload(schedule.DeliveryID(i)), m) {
				lack = x.together(lack, need.Count)
			}
		}
	}
	return lack
}

func (x text) people(id int, m calendars.Instant) (lack int) {
	for a := range x.Plan.Activities() {
		if !x.works(a, m) {
			continue
		}
		for k, need := range x.Plan.CrewOf(a) {
			if int(need.Crew) != id {
				continue
			}
			if t, ok := x.Plan.Task(a); ok {
				lack = x.together(lack, x.Programme.Tasks[t].Heads[k])
			} else {
				lack = x.together(lack, need.Least)
			}
		}
	}
	return lack - x.heads(&x.Plan.Crews[id], id, m)
}

// heads are those of a crew in a minute by the plan.
func (x text) heads(c *schedule.Crew, id int, m calendars.Instant) int {
	date := calendars.DateIn(m, x.Plan.Site.Location)
	n := c.People
	for _, on := range c.PeopleOn {
		if on.On == date {
			n = on.People
		}
	}
	if c.Hours != nil && !x.weekly(*c.Hours) && !x.dated(*c.Hours, m) {
		return 0
	}
	for _, away := range c.Away {
		if covers([]calendars.Span{away.Span}, m) {
			n -= away.People
			if away.All {
				return 0
			}
		}
	}
	for _, duty := range x.Plan.Duties {
		for _, need := range duty.Crew {
			if int(need.Crew) == id && duty.From <= date && date <= duty.To && x.in(date, duty.At, m) {
				n -= need.Least
			}
		}
	}
	return max(n, 0)
}

func (x text) site(m calendars.Instant) int {
	site := &x.Plan.Site
	if x.weekly(site.Hours) || x.dated(site.Hours, m) {
		return 0
	}
	for a := range x.Plan.Activities() {
		t, task := x.Plan.Task(a)
		keeps := task && !x.Plan.OffSite(&x.Plan.Tasks[t]) || !task && (site.Gate == nil || site.Gate.Hours == nil)
		if keeps && x.works(a, m) {
			return 1
		}
	}
	return 0
}

// weekly says whether hours go on after what they date.
func (x text) weekly(h calendars.Hours) bool {
	return len(h.On) == 0 || slices.ContainsFunc(h.Weekly[:], func(day []calendars.Range) bool { return len(day) > 0 })
}

// dated says whether hours without a week are open in a minute.
func (x text) dated(h calendars.Hours, m calendars.Instant) bool {
	for _, c := range h.Closed {
		if covers([]calendars.Span{c.Span}, m) {
			return false
		}
	}
	date := calendars.DateIn(m, x.Plan.Site.Location)
	named, _ := h.Named(date)
	return slices.ContainsFunc(named.Ranges, func(r calendars.Range) bool { return x.in(date, r, m) })
}

func (x text) in(date calendars.Date, r calendars.Range, m calendars.Instant) bool {
	from, _ := calendars.At(x.Plan.Site.Location, date, r.From)
	to, _ := calendars.At(x.Plan.Site.Location, date, r.To)
	return from <= m && m < to
}
