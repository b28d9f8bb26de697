package slip_test

import (
	"bytes"
	"context"
	"slices"
	"strings"
	"testing"
	_ "time/tzdata"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/baseline"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
	"build.example/turflast/schedule/site/slip"
	"build.example/turflast/schedule/verify"
)

const court = `
garden: Slip Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-05 12:00
  hours: {mon-fri: 08:00-16:00}
  holidays_drop: []
zones:
  front: {name: Front}
crews:
  diggers: {name: Diggers, people: 4}
  planters: {name: Planters, people: 2}
givens:
  water: {what: water, from: 2027-05-03 08:00}
deliveries:
  shrubs: {what: shrubs, arrives: 2027-05-04 08:00, unload: 30m, keep: 48h}
tasks:
  dig: {name: Dig, zone: front, stage: groundworks, crew: {diggers: 3}, takes: 6h, weather: [dry], hold_point: {what: depth checked, takes: 0m}}
  soil: {name: Spread soil, zone: front, stage: soil, crew: {diggers: 2}, takes: 2h, after: [dig, water]}
  plant: {name: Plant, zone: front, stage: planting, crew: {planters: 2}, takes: 4h, after: [soil], uses: [shrubs]}
  mulch: {name: Mulch, zone: front, stage: mulch, crew: {planters: 2}, takes: 2h, after: [plant]}
`

func forecast(t *testing.T, p *schedule.Plan, near *schedule.Programme) network.Case {
	t.Helper()
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	c := s.Crews(context.Background(), solve.Options{Schedules: 100, Reference: near})
	if r := verify.Check(p, c.Programme, schedule.Crews); len(r.Rules) > 0 {
		t.Fatal(r.Rules)
	}
	return c
}

