package safety_test

import (
	"strings"
	"testing"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/safety"
)

func TestEveryHazardHasACaution(t *testing.T) {
	for _, h := range schedule.Hazards() {
		c, ok := safety.CautionFor(h)
		if !ok {
			t.Errorf("%s has no caution", h)
			continue
		}
		if c.Hazard != h || c.Title == "" || c.Sources == "" {
			t.Errorf("%s: incomplete: %+v", h, c)
		}
		if !strings.HasSuffix(c.Text, "ollow local codes and licensed practice.") {
			t.Errorf("%s doesn't defer: %q", h, c.Text)
		}
		if n := len(c.Text); n > 300 {
			t.Errorf("%s is too long for a sheet: %d characters", h, n)
		}
	}
	if _, ok := safety.CautionFor("dragons"); ok {
		t.Error("dragons have a caution")
	}
}

func TestAllKeepsTheOrderOfASheet(t *testing.T) {
	var got []string
	for _, c := range safety.Cautions([]string{"noise", "dragons", "lifting", "noise", "height"}) {
		got = append(got, c.Hazard)
	}
	if s := strings.Join(got, " "); s != "lifting height noise" {
		t.Errorf("got %q", s)
	}
	if n, want := len(safety.Cautions(schedule.Hazards())), len(schedule.Hazards()); n != want {
		t.Errorf("%d cautions for %d hazards", n, want)
	}
}
