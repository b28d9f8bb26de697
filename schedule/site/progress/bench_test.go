package progress_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

// BenchmarkAt replays 10,000 events on a plan of 1,000 tasks (bar: 100 ms).
func BenchmarkAt(b *testing.B) {
	p := plans.Big(1000, 1)
	var events []sitelog.Event
	at := p.Site.Opens
	for i := range 10_000 {
		id := p.Tasks[i%1000].ID
		e := sitelog.Event{
			ID: sitelog.NewID(int64(i), uint32(i)), What: sitelog.Note,
			At: at.Plus(calendars.Minutes(i)), Written: at.Plus(calendars.Minutes(i)), Task: id, Text: "a note",
		}
		switch k := i / 1000; {
		case k == 0:
			e.What, e.Text = sitelog.Started, ""
		case k < 9 && k%2 == 1:
			e.What, e.Text, e.Left = sitelog.Left, "", 30
		case k == 9:
			e.What, e.Text = sitelog.Finished, ""
		}
		events = append(events, e)
	}
	b.ReportAllocs()
	for b.Loop() {
		if s := progress.At(p, events, nil, at.Plus(20_000)); len(s.State.Events) != len(events) {
			b.Fatal(len(s.State.Events))
		}
	}
}
