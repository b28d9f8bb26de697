package wording_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whynot"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/wording"
)

// corner is a garden whose tasks, crews and machines a case gives.
const corner = `
garden: Corner
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-07 17:00
  hours: {mon-sat: 08:00-17:00}
zones: {court: {name: Court}}
`

// Reasons, worked out by hand, as they are said on the phone.
func TestWhyNotSaysWhatTogetherPreventsIt(t *testing.T) {
	for _, c := range []struct {
		name, plan string
		asked      wording.Wanted
		want       string
	}{
		{"a chain", `
crews: {joiners: {name: Joiners, people: 2}}
tasks:
  deck: {name: Lay the boards, zone: court, stage: finishes, crew: {joiners: 1}, takes: 5h}
  oil: {name: Oil, zone: court, stage: finishes, crew: {joiners: 1}, takes: 2h, after: [deck]}
  aside: {name: Tidy, zone: court, stage: clean, crew: {joiners: 1}, takes: 1h}`,
			wording.Wanted{Earlier: 30},
			"Mon 3 May 15:00 can't be bettered by 30 m: Lay the boards (5 h) and Oil (2 h) run one after the other."},
		{"a crew", `
crews: {joiners: {name: Joiners, people: 2}}
tasks:
  deck: {name: Lay the boards, zone: court, stage: finishes, crew: {joiners: 2}, takes: 5h}
  bench: {name: Fix the bench, zone: court, stage: finishes, crew: {joiners: 1}, takes: 2h}`,
			wording.Wanted{Earlier: 60},
			"Mon 3 May 15:00 can't be bettered by 1 h: Lay the boards (5 h) and Fix the bench (2 h) share Joiners, 2 people."},
		{"a slot", `
crews: {joiners: {name: Joiners, people: 2}}
machines: {crane: {name: the crane, count: 1, ours: [2027-05-04 13:00 to 2027-05-04 17:00]}}
tasks:
  frame: {name: Raise the frame, zone: court, stage: structure, crew: {joiners: 2}, machines: {crane: 1}, takes: 2h}
  deck: {name: Lay the boards, zone: court, stage: finishes, crew: {joiners: 1}, takes: 2h, after: [frame]}`,
			wording.Wanted{Earlier: 120},
			"Tue 4 May 17:00 can't be bettered by 2 h: Raise the frame needs the crane, which is ours only in its slots, " +
				"first from Tue 4 May 13:00; then Raise the frame (2 h) and Lay the boards (2 h) run one after the other."},
		{"a cure over a closed night", `
crews: {joiners: {name: Joiners, people: 2}}
tasks:
  deck: {name: Bed the court, zone: court, stage: paving, crew: {joiners: 1}, takes: 7h, cure: 12h}
  oil: {name: Grout, zone: court, stage: paving, crew: {joiners: 1}, takes: 2h, after: [deck]}`,
			wording.Wanted{Earlier: 120},
			"Tue 4 May 10:00 can't be bettered by 2 h: Bed the court cures for 12 h; Grout (2 h) has to be done; " +
				"all that in the site's hours."},
	} {
		got := whyNotIn(t, corner+strings.TrimPrefix(c.plan, "\n"), c.asked)
		if got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// Where something has no place, which may be a lorry for optional work, that and its
// reason are said, and nothing else.
func TestWhyNotWithoutAPlace(t *testing.T) {
	got := whyNotIn(t, corner+`crews: {joiners: {name: Joiners, people: 1}}
deliveries:
  pots: {what: pots, arrives: 2027-05-04 08:00, unload: 12h}
tasks:
  deck: {name: Lay the boards, zone: court, stage: finishes, crew: {joiners: 1}, takes: 5h}
  plant: {name: Plant, zone: court, stage: planting, takes: 1h, uses: [pots], optional: true}`, wording.Wanted{Earlier: 60})
	const want = "Some work has no place at all, so nothing can be said of an earlier finish. " +
		"The lorry with pots has no place: it must be done in one, " +
		"and no stretch of open hours is long enough."
	if got != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
}

// Where the gate's hours are the only ones that matter, they are named in full.
func TestWhyNotNamesTheHoursOfTheGate(t *testing.T) {
	gate := strings.Replace(corner, "zones:", "  gate: {at_once: 1, hours: {mon-fri: 13:00-16:00}}\nzones:", 1)
	got := whyNotIn(t, gate+`
deliveries:
  slabs: {what: slabs, arrives: 2027-05-03 08:00, unload: 2h}
  turf: {what: turf, arrives: 2027-05-03 08:00, unload: 2h}
tasks:
  tidy: {name: Tidy, zone: court, stage: clean, takes: 1h, uses: [slabs]}
  lay: {name: Lay, zone: court, stage: turf, takes: 1h, uses: [turf]}`, wording.Wanted{Earlier: 240})
	const want = "Tue 4 May 16:00 can't be bettered by 4 h: the lorry with slabs (2 h) and the lorry with turf (2 h) " +
		"share the gate, which takes 1 lorry at once; all that in the gate's hours."
	if got != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
}

func whyNotIn(t *testing.T, text string, asked wording.Wanted) string {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if p == nil {
		t.Fatal(problems)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	c := s.Crews(t.Context(), solve.Options{})
	by := wording.Before(p, c.Programme.Finish, asked.Earlier)
	a := whynot.Ask(t.Context(), c, by)
	for _, f := range a.Facts {
		if !f.Needed {
			t.Errorf("%s may be needed; it is", wording.New(p).Fact(&f))
		}
	}
	return wording.New(p).WhyNot(c.Programme, asked, a)
}

// What the programme has, what another has and what nobody can say are told as such.
func TestWhyNotSaysWhatCanBeHad(t *testing.T) {
	p, _ := planfile.Read(strings.NewReader(corner + `crews: {joiners: {name: Joiners, people: 1}}
tasks:
  deck: {name: Lay the boards, zone: court, stage: finishes, crew: {joiners: 1}, takes: 5h}
  seat: {name: Fix the seat, zone: court, stage: finishes, crew: {joiners: 1}, takes: 4h, optional: true}`))
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	c, w := s.Crews(t.Context(), solve.Options{}), wording.New(p)
	for _, x := range []struct {
		by   calendars.Instant
		want string
	}{
		{c.Programme.Finish, "All can be done by "},
		{p.Site.Opens, "Not all can be done by Mon 3 May 08:00: "},
		{p.Site.Opens.Plus(-60), "Not all can be done by Mon 3 May 07:00: no work begins sooner than that."},
	} {
		if got := w.WhyNot(c.Programme, wording.Wanted{}, whynot.Ask(t.Context(), c, x.by)); !strings.HasPrefix(got, x.want) {
			t.Errorf("by %s: %s", w.Moment(x.by), got)
		}
	}
}

// Of a long reason somebody is told as much as can be followed, and of an interrupt what it
// left out.
func TestWhyNotInPart(t *testing.T) {
	p := plans.HeavyPlans()[0].Make(9)
	w, at := wording.New(p), p.Site.Opens
	a := &whynot.Answer{By: at, Verdict: whynot.Impossible, Shown: true, Cut: true}
	for id := range p.Tasks {
		a.Facts = append(a.Facts, whynot.Fact{Kind: whynot.Start, Activity: schedule.Activity(id), From: at.Plus(60)})
	}
	a.Facts = append(a.Facts, whynot.Fact{Kind: whynot.SiteHours, Activity: schedule.Nothing})
	bed := func(n string) string { return "Bed " + n + " may not start before Mon 5 Apr 08:00; " }
	want := "Not all can be done by Mon 5 Apr 07:00: " + bed("1") + bed("2") + bed("3") + bed("4") + bed("5") + bed("6") +
		"and 3 things more, which are listed; all that in the site's hours."
	if got := w.WhyNot(&schedule.Programme{}, wording.Wanted{}, a); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	for _, c := range []struct {
		a    whynot.Answer
		want string
	}{
		{whynot.Answer{Verdict: whynot.Open}, ""},
		{whynot.Answer{Verdict: whynot.Open, Cut: true},
			"the rest of the search for a programme, and of the proof that there is none"},
		{whynot.Answer{Verdict: whynot.Impossible, Shown: true, Cut: true},
			"which of the facts it would be impossible without"},
		{whynot.Answer{Verdict: whynot.Impossible, Cut: true}, "the facts that show it"},
	} {
		if c.want != "" {
			c.want = "Interrupted: this is what was found by then. Left out: " + c.want + "."
		}
		if got := wording.WhyNotInterrupted(&c.a); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
