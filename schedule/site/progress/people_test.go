package progress_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/network/worktime"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

// TestTurnoutByTheMinute: at any minute a crew has as many people as the log said last of that
// minute, of its whole date or of a part of it, and as planned at all others.
func TestTurnoutByTheMinute(t *testing.T) {
	p := read(t, court) // four diggers, one of them away on the 4th
	was := worktime.New(p).Crews[0]
	r := rand.New(rand.NewPCG(7, 7))
	for range 200 {
		var lines []string
		for n := range 1 + r.IntN(4) {
			line := fmt.Sprintf("%d 07:%02d people diggers %d", 3+r.IntN(2), n, r.IntN(7))
			if r.IntN(3) > 0 {
				from := 8*60 + r.IntN(7*60)
				until := min(from+1+r.IntN(240), 16*60)
				line += fmt.Sprintf(" %02d:%02d %02d:%02d", from/60, from%60, until/60, until%60)
			}
			lines = append(lines, line)
		}
		events := plans.Log(t, p, lines...)
		crew := worktime.New(progress.At(p, events, nil, moment(p, 5, "07:00")).Plan).Crews[0]
		for m := range calendars.Minutes(2 * 24 * 60) {
			at := moment(p, 3, "00:00").Plus(m)
			want := was.At(at)
			if want > 0 {
				want = lastSaid(events, at, want)
			}
			if got := crew.At(at); got != want {
				t.Fatalf("%q: %d at minute %d, not %d", lines, got, m, want)
			}
		}
	}
}

// lastSaid is how many people there were at a moment by the last of some events that is about
// it, the later ones first; or as many as planned.
func lastSaid(events []sitelog.Event, at calendars.Instant, planned int) int {
	said, when := planned, calendars.Past
	for _, e := range events {
		from, until := e.From, e.Until
		if from == 0 {
			from, until = e.At.Plus(-8*calendars.Hour), e.At.Plus(15*calendars.Hour)
		}
		if from <= at && at < until && e.At >= when {
			said, when = e.People, e.At
		}
	}
	return said
}

// TestShortForAnHour: work that fewer may do goes on with them while some are away, and is not
// counted twice where another event says later that all were there.
func TestShortForAnHour(t *testing.T) {
	p := read(t, court)
	for _, c := range []struct {
		lines []string
		want  int64 // person-minutes left of the base, eight hours of work of one or two
	}{
		{nil, 480 - 2*180},
		{[]string{"3 08:00 people diggers 1 09:00 10:00"}, 480 - 2*120 - 60},
		{[]string{"3 08:00 people diggers 1 09:00 10:00", "3 08:01 people diggers 4"}, 480 - 2*180},
		{[]string{"3 08:00 people diggers 1", "3 08:01 people diggers 2 10:00 11:00"}, 480 - 120 - 2*60},
		{[]string{"3 08:00 people diggers 0 09:00 10:00"}, 480 - 2*120},
	} {
		events := plans.Log(t, p, append([]string{"3 08:00 started base"}, c.lines...)...)
		s := progress.At(p, events, nil, moment(p, 3, "11:00"))
		left := s.Plan.Progress.Tasks[p.FindTask("base")].Left
		if want := (schedule.Effort{Num: c.want, Den: 1}); left != want {
			t.Errorf("%q: %v left, not %v", c.lines, left, want)
		}
	}
}

// TestWeatherStops: each kind of weather stops the work that must not have it, on its date or
// in its hours, and no other.
func TestWeatherStops(t *testing.T) {
	p := read(t, court)
	needs := map[sitelog.Kind]schedule.Weather{
		sitelog.Wet: schedule.Dry, sitelog.Windy: schedule.Calm, sitelog.Frost: schedule.Mild, sitelog.Heat: schedule.Mild,
	}
	for what, stopped := range needs {
		for _, c := range []struct {
			hours string
			shut  []string // of 09:00, 11:00 and 15:00
		}{{"", []string{"09:00", "11:00", "15:00"}}, {" 10:30 12:00", []string{"11:00"}}} {
			events := plans.Log(t, p, fmt.Sprintf("3 12:00 %s%s", what, c.hours))
			set := worktime.New(progress.At(p, events, nil, moment(p, 3, "16:00")).Plan)
			for _, weather := range []schedule.Weather{schedule.Dry, schedule.Calm, schedule.Mild} {
				task := p.Tasks[p.FindTask("rake")]
				task.Weather = weather
				for _, clock := range []string{"09:00", "11:00", "15:00"} {
					shut := weather == stopped && slices.Contains(c.shut, clock)
					if open := set.Task(&task, []int{1}).IsOpen(moment(p, 3, clock)); open == shut {
						t.Errorf("%s%s, weather %d at %s: open %v", what, c.hours, weather, clock, open)
					}
				}
			}
		}
	}
}
