package wording

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"build.example/turflast/calendars"
)

// Capital is a clause with a capital first letter, to begin a sentence.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// lower is a sentence with a small first letter, to follow a colon. Its first letter
// must be ASCII.
func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// Count is a number with the word for what it counts, one for 1 and more for any other.
func Count(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// AndMore ends a list that is cut short: "And 5 more, less often." How, if not empty,
// says what the rest are.
func AndMore(rest int, how string) string {
	if how != "" {
		how = ", " + how
	}
	return fmt.Sprintf("And %d more%s.", rest, how)
}

// elapsed is the time on the clock from one moment to a later one.
func elapsed(from, to calendars.Instant) string { return clock(calendars.Minutes(to - from)) }

// apart is how much later or earlier a moment is than another, on the clock.
func apart(was, now calendars.Instant) string {
	if now < was {
		return elapsed(now, was) + " earlier"
	}
	return elapsed(was, now) + " later"
}
