package whatif_test

import (
	"fmt"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/internal/plans"
)

// Where both are proven best, the hand-over gets no sooner when a lorry is held up
// longer, a crew is smaller or more days are wet.
func TestWorseIsNeverSooner(t *testing.T) {
	compared, later := 0, 0
	for seed := range uint64(150) {
		p := lasting(plans.Dryish(seed))
		mild, severe := worsening(plans.Seeded(seed+500), p)
		var late [2]calendars.Minutes
		proven := true
		for k, list := range [][]schedule.Change{changes(t, mild...), changes(t, severe...)} {
			q, err := whatif.Apply(p, list)
			if err != nil {
				proven = false // nobody is there to be short that day
				break
			}
			g := crews(t, q, nil).Programme
			proven = proven && g.Blocked == nil && g.Finish == g.Bound
			late[k] = max(calendars.Minutes(g.Finish-q.Site.Handover), lateness(q, g))
		}
		switch {
		case !proven:
			continue
		case late[1] < late[0]:
			t.Errorf("plan %d: %v ends %d minutes sooner than %v", seed, severe, late[0]-late[1], mild)
		case late[1] > late[0]:
			later++
		}
		compared++
	}
	if compared < 40 || later < 5 {
		t.Errorf("%d pairs compared, %d of them later: too few to show anything", compared, later)
	}
}

// worsening is a change to a plan and one that is worse in the same way.
func worsening(src plans.Source, p *schedule.Plan) (mild, severe []string) {
	day := calendars.DateIn(p.Site.Opens, p.Site.Location) + calendars.Date(src.Int(0, 4))
	kind := src.Int(0, 2)
	switch {
	case kind == 0 && len(p.Deliveries) > 0:
		id, by := p.Deliveries[src.Int(0, len(p.Deliveries)-1)].ID, 15*src.Int(1, 200)
		return []string{fmt.Sprintf("%s %dm later", id, by)}, []string{fmt.Sprintf("%s %dm later", id, by+15*src.Int(1, 200))}
	case kind < 2:
		id := p.Crews[src.Int(0, len(p.Crews)-1)].ID
		return []string{fmt.Sprintf("%s 1 fewer on %v", id, day)}, []string{fmt.Sprintf("%s 2 fewer on %v", id, day)}
	}
	mild = []string{fmt.Sprintf("wet on %v", day)}
	return mild, append([]string{fmt.Sprintf("wet on %v", day+1)}, mild...)
}
