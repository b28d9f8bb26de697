// Package holidays gives the public holidays of a country or one of its parts,
// named by its ISO 3166-1 or 3166-2 code.
//
// Dates come from github.com/rickar/cal by rule. One table of data (see
// corrections.go) adds, drops, moves and renames what differs from the
// official lists of 2026 to 2028, each row with its source. A day that closes
// by law closes here whether or not it is a working day: where a holiday at a
// weekend earns a further day off, both are given, unless the law puts the
// further day in its place.
//
// All functions are safe for concurrent use.
package holidays

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
)

// First and Last are the years whose dates were checked against official lists
// or a second set of data; in other years every date is computed by rule and
// provisional.
const (
	First = 2026
	Last  = 2028
)

// The years that [Of] answers for. The rules of the calendar hold in all of
// them; today's laws may not.
const (
	Earliest = 1970
	Latest   = 2199
)

// Day is one public holiday. No two days of a list share a date.
type Day struct {
	On          calendars.Date
	From        calendars.Minutes // closed from this minute of its wall clock on; 0: the whole day
	Name        string            // as the region's own list has it; in its own language in DE, FR and NL
	Source      string            // where the date stands: a law, an order, a published list, or "computed"
	Provisional bool              // not settled, or not checked
}

// Region is a place whose holidays are known.
type Region struct {
	Code string // ISO 3166-1 alpha-2, or 3166-2
	Name string // in English
}

// Unknown is the error for a region that is not among Regions.
type Unknown struct {
	Code string
	Near []string // the codes that may have been meant, none to eight
}

func (u *Unknown) Error() string {
	if len(u.Near) == 0 {
		return fmt.Sprintf("no public holidays are known for region %q", u.Code)
	}
	return fmt.Sprintf("no public holidays are known for region %q; did you mean %s?", u.Code, strings.Join(u.Near, ", "))
}

// Regions lists every region in order of its code.
func Regions() []Region {
	all := make([]Region, len(regions))
	for i, r := range regions {
		all[i] = Region{Code: r.code, Name: r.name}
	}
	return all
}

// Known says whether code is that of a region; letter case counts.
func Known(code string) bool { return find(code) != nil }

// Notes says what the list of a region leaves out or cannot know: days of one
// town or trade, days not yet settled. Nil for an unknown region.
func Notes(code string) []string {
	r := find(code)
	if r == nil {
		return nil
	}
	return slices.Clone(r.notes)
}

// Of lists the holidays of a region that fall in a year, sorted by date. The
// error is *Unknown for a code that is not known; any other says that the year
// is out of range.
func Of(code string, year int) ([]Day, error) {
	r := find(code)
	if r == nil {
		return nil, &Unknown{Code: code, Near: near(code)}
	}
	if year < Earliest || year > Latest {
		return nil, fmt.Errorf("public holidays are computed for %d to %d, not for %d", Earliest, Latest, year)
	}
	return r.days(year), nil
}

func find(code string) *region {
	i, found := slices.BinarySearchFunc(regions, code, func(r region, code string) int {
		return strings.Compare(r.code, code)
	})
	if !found {
		return nil
	}
	return &regions[i]
}

// near finds the codes that a mistyped one may stand for: the parts of a
// country, a part named without its country or by its name, one wrong letter.
func near(code string) []string {
	want := strings.ToUpper(strings.TrimSpace(code))
	if want == "UK" || strings.HasPrefix(want, "UK-") {
		want = "GB" + want[2:]
	}
	tests := []func(r region) bool{
		func(r region) bool { return r.code == want },
		func(r region) bool { return want != "" && strings.HasSuffix(r.code, "-"+want) },
		func(r region) bool { return strings.EqualFold(r.name, want) },
		func(r region) bool { return differ(r.code, want) == 1 },
		func(r region) bool {
			country, _, _ := strings.Cut(want, "-")
			return strings.HasPrefix(r.code, country+"-") || r.code == country
		},
	}
	for _, test := range tests {
		var codes []string
		for _, r := range regions {
			if test(r) && len(codes) < 8 {
				codes = append(codes, r.code)
			}
		}
		if len(codes) > 0 {
			return codes
		}
	}
	return nil
}

// differ counts the places where two codes of one length differ.
func differ(a, b string) int {
	if len(a) != len(b) {
		return len(a) + len(b)
	}
	n := 0
	for i := range len(a) {
		if a[i] != b[i] {
			n++
		}
	}
	return n
}
