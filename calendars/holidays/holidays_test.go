package holidays_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rickar/cal/v2"

	_ "time/tzdata" // zones for the test that moves the machine

	"build.example/turflast/calendars"
	"build.example/turflast/calendars/holidays"
)

// Single days that planners get wrong. The sources are in testdata/official.txt
// and in the table of corrections; the days of WA and ACT in 2026 are in both
// second sets of data.
func TestDays(t *testing.T) {
	tests := []struct {
		on     string
		closed string
		open   string
	}{
		{"2026-04-27", "AU-NSW AU-WA AU-ACT NZ", "AU-VIC AU-QLD AU-SA AU-TAS AU-NT"},
		{"2027-04-26", "AU-NSW AU-QLD AU-WA AU-ACT AU-NT NZ", "AU-VIC AU-SA AU-TAS"},
		{"2027-04-25", "AU-VIC AU-NSW AU-SA AU-WA AU-TAS NZ", "AU-QLD AU-NT AU-ACT"},
		{"2026-12-26", "AU-VIC AU-SA GB-ENG NZ CA", "AU-TAS US JP"},
		{"2027-12-25", "AU-TAS AU-SA AU-NT GB-SCT NZ US SG", "JP"},
		{"2027-12-26", "AU-VIC GB-NIR", "AU-TAS US"},
		{"2028-01-01", "AU-VIC GB-ENG US", "AU-TAS"},
		{"2027-12-31", "US", "AU-VIC GB-ENG CA"},
		{"2026-04-05", "AU-SA AU-WA AU-NT NL DE-BB", "AU-TAS GB-ENG DE DE-BE"},
		{"2026-04-04", "AU-SA AU-NT", "AU-WA AU-TAS"},
		{"2026-06-15", "GB-SCT", "GB-ENG GB-NIR GB-WLS"},
		{"2026-04-06", "GB-ENG GB-NIR GB-WLS IE NZ", "GB-SCT"},
		{"2026-08-31", "GB-ENG GB-NIR GB-WLS", "GB-SCT"},
		{"2026-07-13", "GB-NIR", "GB-ENG GB-SCT IE"},
		{"2026-07-10", "NZ", "AU-VIC"},
		{"2026-08-12", "", "AU-QLD"},
		{"2027-03-08", "DE-MV DE-BE AU-VIC", "DE DE-BB"},
		{"2028-06-17", "DE-BE", "DE-BB DE"},
		{"2026-05-05", "JP", "NL"},
		{"2026-04-03", "DE GB-SCT SG CA", "NL FR JP US IE"},
		{"2026-09-22", "JP", "SG"},
		{"2027-03-22", "JP", "NZ"},
		{"2025-01-27", "AU-VIC AU-TAS AU-WA", "NZ"}, // Australia Day moves from a Sunday
		{"2025-01-26", "", "AU-VIC AU-TAS AU-WA"},
		{"2025-04-26", "NL", "FR"}, // King's Day moves from a Sunday to the Saturday
		{"2025-04-27", "", "NL"},
	}
	for _, test := range tests {
		on, err := time.Parse(time.DateOnly, test.on)
		if err != nil {
			t.Fatal(err)
		}
		has := func(code string) bool {
			return slices.ContainsFunc(of(t, code, on.Year()), func(d holidays.Day) bool { return d.On.String() == test.on })
		}
		for _, code := range strings.Fields(test.closed) {
			if !has(code) {
				t.Errorf("%s is no holiday in %s", test.on, code)
			}
		}
		for _, code := range strings.Fields(test.open) {
			if has(code) {
				t.Errorf("%s is a holiday in %s", test.on, code)
			}
		}
	}
}

