package holidays_test

import (
	"bufio"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars/holidays"
)

var checked = []int{2026, 2027, 2028}

func of(t *testing.T, code string, year int) []holidays.Day {
	t.Helper()
	days, err := holidays.Of(code, year)
	if err != nil {
		t.Fatal(err)
	}
	return days
}

// written gives days the way the lists in testdata are written.
func written(days []holidays.Day) []string {
	var list []string
	for _, d := range days {
		s := d.On.String()[5:]
		if d.From != 0 {
			s += fmt.Sprintf("@%02d:%02d", d.From/60, d.From%60)
		}
		list = append(list, s)
	}
	return list
}

// lines reads the fields of each line of a list that is not blank or a comment.
func lines(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var all [][]string
	for s := bufio.NewScanner(f); s.Scan(); {
		if fields := strings.Fields(s.Text()); len(fields) > 0 && fields[0] != "#" && !strings.HasPrefix(fields[0], "#") {
			all = append(all, fields)
		}
	}
	return all
}

func year(t *testing.T, s string) int {
	t.Helper()
	i := slices.Index([]string{"2026", "2027", "2028"}, s)
	if i < 0 {
		t.Fatalf("year %q is not one of those checked", s)
	}
	return checked[i]
}

func TestOfficialLists(t *testing.T) {
	seen := map[string]int{}
	for _, line := range lines(t, "testdata/official.txt") {
		code, list := line[0], line[2:]
		seen[code]++
		days := of(t, code, year(t, line[1]))
		got := written(days)
		for i, d := range days {
			if d.Provisional {
				got[i] += "?"
			}
			if strings.HasPrefix(d.Source, "the day itself") {
				got[i] += "*"
			}
		}
		if diff := cmp.Diff(list, got); diff != "" {
			t.Errorf("%s %s (-official +ours):\n%s", code, line[1], diff)
		}
	}
	for _, code := range []string{"AU-VIC", "AU-NSW", "AU-QLD", "GB-ENG", "GB-SCT", "NZ", "US"} {
		if seen[code] != 3 {
			t.Errorf("%s: %d years in the official lists, want 3", code, seen[code])
		}
	}
}

func TestSecondOpinion(t *testing.T) {
	want := map[string][]string{}
	for _, line := range lines(t, "testdata/official.txt") {
		want[line[0]+" "+line[1]] = nil
	}
	differs := map[string][]string{}
	for _, line := range lines(t, "testdata/compared.txt") {
		if line[0] == "differs" {
			key := line[1] + " " + line[2]
			differs[key] = append(differs[key], line[3:]...)
			continue
		}
		want[line[0]+" "+line[1]] = line[2:]
	}
	for _, r := range holidays.Regions() {
		for _, y := range checked {
			key := fmt.Sprint(r.Code, " ", y)
			list, found := want[key]
			if !found {
				t.Errorf("%s is in no list", key)
			}
			if list == nil {
				continue
			}
			for _, word := range differs[key] {
				if add, found := strings.CutPrefix(word, "+"); found {
					list = append(list, add)
				}
				if gone, found := strings.CutPrefix(word, "-"); found {
					i := slices.Index(list, gone)
					if i < 0 {
						t.Fatalf("%s: %s is not in the second list", key, gone)
					}
					list = slices.Delete(list, i, i+1)
				}
			}
			slices.Sort(list)
			if diff := cmp.Diff(list, written(of(t, r.Code, y))); diff != "" {
				t.Errorf("%s (-second +ours):\n%s", key, diff)
			}
		}
	}
}
