package cautions_test

import (
	"strings"
	"testing"

	"turflast/schedule"
	"turflast/schedule/cautions"
)

func TestEveryHazardHasACaution(t *testing.T) {
	for _, h := range schedule.Hazards() {
		c, ok := cautions.For(h)
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
	if _, ok := cautions.For("dragons"); ok {
		t.Error("dragons have a caution")
	}
}

func TestAllKeepsTheOrderOfASheet(t *testing.T) {
	var got []string
	for _, c := range cautions.All([]string{"noise", "dragons", "lifting", "noise", "height"}) {
		got = append(got, c.Hazard)
	}
	if s := strings.Join(got, " "); s != "lifting height noise" {
		t.Errorf("got %q", s)
	}
	if n, want := len(cautions.All(schedule.Hazards())), len(schedule.Hazards()); n != want {
		t.Errorf("%d cautions for %d hazards", n, want)
	}
}
