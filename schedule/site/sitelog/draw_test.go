package sitelog_test

import (
	"bytes"
	"testing"
	"time"

	"pgregory.net/rapid"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/sitelog"
)

// more draws what an event of its kind may have besides what it needs.
func more(t *rapid.T, e *sitelog.Event) {
	switch e.What {
	case sitelog.Started, sitelog.Failed:
		if e.Crew = rapid.SampledFrom([]string{"", "joiners", "gone"}).Draw(t, "crew"); e.Crew != "" {
			e.People = rapid.IntRange(0, 3).Draw(t, "people")
		}
		if e.What == sitelog.Failed {
			e.Takes = calendars.Minutes(rapid.IntRange(0, 90).Draw(t, "takes"))
		}
	case sitelog.Added:
		e.Text, e.Zone, e.Takes, e.Crew = "drain", "rear", 30, "joiners"
		e.Follows = rapid.SampledFrom([]string{"", "frame", "frame, set-out"}).Draw(t, "follows")
		e.Precedes = rapid.SampledFrom([]string{"", "set-out"}).Draw(t, "precedes")
	case sitelog.DutyDone, sitelog.Accident, sitelog.NearMiss:
		e.Who = rapid.SampledFrom([]string{"", "Ana Ruiz"}).Draw(t, "who")
		if e.What != sitelog.DutyDone {
			e.Zone = rapid.SampledFrom([]string{"", "rear"}).Draw(t, "zone")
		}
	case sitelog.Signed:
		if e.Who = rapid.SampledFrom([]string{"", "Ana Ruiz"}).Draw(t, "by"); e.Who != "" {
			e.Text, e.Takes, e.Crew, e.Until = "lip", 30, "joiners", at("12:00")
		}
	}
}

// Every event that can be written reads back the same.
func TestLinesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, e := range drawnEvents(t, "events") {
			line := bytes.TrimSuffix(e.Line(london), []byte("\n"))
			if again, column, err := sitelog.Parse(line); err != nil || again != e {
				t.Fatalf("%s: column %d: %v: %+v", line, column, err, again)
			}
		}
	})
}

// What an event may not say, or not so, is refused with its place.
func TestParseWork(t *testing.T) {
	start := `{"id":"a","at":"2027-05-03T07:10:00Z","written":"2027-05-03T07:11:00Z","by":"Ann",`
	for _, c := range []struct{ line, want string }{
		{`"what":"failed","task":"a","text":"leaks","takes_minutes":90,"crew":"b","people":2}`, ""},
		{`"what":"failed","task":"a","text":"leaks","takes_minutes":0}`, "takes_minutes 0 is less than 1"},
		{`"what":"failed","task":"a","text":"leaks","takes_minutes":999999}`,
			"takes_minutes 999999 isn't between 1 and 262080"},
		{`"what":"failed","task":"a","text":"leaks","people":2}`, "people needs the crew too"},
		{`"what":"started","task":"a","crew":"b","people":0}`, "people is at least 1, where it isn't how many turned up"},
		{`"what":"started","task":"a","takes_minutes":90}`, `an event "started" has no "takes_minutes"`},
		{`"what":"people","crew":"b","date":"2027-05-03"}`, `an event "people" needs "people"`},
		{`"what":"people","crew":"b","date":"2027-05-03","people":0}`, ""},
		{`"what":"finished","task":"a","crew":"b"}`, `an event "finished" has no "crew"`},
	} {
		got := ""
		e, _, err := sitelog.Parse([]byte(start + c.line))
		if err != nil {
			got = err.Error()
		} else if again, _, _ := sitelog.Parse(bytes.TrimSpace(e.Line(time.UTC))); again != e {
			t.Errorf("%s reads back as %+v", c.line, again)
		}
		if got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.line, got, c.want)
		}
	}
}
