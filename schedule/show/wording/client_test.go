package wording_test

import (
	"strings"
	"testing"

	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/show/wording"
)

// How sure a date is is said in words that go with the share of builds in time, without any
// figure.
func TestHowSure(t *testing.T) {
	for _, c := range []struct {
		onTime int
		want   string
	}{
		{1000, "as sure as one can be"}, {950, "as sure as one can be"}, {949, "confident"}, {800, "confident"},
		{799, "more likely than not"}, {600, "more likely than not"}, {599, "either way"}, {400, "either way"},
		{399, "late is more likely"}, {150, "late is more likely"}, {149, "hardly ever"}, {0, "hardly ever"},
	} {
		o := &odds.Result{Options: odds.Options{Builds: 1000}, OnTime: c.onTime, Causes: make([]odds.Cause, 1)}
		if got := wording.HowSure(o); !strings.Contains(got, c.want) || strings.ContainsAny(got, "0123456789") {
			t.Errorf("%d of 1000: %q", c.onTime, got)
		}
	}
	certain := &odds.Result{Options: odds.Options{Builds: 1000}, OnTime: 1000}
	if got := wording.HowSure(certain); !strings.Contains(got, "can't say how sure") {
		t.Errorf("certain: %q", got)
	}
}
