package planfile

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// plain is a scalar written without quotes on one line: numbers, times, names.
func (r *reader) plain(n *yaml.Node, of label) (string, bool) {
	if !r.isKind(n, yaml.ScalarNode, of) {
		return "", false
	}
	switch {
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		r.fault(posOf(n), "write it behind the key", "%s is block text: %s", of, quote(n.Value))
		return "", false
	case n.Style != 0:
		r.fault(posOf(n), "take them off", "%s is in quotes: %s", of, quote(n.Value))
		return "", false
	case isEmpty(n):
		r.fault(posOf(n), "give it a value or take out the key", "%s is empty", of)
		return "", false
	case r.spread(n):
		r.fault(posOf(n), "write it on one line", "%s runs on over several lines: %s", of, quote(n.Value))
		return "", false
	case r.holed(n):
		return "", false
	}
	return n.Value, true
}

// spread says whether plain text is read otherwise than it stands in the file:
// YAML joins the lines of text that runs on.
func (r *reader) spread(n *yaml.Node) bool {
	if !strings.Contains(n.Value, " ") {
		return false
	}
	rest, ok := r.src.from(posOf(n))
	return ok && !strings.HasPrefix(rest, n.Value)
}

// holed says whether a refused character was taken out of a scalar; that has
// been reported.
func (r *reader) holed(n *yaml.Node) bool {
	return r.src.patched && strings.ContainsRune(n.Value, hole)
}

// words is text for people, in any style, made one line; most is its greatest
// length in characters.
func (r *reader) words(n *yaml.Node, most int, of label) string {
	if !r.isKind(n, yaml.ScalarNode, of) || r.holed(n) {
		return ""
	}
	s := n.Value
	switch {
	case isEmpty(n), strings.TrimSpace(s) == "":
		r.fault(posOf(n), "give it a value or take out the key", "%s is empty", of)
		return ""
	case n.Style == 0 && isNull(s):
		r.fault(posOf(n), "give it a value, put it in quotes or take out the key",
			"%s: %s stands for nothing in YAML", of, quote(s))
		return ""
	case n.Style == 0 && r.spread(n):
		r.fault(posOf(n), "put it on one line, in quotes, or below a >", "%s runs on over several lines: %s", of, quote(s))
		return ""
	}
	if n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		s = strings.Join(strings.Fields(s), " ")
	}
	if name := hidden(s); name != "" {
		r.fault(posOf(n), "take it out", "%s holds %s", of, name)
		return ""
	}
	if utf8.RuneCountInString(s) > most {
		r.fault(posOf(n), fmt.Sprintf("%d characters are the most", most), "%s is too long: %s", of, quote(s))
		return ""
	}
	return strings.TrimSpace(s)
}

// hidden names the first character of text that no plan may hold, which an
// escape can put in; "" when there is none.
func hidden(s string) string {
	for _, c := range s {
		if c == '\t' {
			return "a tab"
		}
		if name := refused(c, utf8.RuneLen(c)); name != "" {
			return name
		}
	}
	return ""
}

func isNull(s string) bool { return s == "~" || s == "null" || s == "Null" || s == "NULL" }

// words is the text for people of a key.
func (it *item) words(key string, most int) string {
	return it.r.words(it.get(key), most, it.of(key))
}

// flag is a value that is true or false; false when missing.
func (it *item) flag(key string) bool {
	n := it.get(key)
	s, ok := it.r.plain(n, it.of(key))
	if !ok {
		return false
	}
	if s != "true" && s != "false" {
		it.r.fault(posOf(n), "write true or false", "%s: %s is neither true nor false", it.of(key), quote(s))
	}
	return s == "true"
}

// count is a whole number from least to maxCount; -1 when it is missing or
// faulty.
func (r *reader) count(n *yaml.Node, least int, of label) int {
	s, ok := r.plain(n, of)
	if !ok {
		return -1
	}
	c, fault := parseCount(s, least)
	if fault != nil {
		r.textFault(posOf(n), of, fault)
		return -1
	}
	return c
}

