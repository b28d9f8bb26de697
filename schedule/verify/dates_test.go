package verify_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/verify"
)

// A holiday from noon closes the afternoon of the site and of crews, but not of
// the gate, which names the date; the morning is worked.
func TestPartHoliday(t *testing.T) {
	p := read(t, window+"tasks: {dig: {zone: front, stage: soil, crew: {spare: 1}, takes: 5h}}")
	p.Site.Holidays[0].From = 12 * 60
	for _, c := range []struct{ dates, want string }{
		{"dig 6 08:00 7 09:00", ""},
		{"dig 6 08:00 6 14:00", "site hours"},
	} {
		got := broken(verify.Check(p, dated(t, p, c.dates), schedule.Logic))
		if (len(got) == 0) != (c.want == "") || len(got) > 0 && got[0] != c.want {
			t.Errorf("%s: broken rules %v, want %q", c.dates, got, c.want)
		}
	}
}

const late = `
deliveries:
  turf: {what: turf, arrives: 2027-05-08 07:00, unload: 30m, keep: 6h, waits: 20m}
tasks:
  dig: {zone: front, stage: soil, crew: {spare: 1}, takes: 4h, by: 2027-05-08 11:00}
  pots: {zone: front, stage: planting, crew: {spare: 1}, takes: 1h, optional: true}
  lay: {zone: lawn, stage: turf, crew: {spare: 1}, takes: 4h, uses: [turf], CURE}
`

// The broken dates and margins of three programmes, worked out by hand.
func TestBrokenDates(t *testing.T) {
	// 8 May is a Saturday; Sunday's hours are like those of any day.
	const dates = "dig 8 08:00 8 12:00\npots 9 08:00 9 09:00\nturf 8 07:30 8 08:00\n"
	for _, c := range []struct {
		name, cure, lay string
		breaks          string
		margin          schedule.Margin
	}{
		{"done at the hand-over", "cure: 0m", "lay 8 13:00 8 17:00", "by dig, keep lay", schedule.Margin{}},
		{"an hour of site time to spare", "cure: 0m", "lay 8 11:00 8 16:00",
			"by dig, keep lay", schedule.Margin{Time: 60}},
		{"cured in closed time", "cure: 2h", "lay 8 13:00 8 17:00",
			"hand-over lay, by dig, keep lay", schedule.Margin{Time: -120, Clock: true}},
		{"cured the next morning", "cure: 17h", "lay 8 13:00 8 17:00",
			"hand-over lay, by dig, keep lay", schedule.Margin{Time: -120}},
		{"within keep", "cure: 2h", "lay 8 08:00 8 12:00", "by dig", schedule.Margin{Time: 180}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := read(t, window+strings.Replace(late, "CURE", c.cure, 1))
			g := dated(t, p, dates+c.lay)
			r := verify.Check(p, g, schedule.Logic)
			if diff := cmp.Diff(c.breaks, wordedBreaks(p, r.Breaks)); diff != "" {
				t.Errorf("breaks (-want +got):\n%s", diff)
			}
			lay := p.FindTask("lay")
			g.Finish = max(g.Tasks[lay].Finish.Plus(p.Tasks[lay].Cure), g.Tasks[0].Finish)
			g.Handover, g.Breaks = c.margin, r.Breaks
			if faults := sums(verify.Check(p, g, schedule.Logic)); len(faults) > 0 {
				t.Errorf("with the margin %v: %v", c.margin, faults)
			}
		})
	}
}

// Living stock keeps from when it was lifted: some time before the arrival as it is
// booked, and no later for a lorry that is held up.
func TestKept(t *testing.T) {
	p := read(t, window+strings.Replace(late, "CURE", "cure: 0m", 1))
	g := dated(t, p, "dig 8 08:00 8 11:00\nturf 8 07:30 8 08:00\nlay 8 08:00 8 12:00")
	for _, c := range []struct {
		aged   calendars.Minutes
		booked string
		until  string // when it breaks
	}{
		{0, "", ""}, // six hours from 07:00
		{60, "", ""},
		{61, "", "8 11:59"},
		{0, "8 06:00", ""},
		{0, "8 05:59", "8 11:59"},
		{60, "8 06:30", "8 11:30"},
		{60, "8 09:00", ""}, // it has come sooner than it was booked
	} {
		d, want := &p.Deliveries[0], ""
		if d.Aged, d.Booked = c.aged, 0; c.booked != "" {
			d.Booked = moment(t, p, c.booked[:1], c.booked[2:])
		}
		if c.until != "" {
			want = "keep lay"
		}
		r := verify.Check(p, g, schedule.Logic)
		if got := wordedBreaks(p, r.Breaks); got != want {
			t.Errorf("%d m old, booked %q: %q breaks, want %q", c.aged, c.booked, got, want)
		} else if want != "" && r.Breaks[0].Limit != moment(t, p, c.until[:1], c.until[2:]) {
			t.Errorf("%d m old, booked %q: it keeps until %v", c.aged, c.booked, r.Breaks[0].Limit.In(p.Site.Location))
		}
	}
}

