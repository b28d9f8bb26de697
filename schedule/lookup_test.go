package schedule_test

import (
	"slices"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/plans"
)

// What is found in one pass for all is what is found for each by itself.
func TestOneByOneOrAllAtOnce(t *testing.T) {
	free, used := 0, 0
	for seed := range uint64(200) {
		p := plans.Tiny(plans.Seeded(seed))
		users, required := p.UsersOfEach(), p.RequiredOfEach()
		if len(users) != len(p.Deliveries) || len(required) != int(p.Activities()) {
			t.Fatalf("seed %d: of %d deliveries, of %d activities", seed, len(users), len(required))
		}
		for d := range p.Deliveries {
			if !slices.Equal(users[d], p.Users(schedule.DeliveryID(d))) {
				t.Errorf("seed %d, delivery %d: %v", seed, d, users[d])
			}
			used += len(users[d])
		}
		for a := range p.Activities() {
			if required[a] != p.Required(a) {
				t.Errorf("seed %d, activity %d: %v", seed, a, required[a])
			}
			if _, task := p.Task(a); !task && !required[a] {
				free++
			}
		}
	}
	if used < 100 || free < 10 {
		t.Errorf("%d uses of deliveries, %d of them that nothing waits for", used, free)
	}
}
