package verify_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/verify"
)

// The window of the hand-made cases: Monday 3 to Saturday 8 May 2027, Thursday
// a holiday, an hour's break at noon.
const window = `
garden: Small Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-08 17:00
  holidays_add: [{on: 2027-05-06, why: show preview}]
  hours: {mon-sun: 08:00-12:00 13:00-17:00}
  closed: [{from: 2027-05-05 13:00, to: 2027-05-05 14:00, why: inspection}]
  loud_hours: {mon-sun: 09:00-16:00}
  gate: {at_once: 1, hours: {mon-sun: 07:00-10:00}}
zones:
  rear: {people: 4, way_in: [lawn]}
  lawn: {people: 6, way_in: [front]}
  front: {}
  yard: {off_site: true, from: 2027-04-28 08:00, hours: {mon-fri: 08:00-17:00}}
crews:
  crew: {people: 3, away: [{from: 2027-05-04 15:00, to: 2027-05-04 17:00, people: 2}]}
  early: {people: 2, hours: {mon-sun: 06:00-14:00}, people_on: {2027-05-05: 1}}
  spare: {people: 9}
machines:
  lift: {count: 1, places: 2, ours: [2027-05-03 08:00 to 2027-05-04 12:00]}
  saw: {count: 2}
givens:
  power: {what: mains, from: 2027-05-03 10:00}
daily:
  watering: {crew: {crew: 2}, at: 08:00-09:00, from: 2027-05-07, to: 2027-05-08}
`

func read(t *testing.T, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatalf("%v\n%s", problems, text)
	}
	return p
}

// dated makes a programme from lines: an id, the day in May 2027 and time of
// start and finish, then the heads where they aren't the least. A delivery
// arrives when it is booked for unless a third moment says so.
func dated(t *testing.T, p *schedule.Plan, lines string) *schedule.Programme {
	t.Helper()
	g := &schedule.Programme{
		Tasks:   make([]schedule.TaskDates, len(p.Tasks)),
		Unloads: make([]schedule.UnloadDates, len(p.Deliveries)),
	}
	for i := range g.Tasks {
		g.Tasks[i].Start, g.Tasks[i].Finish = calendars.Never, calendars.Never
		for _, need := range p.Tasks[i].Crew {
			g.Tasks[i].Heads = append(g.Tasks[i].Heads, need.Least)
		}
	}
	for i := range g.Unloads {
		g.Unloads[i] = schedule.UnloadDates{
			Dates:   schedule.Dates{Start: calendars.Never, Finish: calendars.Never},
			Arrives: p.Deliveries[i].Arrives,
		}
	}
	for line := range strings.Lines(strings.TrimSpace(lines)) {
		f := strings.Fields(line)
		start, finish := moment(t, p, f[1], f[2]), moment(t, p, f[3], f[4])
		if id := p.FindTask(f[0]); id != schedule.None {
			g.Tasks[id].Start, g.Tasks[id].Finish = start, finish
			for k, n := range f[5:] {
				g.Tasks[id].Heads[k] = int(n[0] - '0')
			}
			continue
		}
		u := &g.Unloads[p.FindDelivery(f[0])]
		u.Start, u.Finish = start, finish
		if len(f) > 5 {
			u.Arrives = moment(t, p, f[5], f[6])
		}
	}
	return g
}

func moment(t *testing.T, p *schedule.Plan, day, clock string) calendars.Instant {
	t.Helper()
	at, err := time.ParseInLocation("2006-01-2 15:04", fmt.Sprintf("2027-05-%s %s", day, clock), p.Site.Location)
	if err != nil {
		t.Fatal(err)
	}
	return calendars.InstantOf(at)
}

// reports are the rules about what a programme says of itself; the cases give
// only dates.
var reports = []string{"finish", "margin", "aim", "breaks", "blocked", "work", "signed", "done", "waiting time"}

// sums are the faults of a check, without those about what is said of single
// tasks.
func sums(r verify.Result) []verify.Fault {
	return slices.DeleteFunc(r.Rules,
		func(f verify.Fault) bool {
			return slices.Contains([]string{"work", "signed", "done", "waiting time"}, f.Rule)
		})
}

// broken lists the rules that a check found broken, each once, without reports.
func broken(r verify.Result) []string {
	var names []string
	for _, f := range r.Rules {
		if !slices.Contains(reports, f.Rule) && !slices.Contains(names, f.Rule) {
			names = append(names, f.Rule)
		}
	}
	slices.Sort(names)
	return names
}

type handMade struct {
	name  string
	plan  string // deliveries, rules and tasks
	dates string
	want  string // broken rules by name; none when empty
}

func runCases(t *testing.T, scope schedule.Scope, cases []handMade) {
	t.Helper()
	for _, c := range cases {
		t.Run(strings.ReplaceAll(c.name, " ", "_"), func(t *testing.T) {
			p := read(t, window+c.plan)
			r := verify.Check(p, dated(t, p, c.dates), scope)
			if diff := cmp.Diff(c.want, strings.Join(broken(r), ", ")); diff != "" {
				t.Errorf("broken rules (-want +got):\n%s\n%v", diff, r.Rules)
			}
		})
	}
}

func TestTimeRules(t *testing.T) {
	runCases(t, schedule.Logic, slices.Concat(boundCases(), workCases(), linkCases(), ruleCases(), deliveryCases()))
}