// A lorry that comes while the gate is shut belongs to the next opening, of which
// a break of an hour is a part and a longer one isn't. It may be begun until that
// ends, with more or less waiting time; one that is begun after is sent away, late
// from the end.
func TestSentAway(t *testing.T) {
	p := read(t, strings.Replace(window, "{mon-sun: 07:00-10:00}", "{mon-sun: 07:00-08:30 09:30-10:00 11:01-12:00}", 1)+`
deliveries: {turf: {what: turf, arrives: 2027-05-04 07:00, unload: 15m, waits: 20m}}
tasks: {lay: {zone: lawn, stage: turf, crew: {spare: 1}, takes: 1h, uses: [turf]}}`)
	for _, c := range []struct {
		arrives, begun, shut string
		waiting              calendars.Minutes
	}{
		{"4 07:00", "4 07:20", "", 0},
		{"4 07:00", "4 07:21", "", 1},
		{"4 07:00", "4 09:45", "", 145}, // the break is of an hour
		{"4 07:00", "4 11:01", "4 10:00", 0},
		{"4 08:30", "4 09:45", "", 55},
		{"4 10:00", "4 11:45", "", 85}, // too late for the opening before
		{"3 13:00", "4 08:00", "", 19*60 - 20},
		{"3 07:00", "3 09:30", "", 130}, // the gate is shut until the site opens
		{"2 07:30", "3 11:45", "3 10:00", 0},
	} {
		p.Deliveries[0].Arrives = moment(t, p, c.arrives[:1], c.arrives[2:])
		begun := moment(t, p, c.begun[:1], c.begun[2:])
		g := dated(t, p, "lay 5 08:00 5 09:00")
		g.Unloads[0].Arrives, g.Unloads[0].Start, g.Unloads[0].Finish = p.Deliveries[0].Arrives, begun, begun.Plus(15)
		g.Unloads[0].Waiting = c.waiting
		r := verify.Check(p, g, schedule.Logic)
		if i := slices.IndexFunc(r.Rules, func(f verify.Fault) bool { return f.Rule == "waiting time" }); i >= 0 {
			t.Errorf("comes %s, begun %s: %v", c.arrives, c.begun, r.Rules[i])
		}
		want := []schedule.Break(nil)
		if c.shut != "" {
			want = append(want, schedule.Break{Kind: schedule.BreakSentAway, Activity: p.Unload(0), Stock: schedule.None,
				Limit: moment(t, p, c.shut[:1], c.shut[2:]), Actual: begun})
		}
		if diff := cmp.Diff(want, r.Breaks); diff != "" {
			t.Errorf("comes %s, begun %s (-want +got):\n%s", c.arrives, c.begun, diff)
		}
	}
}

