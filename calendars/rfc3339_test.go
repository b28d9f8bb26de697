package calendars_test

import (
	"testing"
	"time"

	"build.example/turflast/calendars"
)

// A moment is written to the second and reads back the same on any clock;
// without seconds it reads too. What isn't a whole minute of the time line
// doesn't read.
func TestRFC3339(t *testing.T) {
	london, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Fatal(err)
	}
	at := calendars.InstantOf(time.Date(2027, time.May, 3, 6, 10, 0, 0, time.UTC))
	for loc, want := range map[*time.Location]string{
		london: "2027-05-03T07:10:00+01:00", time.UTC: "2027-05-03T06:10:00Z",
	} {
		if got := at.RFC3339(loc); got != want {
			t.Errorf("on the clock of %s: wrote %s, want %s", loc, got, want)
		}
	}
	tests := []struct {
		text string
		want calendars.Instant
		ok   bool
	}{
		{"2027-05-03T07:10:00+01:00", at, true},
		{"2027-05-03T06:10:00Z", at, true},
		{"2027-05-03T07:10+01:00", at, true},
		{"2027-05-03T06:10Z", at, true},
		{"1970-01-01T00:01:00Z", 1, true},
		{"1970-01-01T00:00:00Z", 0, false},
		{"1969-12-31T23:59Z", 0, false},
		{"2027-05-03T07:10:01+01:00", 0, false},
		{"2027-05-03T07:10:00.5+01:00", 0, false},
		{"5000-12-31T23:59:00Z", calendars.InstantOf(time.Date(5000, time.December, 31, 23, 59, 0, 0, time.UTC)), true},
		{"5001-01-01T00:00:00Z", 0, false},
		{"2027-05-03T07:10", 0, false},
		{"2027-05-03 07:10:00+01:00", 0, false},
		{"2027-05-03", 0, false},
		{"", 0, false},
	}
	for _, tt := range tests {
		if got, ok := calendars.ParseRFC3339(tt.text); got != tt.want || ok != tt.ok {
			t.Errorf("%q is read as %d, %v, want %d, %v", tt.text, got, ok, tt.want, tt.ok)
		}
	}
}
