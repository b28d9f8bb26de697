package schedule

import (
	"strings"
	"unicode/utf8"
)

// longest is the length of name, in characters, up to which a typo is looked
// for: beyond it no name in use is near.
const longest = 64

// Nearest is the known name nearest to a mistyped one, or "" when none is near.
// A slip is a character left out, put in, changed or swapped with its
// neighbour; letter case, hyphens, underscores and spaces don't count. A name of
// up to four characters is near with one slip, from five on with two, from eight
// on with three and so on. A name that begins with a known one, or is the
// beginning of one, is near too. Of equally near names the first known one wins;
// a known name is its own nearest.
//
// Each known name takes time in the product of the two lengths.
func Nearest(name string, known []string) string {
	plain := fold(name)
	n := utf8.RuneCountInString(plain)
	if n == 0 || n > longest {
		return ""
	}
	best, least := "", 1+max(1, (n+1)/3)
	for _, k := range known {
		if d := distance([]rune(plain), []rune(fold(k)), least); d < least {
			best, least = k, d
		}
	}
	if best != "" {
		return best
	}
	return startsAlike(plain, known)
}

// startsAlike is the first known name that begins with plain, or that plain
// begins with, when three characters or more agree.
func startsAlike(plain string, known []string) string {
	for _, k := range known {
		short, long := plain, fold(k)
		if len(short) > len(long) {
			short, long = long, short
		}
		if utf8.RuneCountInString(short) >= 3 && strings.HasPrefix(long, short) {
			return k
		}
	}
	return ""
}

var joiners = strings.NewReplacer("-", "", "_", "", " ", "")

func fold(s string) string { return joiners.Replace(strings.ToLower(s)) }

// swapped says whether the last two characters of one prefix are those of the
// other, swapped.
func swapped(a, b []rune, i, j int) bool {
	return i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1]
}

// distance counts the slips between a and b (optimal string alignment: the
// edit distance in which two neighbours swapped are one slip); at least limit
// when there are that many or more.
func distance(a, b []rune, limit int) int {
	if len(a)-len(b) >= limit || len(b)-len(a) >= limit {
		return limit
	}
	// Rows of the table for the last two prefixes of a and the present one.
	var before, last, now [longest + longest + 1]int
	if len(b) >= len(now) {
		return limit
	}
	for j := range len(b) + 1 {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now[0] = i
		least := i
		for j := 1; j <= len(b); j++ {
			changed := last[j-1]
			if a[i-1] != b[j-1] {
				changed++
			}
			now[j] = min(changed, last[j]+1, now[j-1]+1)
			if swapped(a, b, i, j) {
				now[j] = min(now[j], before[j-2]+1)
			}
			least = min(least, now[j])
		}
		if least >= limit {
			return limit
		}
		before, last = last, now
	}
	return last[len(b)]
}