func boundCases() []handMade {
	dig := "tasks: {dig: {zone: front, stage: groundworks, crew: {spare: 1}, takes: 2h"
	cut := "tasks: {cut: {zone: yard, stage: structure, crew: {spare: 1}, takes: 1h"
	return []handMade{
		{"at opening", dig + "}}", "dig 3 08:00 3 10:00", ""},
		{"before opening", dig + "}}", "dig 2 15:00 2 17:00", "opens"},
		{"nothing to do before opening", "tasks: {sign: {zone: front, stage: groundworks, takes: 0m}}",
			"sign 3 07:59 3 07:59", "opens"},
		{"off site from its day", cut + "}}", "cut 3 08:00 3 09:00", ""},
		{"off site too early", "tasks: {cut: {zone: yard, stage: structure, takes: 1h}}",
			"cut 2 08:00 2 09:00", "place hours, working time"},
		{"not_before met", dig + ", not_before: 2027-05-03 13:00}}", "dig 3 13:00 3 15:00", ""},
		{"not_before broken", dig + ", not_before: 2027-05-03 13:00}}", "dig 3 10:00 3 12:00", "not_before"},
		{"given met", dig + ", after: [power]}}", "dig 3 10:00 3 12:00", ""},
		{"given broken", dig + ", after: [power]}}", "dig 3 09:59 3 11:59", "given"},
		{"heads in range", "tasks: {dig: {zone: front, stage: groundworks, crew: {spare: 2..4}, person_hours: 8}}",
			"dig 3 08:00 3 12:00 2", ""},
		{"more heads, less time", "tasks: {dig: {zone: front, stage: groundworks, crew: {spare: 2..4}, person_hours: 8}}",
			"dig 3 08:00 3 10:00 4", ""},
		{"too many heads", "tasks: {dig: {zone: front, stage: groundworks, crew: {spare: 2..4}, person_hours: 10}}",
			"dig 3 08:00 3 10:00 5", "heads"},
		{"too few heads", "tasks: {dig: {zone: front, stage: groundworks, crew: {spare: 2..4}, person_hours: 4}}",
			"dig 3 08:00 3 12:00 1", "heads"},
		{"heads beyond the zone", "tasks: {dig: {zone: rear, stage: groundworks, crew: {spare: 2..5}, person_hours: 5}}",
			"dig 3 08:00 3 09:00 5", "heads"},
		{"heads and machines beyond the zone",
			"tasks: {dig: {zone: rear, stage: groundworks, crew: {spare: 1..4}, machines: {lift: 1}, takes: 1h}}",
			"dig 3 08:00 3 09:00 3", "heads"},
	}
}

func workCases() []handMade {
	plain := "tasks: {dig: {zone: front, stage: groundworks, crew: {spare: 1}, takes: 3h"
	task := func(rest string) string { return "tasks: {dig: {zone: front, stage: groundworks, " + rest + "}}" }
	return []handMade{
		{"over the break", plain + "}}", "dig 3 10:00 3 14:00", ""},
		{"a minute short", plain + "}}", "dig 3 10:00 3 13:59", "working time"},
		{"a minute long", plain + "}}", "dig 3 10:00 3 14:01", "working time"},
		{"starts in the break", plain + "}}", "dig 3 12:30 3 16:00", "site hours"},
		{"finishes in the break", plain + "}}", "dig 3 09:00 3 12:01", "site hours"},
		{"over the holiday", plain + "}}", "dig 5 16:00 7 10:00", ""},
		{"on the holiday", plain + "}}", "dig 6 09:00 6 12:00", "site hours, working time"},
		{"over the closure", plain + "}}", "dig 5 11:00 5 16:00", ""},
		{"in the closure", plain + "}}", "dig 5 13:00 5 16:00", "site hours, working time"},
		{"loud in its hours", task("crew: {spare: 1}, takes: 3h, loud: true"), "dig 3 09:00 3 12:00", ""},
		{"loud too early", task("crew: {spare: 1}, takes: 3h, loud: true"),
			"dig 3 08:59 3 11:59", "loud hours, working time"},
		{"crew at work", task("crew: {early: 2}, takes: 1h"), "dig 3 13:00 3 14:00", ""},
		{"crew gone home", task("crew: {early: 2}, takes: 1h"), "dig 3 13:30 3 14:30", "crew hours, working time"},
		{"crew away", task("crew: {crew: 2}, takes: 2h"), "dig 4 14:00 5 09:00", ""},
		{"crew away, none paused", task("crew: {crew: 2}, takes: 2h"), "dig 4 14:00 4 16:00", "crew hours, working time"},
		{"enough left of the crew", task("crew: {crew: 1}, takes: 2h"), "dig 4 14:00 4 16:00", ""},
		{"fewer on the date", task("crew: {early: 2}, takes: 1h"), "dig 5 08:00 5 09:00", "crew hours, working time"},
		{"crew at its daily duty", task("crew: {crew: 2}, takes: 1h"), "dig 7 08:00 7 09:00", "crew hours, working time"},
		{"machine ours", task("machines: {lift: 1}, crew: {spare: 1}, takes: 1h"), "dig 4 11:00 4 12:00", ""},
		{"machine not ours", task("machines: {lift: 1}, crew: {spare: 1}, takes: 1h"),
			"dig 4 13:00 4 14:00", "machine slots, working time"},
		{"unbroken in one stretch", plain + ", unbroken: true}}", "dig 3 09:00 3 12:00", ""},
		{"unbroken over the break", plain + ", unbroken: true}}", "dig 3 10:00 3 14:00", "unbroken"},
		{"no time at any moment", task("takes: 0m"), "dig 4 02:00 4 02:00", ""},
		{"no time takes time", task("takes: 0m"), "dig 4 09:00 4 09:01", "working time"},
	}
}
