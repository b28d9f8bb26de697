package beyond_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/beyond"
	"build.example/turflast/schedule/planfile"
)

// court is a plan of a day and a half; a case adds what it is about, and its tasks.
const court = `garden: Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-04 12:00
%szones:
  rear: {name: Rear}
  yard: {name: Yard, off_site: true, from: 2027-05-03 08:00, hours: {}, hours_on: {2027-05-03: 08:00-12:00, 2027-05-04: 08:00-09:00}}
crews:
  ground: {name: Ground crew, people: 3}
  masons: {name: Masons, people: 0, people_on: {2027-05-03: 3, 2027-05-04: 1}}
  joiners: {name: Joiners, people: 2, hours: {}, hours_on: {2027-05-03: 08:00-16:00}}
machines:
  digger: {name: Digger, count: 1, ours: [2027-05-03 08:00 to 2027-05-03 12:00, 2027-05-04 13:00 to 2027-05-04 14:00]}
%s`

// weekly are hours that run on; dated are those that end with the window.
const (
	weekly = "  hours: {mon-fri: 08:00-16:00}\n"
	gate   = "  gate: {at_once: 1, hours: {}, hours_on: {2027-05-03: 08:00-16:00}}\n"
	dated  = "  hours: {}\n  hours_on: {2027-05-03: 08:00-16:00, 2027-05-04: 08:00-12:00}\n"
)

