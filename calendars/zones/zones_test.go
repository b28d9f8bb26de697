package zones_test

import (
	"testing"
	"time"

	"build.example/turflast/calendars/zones"
)

// Changes of the clocks that laws and notices published: the last Sundays of March and October
// in Britain (Summer Time Order 2002), the second of March and the first of November in the
// United States (Energy Policy Act 2005), none in Japan.
func TestClocks(t *testing.T) {
	for _, test := range []struct {
		zone, utc, want string
	}{
		{"Europe/London", "2027-03-28T00:59:00Z", "2027-03-28T00:59:00Z"},
		{"Europe/London", "2027-03-28T01:00:00Z", "2027-03-28T02:00:00+01:00"},
		{"Europe/London", "2027-10-31T01:00:00Z", "2027-10-31T01:00:00Z"},
		{"America/New_York", "2027-03-14T07:00:00Z", "2027-03-14T03:00:00-04:00"},
		{"America/New_York", "2027-11-07T06:00:00Z", "2027-11-07T01:00:00-05:00"},
		{"Asia/Tokyo", "2027-07-01T00:00:00Z", "2027-07-01T09:00:00+09:00"},
		{"UTC", "2027-07-01T00:00:00Z", "2027-07-01T00:00:00Z"},
	} {
		loc, err := zones.Load(test.zone)
		if err != nil {
			t.Fatal(err)
		}
		at, err := time.Parse(time.RFC3339, test.utc)
		if err != nil {
			t.Fatal(err)
		}
		if got := at.In(loc).Format(time.RFC3339); got != test.want || loc.String() != test.zone {
			t.Errorf("%s in %s is %s, want %s", test.utc, loc, got, test.want)
		}
	}
}

func TestNoZone(t *testing.T) {
	for _, name := range []string{"", "Local", "Europe/Londonn", "../UTC", "Europe", "Europe/", "europe/london"} {
		if loc, err := zones.Load(name); err == nil {
			t.Errorf("%q is %v", name, loc)
		}
	}
}
