package report_test

import (
	"bytes"
	"encoding/json"
	"io"
	"regexp"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/testdata"
)

// met is the logic programme of a plan as if it met every date, with a
// tolerance of every kind for it, made by hand.
func met(t *testing.T, plan string) (*report.Report, *report.Tolerance) {
	t.Helper()
	c, found := metCase(t, plan)
	return report.New(c), found
}

func metCase(t *testing.T, plan string) (network.Case, *report.Tolerance) {
	t.Helper()
	s := solved(t, plan)
	c := s.Logic()
	p, g := c.Plan, c.Programme
	g.Breaks, g.Blocked = nil, nil
	g.Tasks[2].Dropped = true
	g.Unloads[1].Arrives += 60
	found := &report.Tolerance{WithTasks: true, WithPairs: true, Stopped: true}
	never := calendars.Never
	for i := range p.Deliveries {
		at := g.Unloads[i].Arrives
		x := tolerance.Delivery{
			Delivery: schedule.DeliveryID(i),
			Booked:   at, Earliest: at - 60, Programmed: tolerance.Programmed{Any: at + 30, Handover: at + 45},
		}
		x.Held, x.Broken = at+90, at+91
		switch i {
		case 0:
			x.Held, x.Broken, x.Earliest = at, never, at
		case 1:
			x.Held, x.Broken = at.Plus(2*calendars.Week+90), at.Plus(3*calendars.Week)
			x.Again = []calendars.Instant{at.Plus(4 * calendars.Week), at.Plus(60 * calendars.Week)}
		case 2:
			x.Held, x.Broken, x.Earliest = calendars.Past, never, never
		}
		x.Handover = x.End
		found.Deliveries = append(found.Deliveries, x)
	}
	for i := range p.Tasks {
		at := g.Tasks[i].Start
		x := tolerance.Task{
			Task: schedule.TaskID(i), Start: at, Programmed: tolerance.Programmed{Any: at, Handover: at + 60},
		}
		x.Held, x.Broken = at.Plus(calendars.Day), at.Plus(calendars.Day+1)
		switch i {
		case 0:
			x.Broken = at.Plus(2 * calendars.Day)
		case 1:
			x.Broken = never
		case 2:
			x.Held, x.Broken = calendars.Past, never
		}
		x.Handover = x.End
		found.Tasks = append(found.Tasks, x)
	}
	found.Pairs = []tolerance.Pair{{First: 0, Second: 1, Proven: true}, {First: 1, Second: 2}}
	return c, found
}

func TestTolerancesFit80Columns(t *testing.T) {
	for name, plan := range gardens() {
		r, found := met(t, plan)
		var b bytes.Buffer
		if err := r.Tolerance(found).Write(&b, page.Wide); err != nil {
			t.Fatal(err)
		}
		page := b.String()
		if wrong := checkPage(page); wrong != "" {
			t.Errorf("%s: %s", name, wrong)
		}
		// What has no place comes first, then what may not come later at all.
		for _, pattern := range []string{`\nStopped early: `, `(?s)re-planned\n[▼▲] .*no place\n.*none held\n.* held\n`,
			`left out`, `together\s+they\s+break\s+a\s+date,\s+proven\.`} {
			if !regexp.MustCompile(pattern).MatchString(page) {
				t.Errorf("%s: no %q in\n%s", name, pattern, page)
			}
		}
	}
}

// While a date is broken the figures are told too, with what they mean then.
func TestToleranceWhileADateIsBroken(t *testing.T) {
	r, found := met(t, testdata.Demo)
	c, _ := metCase(t, testdata.Demo)
	c.Programme.Breaks = []schedule.Break{{Kind: schedule.BreakHandover, Activity: 0,
		Stock: schedule.None, Limit: c.Plan.Site.Handover, Actual: c.Plan.Site.Handover + 60}}
	c.Programme.Scope = schedule.Crews
	broken := report.New(c)
	var fine, late, object bytes.Buffer
	for _, x := range []struct {
		r   *report.Report
		out *bytes.Buffer
	}{{r, &fine}, {broken, &late}} {
		if err := x.r.Tolerance(found).Write(x.out, page.Wide); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		text          string
		whole, broken bool
	}{
		{"In this programme a date breaks with everything on time.", false, true},
		{"a minute more and a date breaks", true, false},
		{"a minute more and another date breaks or a broken one gets later", false, true},
		{"until the hand-over breaks or gets later.", false, true},
		{"as programmed", true, true},
	} {
		has := func(b *bytes.Buffer) bool {
			return strings.Contains(strings.Join(strings.Fields(b.String()), " "), c.text)
		}
		if has(&fine) != c.whole || has(&late) != c.broken {
			t.Errorf("%q: told of the whole %v, of the broken %v", c.text, has(&fine), has(&late))
		}
	}
	if err := broken.ToleranceJSON(&object, found); err != nil {
		t.Fatal(err)
	}
	var o map[string]any
	if err := json.Unmarshal(object.Bytes(), &o); err != nil {
		t.Fatal(err)
	}
	if o["met"] != false || len(o["deliveries"].([]any)) != len(found.Deliveries) || len(o["breaks"].([]any)) != 1 {
		t.Errorf("%s", &object)
	}
}

func TestToleranceStoppedBeforeAnyFigureTellsTheProgrammeAlone(t *testing.T) {
	s := solved(t, testdata.Starter)
	for _, c := range []struct {
		stopped bool
		want    string
	}{{true, "\n\nStopped early: this isn't all that was asked.\n"}, {false, "\nThe plan has none.\n"}} {
		var b bytes.Buffer
		if err := report.New(s.Logic()).Tolerance(&report.Tolerance{Stopped: c.stopped}).Write(&b, page.Wide); err != nil {
			t.Fatal(err)
		}
		if got := b.String(); !strings.HasSuffix(got, c.want) || checkPage(got) != "" {
			t.Errorf("%s\n%s", checkPage(got), got)
		}
	}
}

// The tolerances can have every key that is documented, and what they have
// conforms.
func TestToleranceJSONIsAsDocumented(t *testing.T) {
	r, found := met(t, testdata.Demo)
	seen := make(map[string]bool)
	conforms(t, seen, func(out io.Writer) error { return r.ToleranceJSON(out, found) })
	for _, key := range []string{"deliveries", "tasks", "pairs", "margin"} {
		if !seen["toleranceObject."+key] {
			t.Errorf("%s isn't written", key)
		}
	}
}
