package schedule_test

import (
	"strings"
	"testing"

	"build.example/turflast/schedule"
)

func TestName(t *testing.T) {
	known := []string{"zone", "crew", "crews", "takes", "person_hours", "closes_way_in", "telehandler", "planting"}
	for _, c := range []struct{ name, want string }{
		{"zoen", "zone"},                             // two letters swapped
		{"zon", "zone"},                              // one left out
		{"ztone", "zone"},                            // one put in
		{"tokes", "takes"},                           // one changed
		{"Zone", "zone"},                             // letter case is no slip
		{"person-hours", "person_hours"},             // nor is the kind of dash
		{"closeswayin", "closes_way_in"},             // nor its absence
		{"tele", "telehandler"},                      // a beginning
		{"planting-crew", "planting"},                // a known name with more behind it
		{"crew2", "crew"},                            // the first of two as near
		{"zebra", ""},                                // nothing near
		{"", ""},                                     // nothing said
		{"zo", ""},                                   // too short to be a beginning
		{"zone", "zone"},                             // known already
		{strings.Repeat("a", 65), ""},                // no name is so long
		{"plänting", "planting"},                     // characters count, not bytes
		{"telehnadlre", "telehandler"},               // two swaps in eleven letters
		{"tlhndlr", ""},                              // four left out are too many
		{strings.Repeat("é", 64), ""},                // the longest that is looked at
		{"takes" + strings.Repeat("x", 59), "takes"}, // a beginning, however much follows
	} {
		if got := schedule.Nearest(c.name, known); got != c.want {
			t.Errorf("Name(%q) = %q, want %q", c.name, got, c.want)
		}
	}
}

func TestNameLongKnown(t *testing.T) {
	long := strings.Repeat("a", 500)
	if got := schedule.Nearest(strings.Repeat("a", 60), []string{long}); got != long {
		t.Errorf("a beginning of a long known name found %q", got)
	}
	if got := schedule.Nearest(strings.Repeat("b", 60), []string{long, "bb"}); got != "" {
		t.Errorf("nothing near, but found %q", got)
	}
}
