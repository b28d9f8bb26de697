package sitelog_test

import (
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/sitelog"
)

// A number stands by the order of writing within the day that an event is about: what is
// written later, even of an earlier hour, changes none.
func TestNumbers(t *testing.T) {
	day := func(at calendars.Instant) calendars.Date {
		return calendars.Date(at / calendars.Instant(calendars.Day))
	}
	at := func(d, m int) calendars.Instant { return calendars.Instant(d*int(calendars.Day) + m) }
	events := []sitelog.Event{
		{ID: "c", At: at(10, 600), Written: at(10, 610)},
		{ID: "a", At: at(10, 500), Written: at(10, 500)},
		{ID: "d", At: at(11, 1), Written: at(11, 5)},
		{ID: "b", At: at(10, 400), Written: at(11, 6)},
		{ID: "e", At: at(10, 700), Written: at(10, 610)},
	}
	want := map[string]int{"a": 1, "c": 2, "e": 3, "b": 4, "d": 1}
	for n := range events {
		got := sitelog.Numbers(events[:n+1], day)
		for i := range events[:n+1] {
			if id := events[i].ID; n == len(events)-1 && got[id] != want[id] {
				t.Errorf("%s is no. %d, want %d", id, got[id], want[id])
			}
		}
	}
	twice := sitelog.Numbers(append(events, events[0]), day)
	if twice["c"] != 2 || twice["b"] != 4 {
		t.Errorf("an event that is written twice is counted twice: %v", twice)
	}
}

// The last of a writer is the one written last that still stands.
func TestLastOf(t *testing.T) {
	events := []sitelog.Event{
		{ID: "1", What: sitelog.Note, By: "Ana", At: 9, Written: 10},
		{ID: "2", What: sitelog.Note, By: "Ana", At: 4, Written: 20},
		{ID: "3", What: sitelog.Note, By: "Ana", At: 5, Written: 20},
		{ID: "4", What: sitelog.Note, By: "Bo", At: 6, Written: 30},
		{ID: "5", What: sitelog.Undone, Of: "3", By: "Bo", At: 7, Written: 40},
		{ID: "6", What: sitelog.Undone, Of: "9", By: "Ana", At: 8, Written: 50},
	}
	for by, want := range map[string]string{"Ana": "2", "Bo": "4", "Cy": ""} {
		got := sitelog.LastOf(events, by)
		if got == nil && want != "" || got != nil && got.ID != want {
			t.Errorf("%s wrote %v last, want %q", by, got, want)
		}
	}
	if sitelog.Find(events, "4") != &events[3] || sitelog.Find(events, "7") != nil {
		t.Error("not found by id")
	}
}
