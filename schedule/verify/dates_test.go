package verify_test

import (
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
		{"done at the hand-over", "cure: 0m", "lay 8 13:00 8 17:00", "by dig, keep lay, waits turf", schedule.Margin{}},
		{"an hour of site time to spare", "cure: 0m", "lay 8 11:00 8 16:00",
			"by dig, keep lay, waits turf", schedule.Margin{Time: 60}},
		{"cured in closed time", "cure: 2h", "lay 8 13:00 8 17:00",
			"hand-over lay, by dig, keep lay, waits turf", schedule.Margin{Time: -120, Clock: true}},
		{"cured the next morning", "cure: 17h", "lay 8 13:00 8 17:00",
			"hand-over lay, by dig, keep lay, waits turf", schedule.Margin{Time: -120}},
		{"within keep", "cure: 2h", "lay 8 08:00 8 12:00", "by dig, waits turf", schedule.Margin{Time: 180}},
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

func wordedBreaks(p *schedule.Plan, breaks []schedule.Break) string {
	kinds := [...]string{"hand-over", "by", "keep", "waits"}
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
		g.Finish = calendars.Never
		if c.blocked {
			g.Blocked = &schedule.Blocked{}
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
