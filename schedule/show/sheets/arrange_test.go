package sheets_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/sheets"
)

const errands = `garden: Court
site: {timezone: UTC, opens: 2027-05-03 08:00, handover: 2027-05-07 16:00, hours: {mon-fri: 08:00-16:00}}
zones: {lawn: {name: Lawn}}
crews: {ground: {name: Ground, people: 3}}
machines:
  digger: {name: Digger, count: 1, ours: [2027-05-03 08:00 to 2027-05-03 16:00]}
  saw: {name: Saw, count: 1}
deliveries:
  stone: {what: stone, arrives: 2027-05-04 08:00, unload: {takes: 1h}, order_ahead: 14d}
  sand: {what: sand, arrives: 2027-05-04 10:00, unload: {takes: 1h}, notice: 2d}
tasks:
  dig: {name: Dig, zone: lawn, stage: groundworks, crew: {ground: 2}, machines: {digger: 1}, takes: 3h}
  bed: {name: Bed, zone: lawn, stage: paving, crew: {ground: 2}, machines: {saw: 1}, uses: [stone], takes: 3h, after: [dig],
    hold_point: {what: level, takes: 1h, by_appointment: [2027-05-05 09:00], notice: 1d}}
  extra: {name: Extra, zone: lawn, stage: paving, crew: {ground: 1}, uses: [sand], takes: 1h, optional: true}
`

// told lists errands in a few words.
func told(list []sheets.Errand) (out []string) {
	for _, e := range list {
		past := ""
		if e.Past {
			past = " past"
		}
		out = append(out, fmt.Sprint(e.Deed, " ", e.By, past))
	}
	return out
}

// By the last date: the order, then the half day of the digger that isn't needed, the hours of
// the saw and, a day before it, the sign-off; what is left out is called off two days before.
func TestErrands(t *testing.T) {
	p, problems := planfile.Read(strings.NewReader(errands))
	if problems.Fatal() {
		t.Fatal(problems)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	c := s.Crews(t.Context(), solve.Options{Schedules: 20})
	c.Programme.Tasks[p.FindTask("extra")].Dropped = true
	b := sheets.New(c, sheets.Number(p))
	april := calendars.InstantOf(time.Date(2027, time.April, 26, 9, 0, 0, 0, time.UTC))
	day := func(month time.Month, d int) calendars.Date { return calendars.DateOf(2027, month, d) }
	want := []string{
		fmt.Sprint(sheets.ToOrder, " ", day(time.April, 20), " past"),
		fmt.Sprint(sheets.ToCallOff, " ", day(time.May, 2)),
		fmt.Sprint(sheets.ToGiveBack, " ", day(time.May, 3)),
		fmt.Sprint(sheets.ToBook, " ", day(time.May, 4)),
		fmt.Sprint(sheets.ToAsk, " ", day(time.May, 4)),
	}
	if diff := cmp.Diff(want, told(b.Errands(april))); diff != "" {
		t.Error(diff)
	}
	// What lies behind is no errand any more.
	if got := b.Errands(p.Site.Handover); len(got) > 0 {
		t.Errorf("%v", told(got))
	}
	// A booking that the programme has earlier is moved in time for that.
	p.Deliveries[p.FindDelivery("stone")].Arrives += calendars.Instant(calendars.Day)
	found := false
	for _, e := range b.Errands(april) {
		found = found || e.Deed == sheets.ToMove && e.By == day(time.May, 4)
	}
	if !found {
		t.Error("the moved booking is no errand")
	}
}
