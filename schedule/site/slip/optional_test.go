package slip_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/slip"
)

// TestBegunOptionalWork: optional work that has begun is required, and was agreed as the
// baseline has it: the hand-over slips by what is later than that, and not by the work.
func TestBegunOptionalWork(t *testing.T) {
	const pots = "  pots: {name: Pots, zone: front, stage: planting, crew: {diggers: 2}, takes: 3h, after: [mulch], " +
		"optional: true}\n"
	p, agreed := agree(t, strings.Replace(court, "handover: 2027-05-05 12:00", "handover: 2027-05-06 12:00", 1)+pots)
	was := agreed.Tasks[4].Done
	if agreed.Tasks[4].Dropped || was <= agreed.Finish {
		t.Fatalf("pots aren't last: %+v", agreed.Tasks[4])
	}
	done := []string{"3 08:00 started dig", "3 14:00 finished dig", "3 14:00 signed dig", "3 14:00 started soil",
		"3 16:00 finished soil", "4 08:00 arrived shrubs", "4 08:30 started plant", "4 12:30 finished plant",
		"4 12:30 started mulch", "4 14:30 finished mulch"}
	for _, c := range []struct {
		started string
		by      calendars.Minutes
	}{{"4 14:30 started pots", 0}, {"4 15:30 started pots", 60}, {"", 0}} {
		log := done
		if c.started != "" {
			log = append(log[:len(log):len(log)], c.started)
		}
		s := progress.At(p, plans.Log(t, p, log...), agreed, plans.Event(t, p, 0, "4 15:30 started pots").At)
		found := slip.Of(s, forecast(t, s.Plan, agreed), agreed)
		want := was
		if c.started == "" {
			want = agreed.Finish
		}
		if found.By != c.by || found.OnClock || found.Was != want {
			t.Errorf("%q: slips %d m from %d, want %d m from %d", c.started, found.By, found.Was, c.by, want)
		}
	}
}

// TestLeftOut: what was left out, then or now, slips by nothing, is missing nowhere and is
// no new task; neither is late what is as agreed to the minute, or sooner.
func TestLeftOut(t *testing.T) {
	const late, sooner, same = 3, 1, 0
	for name, leave := range map[string]func(x *slipped){
		"then": func(x *slipped) { x.agreed.Tasks[2] = schedule.TaskDates{Dropped: true} },
		"now":  func(x *slipped) { x.g.Tasks[2] = schedule.TaskDates{Dropped: true} },
	} {
		x := slipping(t, court, "3 08:00")
		x.late(2, 1)
		leave(x)
		x.late(late, 1)
		x.g.Tasks[same].Finish = x.agreed.Tasks[same].Finish
		x.g.Tasks[sooner].Finish = x.agreed.Tasks[sooner].Finish.Plus(-1)
		x.g.Unloads[0].Arrives = x.agreed.Unloads[0].Arrives
		found := x.of()
		if len(found.Tasks) != 1 || found.Tasks[0].Task != late || len(found.Never) > 0 || found.Added > 0 {
			t.Errorf("left out %s: late %+v, without a place %v, %d added", name, found.Tasks, found.Never, found.Added)
		}
		if found.Sooner != 1 || len(found.Lorries) > 0 {
			t.Errorf("left out %s: %d sooner, lorries %+v", name, found.Sooner, found.Lorries)
		}
		x.g.Unloads[0].Arrives++
		if found = x.of(); len(found.Lorries) != 1 || found.Lorries[0].By != 1 {
			t.Errorf("a minute late: lorries %+v", found.Lorries)
		}
	}
}