func TestNames(t *testing.T) {
	tests := []struct{ code, on, name string }{
		{"AU-VIC", "2026-06-08", "King's Birthday"},
		{"AU-WA", "2026-09-28", "King's Birthday"},
		{"NZ", "2026-06-01", "King's Birthday"},
		{"AU-SA", "2026-03-09", "Adelaide Cup Day"},
		{"AU-SA", "2026-12-28", "Proclamation Day (additional day)"},
		{"AU-VIC", "2026-11-03", "Melbourne Cup Day"},
		{"AU-QLD", "2027-04-26", "Anzac Day (moved from 25 April)"},
		{"AU-NSW", "2027-04-26", "Anzac Day (additional day)"},
		{"AU-TAS", "2026-12-28", "Boxing Day (moved from 26 December)"},
		{"AU-NT", "2026-05-04", "May Day"},
		{"AU-QLD", "2026-05-04", "Labour Day"},
		{"GB-SCT", "2028-01-04", "2nd January (substitute day)"},
		{"GB-ENG", "2026-05-04", "Early May bank holiday"},
		{"GB-ENG", "2026-05-25", "Spring bank holiday"},
		{"GB-SCT", "2026-08-03", "Summer bank holiday"},
		{"DE-BE", "2026-12-25", "Erster Weihnachtsfeiertag"},
		{"NZ", "2026-04-25", "Anzac Day"},
		{"US", "2026-01-19", "Birthday of Martin Luther King, Jr."},
		{"GB-NIR", "2026-07-13", "Battle of the Boyne (substitute day)"},
		{"NZ", "2027-12-28", "Boxing Day (transferred day)"},
		{"NZ", "2028-07-14", "Matariki"},
		{"US", "2026-07-03", "Independence Day (observed)"},
		{"US", "2027-06-18", "Juneteenth National Independence Day (observed)"},
		{"US", "2026-02-16", "Washington's Birthday"},
		{"JP", "2026-05-06", "Constitution Memorial Day (substitute day)"},
		{"JP", "2026-09-22", "Citizens' Holiday"},
		{"SG", "2026-06-01", "Vesak Day (substitute day)"},
		{"FR", "2026-07-14", "Fête Nationale"},
		{"NL", "2026-05-24", "Eerste Pinksterdag"},
	}
	for _, test := range tests {
		on, err := time.Parse(time.DateOnly, test.on)
		if err != nil {
			t.Fatal(err)
		}
		name := ""
		for _, d := range of(t, test.code, on.Year()) {
			if d.On.String() == test.on {
				name = d.Name
			}
		}
		if name != test.name {
			t.Errorf("%s %s is %q, want %q", test.code, test.on, name, test.name)
		}
	}
}