// TestTraces checks the sentences that lead from the hand-over's slip back to
// what happened.
func TestTraces(t *testing.T) {
	p, agreed := agree(t, court)
	groundDone := []string{"3 08:00 started dig", "3 14:00 finished dig", "3 14:00 signed dig",
		"3 08:00 given water", "3 14:00 started soil", "3 16:00 finished soil"}
	for _, c := range []struct {
		name string
		at   string
		log  []string
		want string
	}{
		{"nothing slips", "3 10:00", []string{"3 08:00 started dig"}, ""},
		{"a wet day", "3 16:00", []string{"3 08:00 started dig", "3 15:00 wet"},
			"Mulch is 7 h 30 late: it waits for Plant, to be finished by Wed 5 May 12:00.\n" +
				"Plant is 7 h 30 late: it waits for Spread soil, to be finished by Tue 4 May 16:00.\n" +
				"Spread soil is 8 h late: it waits for Dig, to be finished by Tue 4 May 14:00.\n" +
				"Dig is 8 h late: Wet on Mon 3 May (Mon 3 May 15:00, by Ann)."},
		{"a late lorry", "4 10:00", append(slices.Clone(groundDone), "4 09:00 rebooked shrubs"),
			"Mulch is 9 h late: it waits for Plant, to be finished by Wed 5 May 13:30.\n" +
				"Plant is 9 h late: it uses shrubs, to be unloaded by Wed 5 May 09:30.\n" +
				"The lorry with shrubs is 25 h late: Shrubs booked for Wed 5 May 09:00 (Tue 4 May 09:00, by Ann)."},
		{"a lorry that hasn't come", "4 10:00", groundDone,
			"Mulch is 2 h late: it waits for Plant, to be finished by Tue 4 May 14:30.\n" +
				"Plant is 2 h late: it uses shrubs, to be unloaded by Tue 4 May 10:30.\n" +
				"The lorry with shrubs is 2 h late: it was to come Tue 4 May 08:00, and nothing says that it has."},
		{"too few turned up", "3 09:00", []string{"3 07:50 people diggers 2"},
			"Mulch is 7 h 30 late: it waits for Plant, to be finished by Wed 5 May 12:00.\n" +
				"Plant is 7 h 30 late: it waits for Spread soil, to be finished by Tue 4 May 16:00.\n" +
				"Spread soil is 8 h late: it waits for Dig, to be finished by Tue 4 May 14:00.\n" +
				"Dig is 8 h late: it was to begin Mon 3 May 08:00, and nothing says that it has; " +
				"Diggers: 2 turned up on Mon 3 May (Mon 3 May 07:50, by Ann)."},
		{"a sign-off failed", "3 15:00",
			[]string{"3 08:00 started dig", "3 14:00 finished dig", "3 15:00 failed dig too shallow"},
			"Mulch is 30 m late: it waits for Plant, to be finished by Tue 4 May 13:00.\n" +
				"Plant is 30 m late: it waits for Spread soil, to be finished by Tue 4 May 09:00.\n" +
				"Spread soil is 1 h late: it waits for Dig, to be finished by Mon 3 May 15:00.\n" +
				"Dig is 1 h late: Dig failed its sign-off: too shallow (Mon 3 May 15:00, by Ann)."},
		{"a late start, and a late signature that it didn't wait for", "4 12:00",
			[]string{"3 08:00 started dig", "3 14:00 finished dig", "3 08:00 given water", "3 14:00 started soil",
				"3 16:00 finished soil", "4 08:00 arrived shrubs", "4 09:00 signed dig", "4 10:00 started plant"},
			"Mulch is 1 h 30 late: it waits for Plant, to be finished by Tue 4 May 14:00.\n" +
				"Plant is 1 h 30 late: Plant started (Tue 4 May 10:00, by Ann)."},
		{"a pause and more left", "3 13:00",
			[]string{"3 08:00 started dig", "3 09:00 paused dig water main", "3 12:00 resumed dig", "3 13:00 left dig 300"},
			"Mulch is 3 h 30 late: it waits for Plant, to be finished by Tue 4 May 16:00.\n" +
				"Plant is 3 h 30 late: it waits for Spread soil, to be finished by Tue 4 May 12:00.\n" +
				"Spread soil is 4 h late: it waits for Dig, to be finished by Tue 4 May 10:00.\n" +
				"Dig is 4 h late: Dig paused: water main (Mon 3 May 09:00, by Ann); Dig has 5 h left (Mon 3 May 13:00, by Ann)."},
		{"not begun", "3 10:00", nil,
			"Mulch is 1 h 30 late: it waits for Plant, to be finished by Tue 4 May 14:00.\n" +
				"Plant is 1 h 30 late: it waits for Spread soil, to be finished by Tue 4 May 10:00.\n" +
				"Spread soil is 2 h late: it waits for Dig, to be finished by Mon 3 May 16:00.\n" +
				"Dig is 2 h late: it was to begin Mon 3 May 08:00, and nothing says that it has."},
		{"no water", "4 09:00", []string{"3 08:00 started dig", "3 14:00 finished dig", "3 14:00 signed dig"},
			"Mulch is 2 h 30 late: it waits for Plant, to be finished by Tue 4 May 15:00.\n" +
				"Plant is 2 h 30 late: it waits for Spread soil, to be finished by Tue 4 May 11:00.\n" +
				"Spread soil is 3 h late: it needs water, there from Tue 4 May 09:00."},
		{"what it waited for began late", "4 12:00",
			[]string{"3 10:00 started dig", "3 16:00 finished dig",
				"4 08:00 signed dig", "4 08:10 given water", "4 08:30 started soil",
				"4 10:30 finished soil", "4 08:00 arrived shrubs", "4 11:00 started plant"},
			"Mulch is 2 h 30 late: it waits for Plant, to be finished by Tue 4 May 15:00.\n" +
				"Plant is 2 h 30 late: it waited for Spread soil.\n" +
				"Spread soil is 2 h 30 late: it waited for Dig.\n" +
				"Dig is 2 h late: Dig started (Mon 3 May 10:00, by Ann)."},
	} {
		at := plans.Event(t, p, 0, c.at+" started dig").At
		s := progress.At(p, plans.Log(t, p, c.log...), agreed, at)
		now := forecast(t, s.Plan, agreed)
		found := slip.Of(s, now, agreed)
		w := wording.New(s.Plan)
		var got []string
		for i := range found.Traces {
			if found.Traces[i].Break == nil {
				got = append(got, w.Traced(&found.Traces[i])...)
			}
		}
		if text := strings.Join(got, "\n"); text != c.want {
			t.Errorf("%s:\ngot\n%s\nwant\n%s", c.name, text, c.want)
		}
	}
}

