package page_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule/show/page"
)

func TestWords(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"", []string{}},
		{"short by 7 h 30 of site time.", []string{"short", "by", "7 h 30", "of", "site", "time."}},
		{"may slip 28 m, all", []string{"may", "slip", "28 m,", "all"}},
		{"the keep of turf (24 h).", []string{"the", "keep", "of", "turf", "(24 h)."}},
		{"2 d 3 h 05 on the clock", []string{"2 d 3 h 05", "on", "the", "clock"}},
		{"Fri 30 Apr 07:00, 2 d earlier", []string{"Fri", "30", "Apr", "07:00,", "2 d", "earlier"}},
		{"joiners 2 have h and 30", []string{"joiners", "2", "have", "h", "and", "30"}},
		{"15 m2 slate", []string{"15", "m2", "slate"}},
	} {
		if diff := cmp.Diff(c.want, page.Words(c.text)); diff != "" {
			t.Errorf("%q: (-want +got)\n%s", c.text, diff)
		}
	}
}