func TestOf(t *testing.T) {
	for _, c := range []struct{ what, site, work, want string }{
		{"a programme that meets its line", weekly, `tasks:
  dig: {name: Dig, zone: rear, stage: planting, crew: {ground: 1}, takes: 12h}
`, ""},
		{"a minute over it", weekly, `tasks:
  dig: {name: Dig, zone: rear, stage: planting, crew: {ground: 1}, takes: 12h1m}
`, "dig 1 of 721, begun"},
		{"an amount, rounded up to its last place", weekly, `tasks:
  turf: {name: Turf, zone: rear, stage: planting, crew: {ground: 1}, amount: 62 m2, rate: 4 m2/person-hour}
  seed: {name: Seed, zone: rear, stage: planting, crew: {ground: 1}, amount: 62.0 m2, rate: 4 m2/person-hour}
  sow: {name: Sow, zone: rear, stage: planting, crew: {ground: 1}, amount: 60 m2, rate: 4 m2/person-hour}
`, `turf 210 of 930 (14 of 62 m2), begun
seed 210 of 930 (14.0 of 62.0 m2), begun
sow 180 of 900 (12 of 60 m2), begun`},
		{"a share that no place holds", weekly, `tasks:
  turf: {name: Turf, zone: rear, stage: planting, crew: {ground: 1}, amount: 65 m2, rate: 5 m2/person-hour, after: [wait]}
  wait: {name: Wait, zone: rear, stage: planting, crew: {ground: 1}, takes: 1h50m}
`, "turf 170 of 780 (15 of 65 m2), begun"},
		{"what isn't begun, cured or signed", weekly, `tasks:
  a: {name: A, zone: rear, stage: planting, crew: {ground: 1}, takes: 12h, cure: 3h}
  b: {name: B, zone: rear, stage: planting, crew: {ground: 1}, takes: 12h, hold_point: {what: signed, takes: 30m}}
  c: {name: C, zone: rear, stage: planting, crew: {ground: 1}, takes: 2h, after: [a]}
`, `a 0 of 720, begun, cures until Tue 4 May 15:00
b 0 of 720, begun, unsigned
c 120 of 120`},
		{"what is signed as the line comes, and cures on", weekly, `tasks:
  a: {name: A, zone: rear, stage: planting, crew: {ground: 1}, amount: 69 m2, rate: 6 m2/person-hour, cure: 3h, hold_point: {what: signed, takes: 30m}}
  b: {name: B, zone: rear, stage: planting, crew: {ground: 1}, amount: 12 m2, rate: 6 m2/person-hour, after: [a]}
`, `a 0 of 690, begun, cures until Tue 4 May 14:30
b 120 of 120 (12 of 12 m2)`},
		{"optional work is left out, and doesn't count", weekly, `tasks:
  a: {name: A, zone: rear, stage: planting, crew: {ground: 3}, takes: 12h}
  b: {name: B, zone: rear, stage: planting, crew: {ground: 3}, takes: 12h, optional: true}
`, ""},
		{"a machine that is ours again for an hour, and adjoining work", weekly, `tasks:
  a: {name: A, zone: rear, stage: planting, crew: {ground: 1}, takes: 12h}
  b: {name: B, zone: rear, stage: planting, crew: {ground: 1}, machines: {digger: 1}, takes: 1h30m, after: [a]}
  c: {name: C, zone: rear, stage: planting, crew: {ground: 1}, machines: {digger: 1}, takes: 1h, after: [b]}
`, `b 90 of 90
c 60 of 60
1 digger Tue 4 May 12:00-13:00 b
1 digger Tue 4 May 14:00-14:30 c`},
		{"one that stands through the night", weekly, `tasks:
  a: {name: A, zone: rear, stage: planting, crew: {ground: 1}, takes: 12h}
  b: {name: B, zone: rear, stage: planting, crew: {ground: 1}, machines: {digger: 1}, takes: 5h, stays: true, after: [a]}
`, `b 300 of 300
1 digger Tue 4 May 12:00-13:00 b
1 digger Tue 4 May 14:00 to Wed 5 May 09:00 b`},
		{"heads that a date has, and heads beyond dated ones", weekly, `tasks:
  a: {name: A, zone: rear, stage: planting, crew: {ground: 1}, takes: 12h}
  b: {name: B, zone: rear, stage: planting, crew: {masons: 1}, takes: 5h, after: [a]}
  c: {name: C, zone: rear, stage: planting, crew: {masons: 2}, takes: 1h, after: [b]}
`, `b 300 of 300
c 60 of 60
1 masons Wed 5 May 08:00-09:00 b
2 masons Wed 5 May 09:00-10:00 c`},
		{"hours of a crew, a place and the site that are dated", dated, `tasks:
  a: {name: A, zone: rear, stage: planting, crew: {joiners: 1}, takes: 9h}
  b: {name: B, zone: yard, stage: planting, crew: {ground: 1}, takes: 6h}
`, `a 60 of 540, begun
b 60 of 360, begun
site Wed 5 May 08:00-09:00 a
place 1 yard Wed 5 May 08:00-09:00 b
1 joiners Wed 5 May 08:00-09:00 a`},
		{"the site itself", dated, `tasks:
  a: {name: A, zone: rear, stage: planting, crew: {ground: 1}, takes: 13h}
  b: {name: B, zone: rear, stage: planting, crew: {ground: 1}, takes: 14h}
`, `a 60 of 780, begun
b 120 of 840, begun
site Wed 5 May 08:00-10:00 a b`},
		{"an appointment that is dated, and one that isn't", weekly, `tasks:
  a: {name: A, zone: rear, stage: planting, crew: {ground: 1}, takes: 13h, hold_point: {what: signed, takes: 30m, by_appointment: [2027-05-04 13:00]}}
  b: {name: B, zone: rear, stage: planting, crew: {ground: 1}, takes: 13h1m, hold_point: {what: signed, takes: 30m, by_appointment: [2027-05-04 13:00]}}
`, `a 60 of 780, begun
b 61 of 781, begun
sign Wed 5 May 08:00-08:30 b`},
		{"a lorry, and a gate with dated hours", gate + weekly, `deliveries:
  stone: {what: stone, arrives: 2027-05-03 09:00, unload: {takes: 30m, crew: {ground: 1}}, after: [a]}
tasks:
  a: {name: A, zone: rear, stage: planting, crew: {ground: 1}, takes: 13h}
  b: {name: B, zone: rear, stage: planting, crew: {ground: 1}, takes: 1h, uses: [stone]}
`, `a 60 of 780, begun
stone 30 of 30
b 60 of 60
gate Tue 4 May 13:00-13:30 stone`},
	} {
		t.Run(c.what, func(t *testing.T) {
			p, problems := planfile.Read(strings.NewReader(fmt.Sprintf(court, c.site, c.work)))
			if p == nil {
				t.Fatal(problems)
			}
			if diff := cmp.Diff(c.want, told(p, beyond.Of(programme(t, p, true)))); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// told is an answer as lines.
func told(p *schedule.Plan, a *beyond.Answer) string {
	var lines []string
	words := p.Site.Figures()
	for _, u := range a.Unfinished {
		s := fmt.Sprintf("%s %d of %d", p.ActivityID(u.Activity), u.Left, u.All)
		if u.Amount != nil {
			s += fmt.Sprintf(" (%s of %s %s)", u.Amount.Left, u.Amount.All, u.Amount.Units)
		}
		for _, x := range []struct {
			is   bool
			said string
		}{
			{u.Begun, "begun"}, {u.Unticked, "not ticked"}, {u.NoPlace, "no place"}, {u.Unsigned, "unsigned"},
			{u.Cures != 0, "cures until " + words.Moment(max(u.Cures, p.Site.Opens))},
		} {
			if x.is {
				s += ", " + x.said
			}
		}
		lines = append(lines, s)
	}
	for _, n := range a.Needs {
		var s string
		switch n.Kind {
		case beyond.SiteOpen:
			s = "site"
		case beyond.GateOpen:
			s = "gate"
		case beyond.PlaceOpen:
			s = fmt.Sprintf("place %d %s", n.Zone, p.Zones[n.Zone].ID)
		case beyond.People:
			s = fmt.Sprintf("%d %s", n.Count, p.Crews[n.Crew].ID)
		case beyond.Machine:
			s = fmt.Sprintf("%d %s", n.Count, p.Machines[n.Machine].ID)
		case beyond.SignOff:
			s = "sign"
		}
		s += " " + words.Span(n.Span)
		for _, x := range n.Work {
			s += " " + p.ActivityID(x)
		}
		lines = append(lines, s)
	}
	return strings.Join(lines, "\n")
}

// What the log says is left of work in hand is a share of the amount.
func TestAmountOfWorkInHand(t *testing.T) {
	p, problems := planfile.Read(strings.NewReader(fmt.Sprintf(court, weekly, `tasks:
  turf: {name: Turf, zone: rear, stage: planting, crew: {ground: 1}, amount: 60 m2, rate: 5 m2/person-hour}
`)))
	if p == nil {
		t.Fatal(problems)
	}
	at := p.Site.Handover.Plus(-calendars.Hour)
	for _, c := range []struct {
		left schedule.Effort
		want string
	}{
		{schedule.Effort{Num: 120, Den: 1}, "turf 60 of 360 (5 of 60 m2), begun"},   // two hours, one before the line
		{schedule.Effort{Num: 720, Den: 1}, "turf 660 of 960 (55 of 60 m2), begun"}, // no more than it was
		{schedule.Effort{Num: 840, Den: 1}, "turf 780 of 1080, begun"},              // more than it was
		{schedule.Effort{Takes: 120}, "turf 60 of 360, begun"},
	} {
		q := *p
		q.Progress = &schedule.Progress{At: at, Tasks: []schedule.TaskProgress{{
			Start: p.Site.Opens, Left: c.left, Heads: []int{1},
			Worked: []calendars.Span{{Start: p.Site.Opens, End: p.Site.Opens.Plus(4 * calendars.Hour)}},
		}}}
		if diff := cmp.Diff(c.want, told(&q, beyond.Of(programme(t, &q, true)))); diff != "" {
			t.Error(diff)
		}
	}
}

// Of work that was to be finished before the line, and was begun and not ticked, nobody knows
// what is left.
func TestNotTicked(t *testing.T) {
	p, problems := planfile.Read(strings.NewReader(fmt.Sprintf(court, weekly, `tasks:
  turf: {name: Turf, zone: rear, stage: planting, crew: {ground: 1}, takes: 1h, cure: 1h}
`)))
	if p == nil {
		t.Fatal(problems)
	}
	for _, c := range []struct {
		after calendars.Minutes // from the line to the moment
		left  calendars.Minutes
		want  string
	}{
		{calendars.Hour, 0, "turf 0 of 0, begun, not ticked"},
		{calendars.Hour, 60, "turf 120 of 300, begun"}, // as somebody said now
		{0, 0, "turf 0 of 180, begun, cures until Tue 4 May 13:00"},
	} {
		now := p.Site.Handover.Plus(c.after)
		begun := p.Site.Handover.Plus(-3 * calendars.Hour)
		p.Progress = &schedule.Progress{At: now, Tasks: []schedule.TaskProgress{{
			Start: begun, Left: schedule.Effort{Takes: c.left}, Heads: []int{1},
			Worked: []calendars.Span{{Start: begun, End: now}},
		}}}
		if diff := cmp.Diff(c.want, told(p, beyond.Of(programme(t, p, true)))); diff != "" {
			t.Error(diff)
		}
	}
}

// What was finished by the log after the line was left at the line.
func TestAmountAfterTheLine(t *testing.T) {
	p, problems := planfile.Read(strings.NewReader(fmt.Sprintf(court, weekly, `tasks:
  turf: {name: Turf, zone: rear, stage: planting, crew: {ground: 1}, amount: 60 m2, rate: 5 m2/person-hour}
`)))
	if p == nil {
		t.Fatal(problems)
	}
	line := p.Site.Handover
	p.Progress = &schedule.Progress{At: line.Plus(3 * calendars.Hour), Tasks: []schedule.TaskProgress{{
		Start: line.Plus(-3 * calendars.Hour), Finish: line.Plus(calendars.Hour), Heads: []int{3},
		Worked: []calendars.Span{{Start: line.Plus(-3 * calendars.Hour), End: line.Plus(calendars.Hour)}},
	}}}
	if diff := cmp.Diff("turf 60 of 240 (15 of 60 m2), begun", told(p, beyond.Of(programme(t, p, true)))); diff != "" {
		t.Error(diff)
	}
}