// halfway is where a random plan stands in the middle of its crew programme, as that has
// it or with slips, and the programme. The standing is nil when it can't be built.
func halfway(seed uint64, slips bool) (*progress.Standing, *schedule.Programme) {
	p := plans.Small(plans.Seeded(seed))
	s, err := solve.New(p)
	if err != nil {
		return nil, nil
	}
	g := s.Crews(context.Background(), solve.Options{Schedules: 100}).Programme
	if g.Blocked != nil || g.Finish <= p.Site.Opens {
		return nil, nil
	}
	at := p.Site.Opens.Plus(calendars.Minutes(g.Finish-p.Site.Opens) / 2)
	q := plans.Underway(plans.Seeded(seed), p, g, at, slips)
	return &progress.Standing{Plan: q, Planned: p.Crews, State: sitelog.Replay(nil, at)}, g
}

// TestAsProgrammed checks that nothing slips when exactly the programme is logged.
func TestAsProgrammed(t *testing.T) {
	tried := 0
	for seed := uint64(0); tried < 60; seed++ {
		s, g := halfway(seed, false)
		if s == nil || len(g.Breaks) > 0 {
			continue
		}
		tried++
		now := forecast(t, s.Plan, g)
		f, found := now.Programme, slip.Of(s, now, g)
		if f.Finish == g.Finish && len(f.Moves) == 0 && (len(found.Tasks) > 0 || len(found.Traces) > 0 || found.By != 0) {
			t.Fatalf("seed %d: %+v", seed, found)
		}
		if f.Finish > g.Finish && plans.LeftOut(f) < plans.LeftOut(g) {
			continue // what was programmed to be left out has a place after all
		}
		if last := plans.FinishOfBegun(s.Plan, g); f.Finish > max(g.Finish, last) || found.By > 0 && last <= g.Finish {
			t.Fatalf("seed %d: the hand-over slips by %d", seed, found.By)
		}
	}
}

// TestTwoMachines checks that the forecast and the slip are the same on a
// machine that reads the baseline from its file and has the events in another
// order.
func TestTwoMachines(t *testing.T) {
	p, problems := planfile.Read(bytes.NewReader([]byte(court)))
	if p == nil {
		t.Fatal(problems)
	}
	agreed := forecast(t, p, nil)
	b := baseline.Freeze(agreed)
	b.Number, b.Agreed = 1, p.Site.Opens
	var file bytes.Buffer
	if err := b.Write(&file, p.Site.Location); err != nil {
		t.Fatal(err)
	}
	back, err := baseline.Read(file.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	events := plans.Log(t, p, "3 07:50 people diggers 3", "3 09:00 started dig",
		"3 15:00 wet", "4 09:00 rebooked shrubs", "4 09:30 left dig 120")
	at := plans.Event(t, p, 0, "4 10:00 started dig").At
	look := func(events []sitelog.Event, agreed *schedule.Programme) (*schedule.Programme, *slip.Slip) {
		s := progress.At(p, events, agreed, at)
		now := forecast(t, s.Plan, agreed)
		return now.Programme, slip.Of(s, now, agreed)
	}
	g, found := look(events, back.Programme(p))
	if len(found.Tasks) == 0 || len(found.Traces) == 0 {
		t.Fatal("nothing slips")
	}
	slices.Reverse(events)
	again, same := look(events, back.Programme(p))
	if diff := cmp.Diff(g, again); diff != "" {
		t.Errorf("forecast (-one +other):\n%s", diff)
	}
	if diff := cmp.Diff(found, same); diff != "" {
		t.Errorf("slip (-one +other):\n%s", diff)
	}
	if fresh, _ := look(events, agreed.Programme); fresh.Finish != g.Finish || cmp.Diff(fresh.Tasks, g.Tasks) != "" {
		t.Error("the baseline's file makes another forecast than the programme that it was made of")
	}
}
