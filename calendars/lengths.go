package calendars

import (
	"errors"
	"fmt"
	"strings"
)

// Longest is the most that a length of time in a plan may be: a year of 52
// weeks.
const Longest = 52 * Week

// ParseWork reads a length of work: whole minutes or hours, "30m" or "4h", or
// both, "7h30m", where the minutes are 1 to 59. It may be 0 and at most
// [Longest]. Errors are of type *TextError.
func ParseWork(text string) (Minutes, error) {
	if strings.HasSuffix(text, "d") || strings.HasSuffix(text, "w") {
		if _, err := ParseWait(text); err == nil {
			return 0, &TextError{text, "is a wait on the clock, not working time",
				"give working time in m and h, like 30m, 4h or 7h30m"}
		}
	}
	return parseLength(text, "mh", "write a whole number of m or h, like 30m, 4h or 7h30m")
}

// ParseLag reads a length of work that may be negative, a lead: "2h", "-30m".
// Errors are of type *TextError.
func ParseLag(text string) (Minutes, error) {
	rest, negative := strings.CutPrefix(text, "-")
	if !negative {
		return ParseWork(text)
	}
	if strings.HasPrefix(rest, "-") {
		return 0, &TextError{text, "is not a length of time", "write one minus for a lead, like -30m"}
	}
	m, err := ParseWork(rest)
	if e := (*TextError)(nil); errors.As(err, &e) {
		return 0, &TextError{text, e.Problem, e.Hint}
	}
	if m == 0 {
		return 0, &TextError{text, "is a lead of nothing", "write " + rest}
	}
	return -m, nil
}

// ParseWait reads a wait on the clock: as [ParseWork], or whole days of 24 hours
// or weeks, "2d" or "6w". Errors are of type *TextError.
func ParseWait(text string) (Minutes, error) {
	return parseLength(text, "mhdw", "write a whole number of m, h, d or w, like 30m, 7h30m, 2d or 6w")
}

// FormatWait writes a length, 0 or more, in one form that [ParseWait] reads and,
// as it uses only m and h, [ParseWork] too.
func FormatWait(m Minutes) string {
	switch {
	case m >= Hour && m%Hour == 0:
		return fmt.Sprintf("%dh", m/Hour)
	case m > Hour:
		return fmt.Sprintf("%dh%dm", m/Hour, m%Hour)
	}
	return fmt.Sprintf("%dm", m)
}

func parseLength(text, units, hint string) (Minutes, error) {
	if rest, negative := strings.CutPrefix(text, "-"); negative && !strings.HasPrefix(rest, "-") {
		if _, err := parseLength(rest, units, hint); err == nil {
			return 0, &TextError{text, "is negative", "write a length of 0m or more"}
		}
	}
	first, minutes, both := strings.Cut(text, "h")
	if !both || minutes == "" {
		m, problem := oneUnit(text, units)
		if problem != "" {
			return 0, &TextError{text, problem, hint}
		}
		return atMost(text, m)
	}
	hours, problem := oneUnit(first+"h", units)
	if problem != "" {
		return 0, &TextError{text, problem, hint}
	}
	rest, problem := oneUnit(minutes, "m")
	switch {
	case problem != "":
		return 0, &TextError{text, problem, hint}
	case rest < 1 || rest > 59 || hours == 0:
		return 0, &TextError{text, "mixes hours and minutes oddly", "beside hours give 1 to 59 minutes, or minutes alone"}
	}
	return atMost(text, hours+rest)
}

// noLength says that a text is nothing like a length.
const noLength = "is not a length of time"

// oneUnit reads a number and its unit. The result is not checked and may be
// above Longest.
func oneUnit(text, units string) (Minutes, string) {
	if text == "" {
		return 0, noLength
	}
	number, unit := text[:len(text)-1], text[len(text)-1]
	if strings.IndexByte(units, unit) < 0 {
		if digits(text) >= 0 {
			return 0, "lacks its unit"
		}
		return 0, noLength
	}
	n, fault := count(number)
	if fault != "" {
		return 0, fault
	}
	each := map[byte]Minutes{'m': 1, 'h': Hour, 'd': Day, 'w': Week}[unit]
	if n > int(Longest/each) {
		return Longest + 1, ""
	}
	return Minutes(n) * each, ""
}

// count reads the number before a unit; a number with too many digits is read
// as one above Longest.
func count(number string) (int, string) {
	n := digits(number)
	switch {
	case n < 0 && strings.Trim(number, "0123456789") == "" && number != "":
		return int(Longest) + 1, ""
	case n < 0 && strings.Trim(number, "0123456789.,") == "" && strings.Trim(number, ".,") != "":
		return 0, "is not a whole number"
	case n < 0:
		return 0, noLength
	case len(number) > 1 && number[0] == '0':
		return 0, "has a needless zero in front"
	}
	return n, ""
}

func atMost(text string, m Minutes) (Minutes, error) {
	if m > Longest {
		return 0, &TextError{text, "is too long", "give 52w or less, that is 8736h"}
	}
	return m, nil
}
