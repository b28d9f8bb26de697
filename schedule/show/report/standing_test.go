package report_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/site/progress"
)

// court is a small garden to be under way; site hours 08:00 to 16:00.
const court = `
garden: Wall Court
site:
  timezone: Europe/London
  opens: 2027-05-03 08:00
  handover: 2027-05-07 16:00
  hours: {mon-fri: 08:00-16:00}
  holidays_drop: []
zones:
  front: {name: Front}
  rear: {name: Rear, way_in: [front]}
crews:
  diggers: {name: Diggers, people: 6}
givens:
  water: {what: water, from: 2027-05-04 08:00}
deliveries:
  stone: {what: stone, arrives: 2027-05-03 09:00, unload: 30m}
  sand: {what: sand, arrives: 2027-05-03 11:00, unload: 30m}
  gravel: {what: gravel, arrives: 2027-05-03 12:00, unload: 30m}
  turf: {what: turf, arrives: 2027-05-05 08:00, unload: 30m, keep: 24h}
rules:
  - groundworks before paving
tasks:
  dig: {name: Dig, zone: rear, stage: groundworks, crew: {diggers: 1}, takes: 6h}
  base: {name: Base, zone: front, stage: groundworks, crew: {diggers: 1..2}, person_hours: 4, hold_point: {what: level checked, takes: 0m}}
  drain: {name: Drain, zone: front, stage: groundworks, crew: {diggers: 1}, takes: 1h, hold_point: {what: drain seen, takes: 0m}}
  edge: {name: Edge, zone: front, stage: groundworks, crew: {diggers: 1}, takes: 1h, hold_point: {what: edge seen, takes: 0m}}
  bed: {name: Bed stone, zone: front, stage: paving, crew: {diggers: 2}, takes: 4h, uses: [stone], after: [water]}
  lay: {name: Lay turf, zone: front, stage: turf, crew: {diggers: 2}, takes: 3h, uses: [turf]}
`

// underway is the court on Monday at 13:00, with something of everything that a log
// may say.
func underway(t *testing.T) *report.Report {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(court))
	if p == nil {
		t.Fatal(problems)
	}
	events := plans.Log(t, p,
		"3 08:00 started dig", "3 11:00 paused dig",
		"3 08:00 started base", "3 10:00 finished base", "3 10:10 signed base",
		"3 08:00 started drain", "3 09:00 finished drain", "3 09:10 failed drain",
		"3 08:00 started edge", "3 09:00 finished edge", "3 09:30 finished edge",
		"3 08:50 arrived stone", "3 11:00 refused sand",
		"3 10:20 started bed", "3 09:00 started pond")
	s := progress.At(p, events, nil, plans.Moment(t, p, 3, "13:00"))
	solver, err := solve.New(s.Plan)
	if err != nil {
		t.Fatal(err)
	}
	return report.New(crews(solver)).Standing(s)
}

// unconfirmed is the court with a lorry that was unloaded, and one ordered and not confirmed.
func unconfirmed(t *testing.T) *report.Report {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(court))
	if p == nil {
		t.Fatal(problems)
	}
	at := plans.Moment(t, p, 3, "10:00")
	s := progress.At(p, plans.Log(t, p, "1 08:00 ordered gravel", "3 09:20 unloaded stone"), nil, at)
	solver, err := solve.New(s.Plan)
	if err != nil {
		t.Fatal(err)
	}
	return report.New(crews(solver)).Standing(s).Orders(at)
}

const courtFromLog = `
FROM THE SITE LOG
Drain failed its sign-off Mon 3 May 09:10: so it was. Put right: so it was; then
the sign-off again (drain seen). No time for putting it right is known; say it
with "log left".
Bed stone was started Mon 3 May 10:20 out of sequence: water wasn't there, Drain
wasn't signed (groundworks before paving) and Edge wasn't signed (groundworks
before paving).
Gravel hasn't come; it was booked for Mon 3 May 12:00, and is expected now.
Sand was refused and isn't booked again; it is taken to come Tue 4 May 08:00.
"Edge finished" (Mon 3 May 09:30, by Ann) doesn't count: edge is finished
already; undo that first if it was wrong.
"pond started" (Mon 3 May 09:00, by Ann) is kept, but the plan has no such
thing.
`

