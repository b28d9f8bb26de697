package whatif_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/internal/plans"
)

// underway is a plan as at some moment of its build, and the programme it began
// with.
func underway(t *testing.T, seed uint64) *schedule.Plan {
	p := plans.Dryish(seed)
	g := crews(t, p, nil).Programme
	if g.Blocked != nil {
		return p
	}
	src := plans.Seeded(seed + 500)
	at := p.Site.Opens.Plus(calendars.Minutes(src.Int(0, int(p.Site.Handover-p.Site.Opens))))
	return plans.Underway(src, p, g, at, seed%2 == 0)
}

// Changes of plans under way make plans whose programmes pass their check, and
// leave the plan itself alone.
func TestChangesUnderWay(t *testing.T) {
	tried := 0
	for seed := range uint64(40) {
		src := plans.Seeded(seed + 2000)
		p := underway(t, seed)
		if p.Progress == nil {
			continue
		}
		was := *p.Progress
		for range 4 {
			changed, err := whatif.Apply(p, changes(t, someChange(src, p)))
			if err != nil {
				continue
			}
			tried++
			crews(t, changed, nil) // fails the test when the programme doesn't pass its check
		}
		if len(p.Progress.Tasks) != len(was.Tasks) || p.Progress.At != was.At {
			t.Fatal("the plan has changed")
		}
	}
	if tried < 60 {
		t.Errorf("only %d changes were tried", tried)
	}
}

// What has happened can't be changed; what is left of work in hand can.
func TestWhatHasHappened(t *testing.T) {
	p := plans.Dryish(3)
	at := p.Site.Opens.Plus(calendars.Day)
	p.Progress = &schedule.Progress{
		At: at, Tasks: make([]schedule.TaskProgress, len(p.Tasks)),
		Deliveries: make([]schedule.DeliveryProgress, len(p.Deliveries)),
	}
	p.Progress.Tasks[0] = schedule.TaskProgress{Start: p.Site.Opens, Finish: at}
	p.Progress.Tasks[1] = schedule.TaskProgress{Start: p.Site.Opens, Left: schedule.Effort{Takes: 90}, Heads: []int{1}}
	p.Deliveries = append(p.Deliveries[:0:0], schedule.Delivery{ID: "stone", What: "Stone", Arrives: p.Site.Opens})
	p.Progress.Deliveries = []schedule.DeliveryProgress{{Arrived: true}}
	for i := range p.Tasks {
		p.Tasks[i].Uses = nil
	}
	done, hand := p.Tasks[0], p.Tasks[1]
	for text, want := range map[string]string{
		done.ID + " 1h longer":  done.Name + " is finished",
		"drop " + hand.ID:       hand.Name + " is under way or done",
		hand.ID + " 2h shorter": hand.Name + " has only 1h30m left",
		"stone 1h later":        "Stone has come",
	} {
		_, err := whatif.Apply(p, changes(t, text))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
	q, err := whatif.Apply(p, changes(t, hand.ID+" 1h longer"))
	if err != nil || q.Progress.Tasks[1].Left.Takes != 150 || p.Progress.Tasks[1].Left.Takes != 90 {
		t.Errorf("an hour longer: %v", err)
	}
}