// What is optional is done by the hand-over, its own date and within the keep of what
// it uses, or left out; once begun, it is required.
func TestOptionalBeyondTheLine(t *testing.T) {
	const text = `
deliveries:
  plants: {what: plants, arrives: 2027-05-08 07:00, unload: 30m, keep: 3h}
tasks:
  dig: {zone: front, stage: soil, crew: {spare: 1}, takes: 1h}
  pots: {zone: front, stage: planting, crew: {spare: 1}, takes: 1h, optional: true, REST}
`
	const dates = "dig 3 08:00 3 09:00\nplants 8 07:00 8 07:30\n"
	for _, c := range []struct {
		name, rest, pots string
		begun            bool
		want             int
	}{
		{"done at the hand-over", "cure: 0m", "pots 8 16:00 8 17:00", false, 0},
		{"cured after it", "cure: 1m", "pots 8 16:00 8 17:00", false, 1},
		{"done the day after", "cure: 0m", "pots 9 08:00 9 09:00", false, 1},
		{"at its own date", "by: 2027-05-05 09:00", "pots 5 08:00 5 09:00", false, 0},
		{"after its own date", "by: 2027-05-05 08:59", "pots 5 08:00 5 09:00", false, 1},
		{"within the keep", "uses: [plants]", "pots 8 09:00 8 10:00", false, 0},
		{"after the keep", "uses: [plants]", "pots 8 09:01 8 10:01", false, 1},
		{"begun", "cure: 1m", "pots 8 16:00 8 17:00", true, 0},
	} {
		p := read(t, window+strings.Replace(text, "REST", c.rest, 1))
		g := dated(t, p, dates+c.pots)
		if c.begun {
			p.Progress = &schedule.Progress{
				Tasks: make([]schedule.TaskProgress, 2), Deliveries: make([]schedule.DeliveryProgress, 1),
			}
			p.Progress.Tasks[1].Start = g.Tasks[1].Start
		}
		got := 0
		for _, f := range verify.Check(p, g, schedule.Crews).Rules {
			if f.Rule == "optional" {
				got++
			}
		}
		if got != c.want {
			t.Errorf("%s: %d faults, want %d", c.name, got, c.want)
		}
	}
}

func wordedBreaks(p *schedule.Plan, breaks []schedule.Break) string {
	kinds := [...]string{"hand-over", "by", "keep", "sent away"}
	out := ""
	for i, b := range breaks {
		if i > 0 {
			out += ", "
		}
		out += kinds[b.Kind] + " "
		out += p.ActivityID(b.Activity)
	}
	return out
}

// A task without a place is work that is never done.
func TestNeverDone(t *testing.T) {
	p := read(t, window+"tasks:\n"+
		"  dig: {zone: front, stage: soil, crew: {spare: 1}, takes: 2h}\n"+
		"  lay: {zone: front, stage: paving, crew: {spare: 1}, takes: 2h}\n")
	for _, c := range []struct {
		name, dates string
		blocked     bool
		fine        bool
	}{
		{"no place and said", "lay 3 08:00 3 10:00", true, true},
		{"no place, not said", "lay 3 08:00 3 10:00", false, false},
	} {
		g := dated(t, p, c.dates)
		g.Finish = max(g.Tasks[0].Finish, g.Tasks[1].Finish)
		if g.Tasks[0].Finish == calendars.Never {
			g.Finish = g.Tasks[1].Finish
		}
		g.Handover = schedule.Margin{Time: 5*480 - 120 - 60} // the closure and the holiday apart
		if c.blocked {
			g.Blocked = []schedule.Blocked{{Needs: schedule.Nothing, Unfound: true}}
		}
		if faults := sums(verify.Check(p, g, schedule.Logic)); (len(faults) == 0) != c.fine {
			t.Errorf("%s: %v", c.name, faults)
		}
	}
}

// BenchmarkCheck checks logic programmes of a plan like the built-in garden and
// of a large one.
func BenchmarkCheck(b *testing.B) {
	for _, size := range []struct {
		name  string
		tasks int
		scope schedule.Scope
	}{
		{"70/time", 70, schedule.Logic},
		{"70/hands", 70, schedule.Crews},
		{"1000/time", 1000, schedule.Logic},
		{"1000/hands", 1000, schedule.Crews},
	} {
		b.Run(size.name, func(b *testing.B) {
			p := plans.Big(size.tasks, 1)
			s, err := solve.New(p)
			if err != nil {
				b.Fatal(err)
			}
			g := s.Logic().Programme
			for b.Loop() {
				verify.Check(p, g, size.scope)
			}
		})
	}
}

// A site that shuts for a month signs off when it opens again.
func TestSignedFarOff(t *testing.T) {
	p := read(t, window+"tasks: {dig: {zone: front, stage: soil, crew: {spare: 1}, takes: 2h, "+
		"hold_point: {what: sign, takes: 30m}}}")
	shut := calendars.Span{Start: moment(t, p, "3", "10:00"), End: moment(t, p, "31", "08:00")}
	p.Site.Hours.Closed = []calendars.Closure{{Span: shut}}
	breaks := verify.Check(p, dated(t, p, "dig 3 08:00 3 10:00"), schedule.Logic).Breaks
	if want := moment(t, p, "31", "08:30"); len(breaks) != 1 || breaks[0].Actual != want {
		t.Errorf("breaks %v, want one at %d", breaks, want)
	}
}