func TestProvisional(t *testing.T) {
	want := []string{
		"AU-VIC 2027-09-24", "AU-VIC 2028-09-29",
		"AU-WA 2028-03-06", "AU-WA 2028-06-05", "AU-WA 2028-09-25",
		"JP 2028-03-20", "JP 2028-09-22",
		"SG 2027-03-10", "SG 2027-05-17", "SG 2027-05-20", "SG 2027-10-28",
		"SG 2028-01-26", "SG 2028-01-27", "SG 2028-02-27", "SG 2028-02-28", "SG 2028-05-05", "SG 2028-05-09", "SG 2028-10-17",
	}
	var got []string
	for _, r := range holidays.Regions() {
		for _, y := range checked {
			for _, d := range of(t, r.Code, y) {
				if d.Provisional {
					got = append(got, r.Code+" "+d.On.String())
				}
			}
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("provisional days (-want +got):\n%s", diff)
	}
	for _, y := range []int{1999, 2025, 2029, 2040} {
		for _, r := range holidays.Regions() {
			for _, d := range of(t, r.Code, y) {
				if !d.Provisional || !strings.HasPrefix(d.Source, "computed") {
					t.Errorf("%s %v: provisional %v, source %q", r.Code, d.On, d.Provisional, d.Source)
				}
			}
		}
	}
}

func TestEveryListIsSound(t *testing.T) {
	for _, r := range holidays.Regions() {
		for y := holidays.Earliest; y <= holidays.Latest; y++ {
			days := of(t, r.Code, y)
			if len(days) < 5 {
				t.Errorf("%s %d: only %d days", r.Code, y, len(days))
			}
			for i, d := range days {
				if got, _, _ := d.On.Civil(); got != y {
					t.Errorf("%s %d: %v lies outside the year", r.Code, y, d.On)
				}
				if i > 0 && days[i-1].On >= d.On {
					t.Errorf("%s: %v after %v", r.Code, d.On, days[i-1].On)
				}
				if d.Name == "" || d.Source == "" || d.From < 0 || d.From >= calendars.Day {
					t.Errorf("%s: incomplete day %+v", r.Code, d)
				}
			}
		}
	}
}

// A day given for a holiday is a working day of the week, and a name that
// mentions a weekday is right about it.
func TestWeekdays(t *testing.T) {
	for _, r := range holidays.Regions() {
		for y := 2020; y <= 2060; y++ {
			for _, d := range of(t, r.Code, y) {
				w := d.On.Weekday()
				given := strings.HasSuffix(d.Name, "day)") || strings.HasSuffix(d.Name, "(observed)")
				if given && (w == time.Saturday || w == time.Sunday) {
					t.Errorf("%s: %v, %s, is a %v", r.Code, d.On, d.Name, w)
				}
				for _, name := range []string{"Good Friday", "Easter Saturday", "Easter Sunday", "Easter Monday"} {
					if strings.HasPrefix(d.Name, name) && !strings.HasSuffix(name, w.String()) {
						t.Errorf("%s: %v, %s, is a %v", r.Code, d.On, d.Name, w)
					}
				}
			}
		}
	}
}

func TestUnknown(t *testing.T) {
	tests := []struct {
		code string
		near []string
	}{
		{"AU-VC", []string{"AU-ACT", "AU-NSW", "AU-NT", "AU-QLD", "AU-SA", "AU-TAS", "AU-VIC", "AU-WA"}},
		{"au-vic", []string{"AU-VIC"}},
		{"VIC", []string{"AU-VIC"}},
		{"scotland", []string{"GB-SCT"}},
		{"UK", []string{"GB-ENG", "GB-NIR", "GB-SCT", "GB-WLS"}},
		{"GB-ENH", []string{"GB-ENG"}},
		{"CA-ON", []string{"CA"}},
		{"QQ-1", nil},
		{"", nil},
	}
	for _, test := range tests {
		if holidays.Known(test.code) {
			t.Errorf("%q is known", test.code)
		}
		_, err := holidays.Of(test.code, 2026)
		var unknown *holidays.Unknown
		if !errors.As(err, &unknown) {
			t.Fatalf("%q: error %v", test.code, err)
		}
		if diff := cmp.Diff(test.near, unknown.Near); diff != "" {
			t.Errorf("near %q (-want +got):\n%s", test.code, diff)
		}
	}
	_, err := holidays.Of("AU-VC", 2026)
	if got := fmt.Sprint(err); !strings.Contains(got, `"AU-VC"; did you mean`) {
		t.Error(got)
	}
	if _, err = holidays.Of("NZ", 2300); err == nil || !strings.Contains(err.Error(), "1970 to 2199") {
		t.Errorf("year 2300: %v", err)
	}
}

func TestRegions(t *testing.T) {
	all := holidays.Regions()
	for i, r := range all {
		if !holidays.Known(r.Code) || r.Name == "" {
			t.Errorf("region %+v", r)
		}
		if i > 0 && all[i-1].Code >= r.Code {
			t.Errorf("%s after %s", r.Code, all[i-1].Code)
		}
	}
	for _, want := range strings.Fields("AU-VIC AU-NSW AU-QLD AU-SA AU-WA AU-TAS " +
		"AU-NT AU-ACT GB-ENG GB-WLS GB-SCT GB-NIR NZ IE US CA SG FR DE NL JP") {
		if !holidays.Known(want) {
			t.Errorf("%s is not known", want)
		}
	}
	if notes := holidays.Notes("AU-QLD"); len(notes) == 0 || !strings.Contains(notes[0], "12 August 2026") {
		t.Errorf("notes of Queensland: %q", notes)
	}
	if notes := holidays.Notes("XX"); notes != nil {
		t.Errorf("notes of an unknown region: %q", notes)
	}
}

// Midnight of some of these days does not exist where the machine stands (8
// March 2026 in Havana, 24 April 2026 in Cairo): no list may change by it.
func TestMachineTimeZone(t *testing.T) {
	lists := func() map[string][]holidays.Day {
		all := map[string][]holidays.Day{}
		for _, r := range holidays.Regions() {
			for _, y := range checked {
				all[fmt.Sprint(r.Code, y)] = of(t, r.Code, y)
			}
		}
		return all
	}
	home := cal.DefaultLoc
	defer func() { cal.DefaultLoc = home }()
	cal.DefaultLoc = time.UTC
	want := lists()
	for _, zone := range []string{"America/Havana", "America/Santiago",
		"Asia/Beirut", "Africa/Cairo", "Pacific/Kiritimati"} {
		loc, err := time.LoadLocation(zone)
		if err != nil {
			t.Fatal(err)
		}
		cal.DefaultLoc = loc
		if diff := cmp.Diff(want, lists()); diff != "" {
			t.Errorf("%s (-UTC +there):\n%s", zone, diff)
		}
	}
}

// Run with -race: one rule of the library writes to a shared value.
func TestConcurrentUse(t *testing.T) {
	want := of(t, "JP", 2027)
	var wait sync.WaitGroup
	for i := range 8 {
		wait.Go(func() {
			for y := 2020; y < 2040; y++ {
				got, err := holidays.Of("JP", y+i%2)
				if err != nil || len(got) < 15 {
					t.Errorf("%d: %d days, %v", y+i%2, len(got), err)
				}
			}
		})
	}
	wait.Wait()
	if diff := cmp.Diff(want, of(t, "JP", 2027)); diff != "" {
		t.Error(diff)
	}
}

func BenchmarkOf(b *testing.B) {
	for _, code := range []string{"AU-SA", "GB-SCT", "JP", "SG"} {
		b.Run(code, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := holidays.Of(code, 2027); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