const courtByZone = `
BY ZONE
█ on the chain  ▒ has float  ! breaks a date  ✓ finished
"3 h of 7 h": it may slip 3 h; logic alone, hands unlimited, allows 7 h
`

func TestUnderWay(t *testing.T) {
	r := underway(t)
	var b bytes.Buffer
	if err := r.Page().Write(&b, page.Wide); err != nil {
		t.Fatal(err)
	}
	got := b.String()
	if bad := checkPage(got); bad != "" {
		t.Error(bad)
	}
	for _, want := range []string{
		courtFromLog, courtByZone,
		"As at Mon 3 May 13:00, by the site log.\n",
		"Started 10:20; 1 h 20 left.\n", "Started 08:00, paused; 3 h left.\n", "seen: failed 09:10: so it was.",
		"✓ Mon 3 May 08:00   10:00             Base\n",
		"  08:00-10:00  ✓ Base · Front · Diggers 2\n",
		"  10:10        ● level checked · Base\n",
		"  08:50-09:20  ✓ ▼ stone · gate\n",
		"Came 08:50, by the plan unloaded by 09:20.\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("lacks\n%s\nin\n%s", want, got)
		}
	}
}

func TestUnderWayJSON(t *testing.T) {
	r := underway(t)
	var b bytes.Buffer
	if err := r.JSON(&b); err != nil {
		t.Fatal(err)
	}
	type remark struct{ Kind, Task, Delivery, Event string }
	var got struct {
		AsAt    string   `json:"as_at"`
		SiteLog []remark `json:"site_log"`
		Tasks   []struct {
			State     string
			Left      int
			Paused    bool
			HoldPoint string `json:"hold_point"`
		}
		Deliveries []struct{ State string }
	}
	unmarshal(t, b.Bytes(), &got)
	want := []remark{
		{"failed_sign_off", "drain", "", ""},
		{"out_of_sequence", "bed", "", ""}, {"overdue", "", "gravel", ""}, {"refused", "", "sand", ""},
		{"conflict", "", "", "e10"}, {"unknown", "", "", "e14"},
	}
	if diff := cmp.Diff(want, got.SiteLog); diff != "" || got.AsAt != "2027-05-03T13:00:00+01:00" {
		t.Errorf("as at %s (-want +got):\n%s", got.AsAt, diff)
	}
	var states []string
	for _, x := range got.Tasks {
		states = append(states, strings.TrimSpace(x.State+" "+x.HoldPoint))
	}
	for _, d := range got.Deliveries {
		states = append(states, d.State)
	}
	if diff := cmp.Diff([]string{"in_hand", "finished signed", "in_hand failed",
		"finished open", "in_hand", "", "unloaded", "refused", "", ""}, states); diff != "" {
		t.Errorf("states (-want +got):\n%s", diff)
	}
	if dig, bed := got.Tasks[0], got.Tasks[4]; !dig.Paused || dig.Left != 180 || bed.Paused || bed.Left != 80 {
		t.Errorf("dig %+v, bed %+v", dig, bed)
	}
}

// waiting is a report of an order past its date that waits for an approval.
func waiting(t *testing.T) *report.Report {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(`garden: Court
site: {timezone: Europe/London, opens: 2027-05-03 08:00, handover: 2027-05-07 16:00, hours: {mon-fri: 08:00-16:00}}
zones: {front: {}}
crews: {masons: {people: 2}}
desk: {sample: {what: sample of the slabs, kind: sample}}
deliveries: {slabs: {arrives: 2027-05-04 08:00, unload: 30m, order_ahead: 10w, order_after: [sample]}}
tasks: {bed: {zone: front, stage: paving, crew: {masons: 2}, takes: 8h, uses: [slabs]}}
`))
	if p == nil {
		t.Fatal(problems)
	}
	solver, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return report.New(crews(solver)).Orders(p.Site.Opens)
}