func (it *item) count(key string, least int) int {
	return it.r.count(it.get(key), least, it.of(key))
}

// parseCount reads digits without sign, point or leading zero.
func parseCount(s string, least int) (int, error) {
	bad := func(problem, hint string) (int, error) {
		return 0, &calendars.TextError{Text: s, Problem: problem, Hint: hint}
	}
	if !allDigits(s) {
		return bad("is not a whole number", "write digits alone, like 4")
	}
	if len(s) > 1 && s[0] == '0' {
		return bad("has a needless zero in front", "write it without")
	}
	c, err := strconv.Atoi(s)
	switch {
	case err != nil || c > maxCount:
		return bad("is too large", fmt.Sprintf("%d is the most", maxCount))
	case c < least:
		return bad("is too small", fmt.Sprintf("%d is the least", least))
	}
	return c, nil
}

func allDigits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// decimal is a number Num/Den with at most three places.
type decimal struct{ num, den int64 }

// parseDecimal reads digits, and after a point one to three more.
func parseDecimal(s string, most int64) (decimal, error) {
	bad := func(problem, hint string) (decimal, error) {
		return decimal{}, &calendars.TextError{Text: s, Problem: problem, Hint: hint}
	}
	whole, part, point := strings.Cut(s, ".")
	switch {
	case !allDigits(whole) || point && !allDigits(part):
		return bad("is not a number", "write digits, with a point before decimals, like 4 or 4.5")
	case len(whole) > 1 && whole[0] == '0':
		return bad("has a needless zero in front", "write it without")
	case len(part) > 3:
		return bad("has more than three decimals", "round it")
	}
	n, err := strconv.ParseInt(whole, 10, 64)
	if err != nil || n > most || n == most && strings.Trim(part, "0") != "" {
		return bad("is too large", fmt.Sprintf("%d is the most", most))
	}
	d := decimal{n, 1}
	for _, c := range part {
		d.num, d.den = 10*d.num+int64(c-'0'), 10*d.den
	}
	return d, nil
}

// chance is a number from 0 to 1.
func (it *item) chance(key string) float64 {
	n := it.get(key)
	s, ok := it.r.plain(n, it.of(key))
	if !ok {
		return 0
	}
	d, err := parseDecimal(s, 1)
	if err != nil {
		if e := textError(err); e.Problem == "is too large" {
			err = &calendars.TextError{Text: s, Problem: "is no chance", Hint: "chances run from 0 to 1, like 0.3"}
		}
		it.r.textFault(posOf(n), it.of(key), err)
		return 0
	}
	return float64(d.num) / float64(d.den)
}

// money is an amount with at most two decimals; -1 when missing or faulty.
func (it *item) money(key string) schedule.Money {
	n := it.get(key)
	s, ok := it.r.plain(n, it.of(key))
	if !ok {
		return -1
	}
	d, err := parseDecimal(s, maxMoney)
	if err == nil && d.den > 100 {
		err = &calendars.TextError{Text: s, Problem: "has more than two decimals", Hint: "round it to hundredths"}
	}
	if err != nil {
		it.r.textFault(posOf(n), it.of(key), err)
		return -1
	}
	return schedule.Money(d.num * (100 / d.den))
}

// textFault reports a fault found in a piece of text.
func (r *reader) textFault(at schedule.Pos, of label, err error) {
	e := textError(err)
	r.fault(at, e.Hint, "%s: %s %s", of, quote(e.Text), e.Problem)
}

func textError(err error) *calendars.TextError {
	var e *calendars.TextError
	if !errors.As(err, &e) {
		return &calendars.TextError{Problem: err.Error()}
	}
	return e
}

// isWordOfYAML says whether YAML takes text for a value of its own: what uses such an id
// would name nothing to programs that read the file.
func isWordOfYAML(s string) bool { return isNull(s) || s == "true" || s == "false" }

// isWord says whether s is letters and digits.
func isWord(s string) bool {
	for _, c := range s {
		if !unicode.IsLetter(c) && !unicode.IsNumber(c) {
			return false
		}
	}
	return s != ""
}
