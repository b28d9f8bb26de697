package gardentest

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/tui/draw"
)

// Names are what plans in other scripts, and hostile ones, may hold.
var Names = []string{
	"Lay the turf", "Set the copings and the cascade lip along the whole of the wall", "dig", "庭の石を据える", "石",
	"זרע את הדשא", "ازرع العشب", "Cafe\u0301 terrace e\u0301\u0301", "👩‍👩‍👧 family bed", "⚠️ care", "\u202eesrever",
	"a\tb\nc", "\x1b[31mred\x1b[0m", "x", "Wash the court a second time, and a third if the rain has not done it",
}

// Random returns a plan that is wholly drawn from a seed: zones, some of them off the site,
// tasks in one or more of them, lorries, waits, an aim, and names of every kind. Its dates may
// well break.
func Random(seed uint64) *schedule.Plan {
	r := rand.New(rand.NewPCG(seed, 3))
	opens := calendars.InstantOf(time.Date(2027, 4, 30, 7, 0, 0, 0, time.UTC))
	p := &schedule.Plan{Garden: Names[r.IntN(len(Names))], Stages: schedule.BuiltInStages()}
	days := 1 + r.IntN(12)
	p.Site = schedule.Site{Location: time.UTC, Opens: opens,
		Handover: opens.Plus(calendars.Minutes(days-1)*calendars.Day + 8*calendars.Hour)}
	if r.IntN(2) == 0 {
		p.Site.Aim = p.Site.Handover.Plus(-3 * calendars.Hour)
	}
	hours := []calendars.Range{{From: 7 * 60, To: 12 * 60}, {From: 12*60 + 30, To: 18 * 60}}
	for day := range p.Site.Hours.Weekly {
		p.Site.Hours.Weekly[day] = hours
	}
	p.Crews = []schedule.Crew{{ID: "crew", Name: "Crew", People: 200}}
	for z := range 1 + r.IntN(12) {
		zone := schedule.Zone{ID: fmt.Sprintf("zone-%d", z), Name: Names[r.IntN(len(Names))]}
		if z == 0 && r.IntN(2) == 0 {
			zone.OffSite, zone.From, zone.Hours = true, opens.Plus(-12*calendars.Day), p.Site.Hours
		}
		p.Zones = append(p.Zones, zone)
	}
	for d := range r.IntN(12) {
		p.Deliveries = append(p.Deliveries, randomLorry(r, d, opens, days))
	}
	for i := range 1 + r.IntN(90) {
		p.Tasks = append(p.Tasks, randomTask(r, p, i))
	}
	return p
}

func randomLorry(r *rand.Rand, d int, opens calendars.Instant, days int) schedule.Delivery {
	out := schedule.Delivery{
		ID: fmt.Sprintf("load-%d", d), What: Names[r.IntN(len(Names))], Out: r.IntN(5) == 0,
		Arrives: opens.Plus(calendars.Minutes(r.IntN(days*24)) * calendars.Hour), Waits: calendars.Day,
		Unload: schedule.Unload{Takes: 30},
	}
	if r.IntN(3) == 0 && !out.Out {
		out.Keep = calendars.Minutes(1+r.IntN(60)) * calendars.Hour
	}
	return out
}

func randomTask(r *rand.Rand, p *schedule.Plan, i int) schedule.Task {
	t := schedule.Task{
		ID: fmt.Sprintf("task-%d", i), Name: Names[r.IntN(len(Names))], Stage: schedule.StageID(r.IntN(len(p.Stages))),
		Crew:   []schedule.CrewNeed{{Crew: 0, Least: 1, Most: 1}},
		Effort: schedule.Effort{Takes: calendars.Minutes(15 + r.IntN(900))},
		Zones:  []schedule.ZoneID{schedule.ZoneID(r.IntN(len(p.Zones)))},
	}
	switch r.IntN(4) {
	case 0:
		t.Short = Names[r.IntN(len(Names))]
	case 1:
		t.ID = fmt.Sprintf("lay-%c-turf", 'a'+i%26) + string(rune('a'+i/26)) + "x"
	}
	if r.IntN(4) == 0 {
		t.Cure = calendars.Minutes(r.IntN(30)) * calendars.Hour
	}
	if r.IntN(6) == 0 {
		t.Hold = &schedule.HoldPoint{What: "looked at", Takes: calendars.Minutes(r.IntN(90))}
	}
	randomTies(r, p, &t, i)
	return t
}

// randomTies gives a task more zones, tasks before it and a lorry.
func randomTies(r *rand.Rand, p *schedule.Plan, t *schedule.Task, i int) {
	if off := p.Zones[t.Zones[0]].OffSite; !off && r.IntN(6) == 0 {
		for z := range p.Zones {
			if !p.Zones[z].OffSite && schedule.ZoneID(z) != t.Zones[0] && r.IntN(3) == 0 {
				t.Zones = append(t.Zones, schedule.ZoneID(z))
			}
		}
	}
	for n := r.IntN(3); n > 0 && i > 0; n-- {
		t.After = append(t.After, schedule.Link{From: schedule.TaskID(r.IntN(i))})
	}
	if n := len(p.Deliveries); n > 0 && r.IntN(3) == 0 {
		if d := schedule.DeliveryID(r.IntN(n)); !p.Deliveries[d].Out {
			t.Uses = []schedule.DeliveryID{d}
		}
	}
}

// RandomGarden returns a garden of a random plan: of its logic programme, of one with half
// of the float left to hands, or of one under way.
func RandomGarden(t testing.TB, seed uint64) *draw.Garden {
	t.Helper()
	p := Random(seed)
	g := Solve(t, p)
	switch seed % 3 {
	case 1:
		halved(g.Programme)
	case 2:
		at := p.Site.Opens.Plus(calendars.Minutes(seed%7) * calendars.Day / 2)
		standing := progress.At(p, Built(p, g.Programme, at, nil), g.Programme, at)
		s, err := solve.New(standing.Plan)
		if err != nil {
			t.Fatal(err)
		}
		c := s.Logic()
		halved(c.Programme)
		g = &draw.Garden{Case: c, Filed: standing.Plan, Words: wording.New(standing.Plan), Now: at,
			Numbers: sheets.Number(standing.Plan)}
	}
	return g
}

// halved makes a logic programme look like one of crews.
func halved(g *schedule.Programme) {
	g.Scope = schedule.Crews
	for i := range g.Tasks {
		g.Tasks[i].CrewFloat = g.Tasks[i].TotalFloat
		if g.Tasks[i].TotalFloat > 0 && g.Tasks[i].TotalFloat < schedule.FreeRange {
			g.Tasks[i].CrewFloat /= 2
		}
	}
}
