package said

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// word is one word, number or sign of what was said.
type word struct {
	text     string // in lower case, without quotes
	from, to int    // where it stands in the text, in bytes
	quoted   bool
}

// mostWords is the longest saying that is read; more is a story, not a tick or a change.
const mostWords = 120

// words cuts a text into words. A number keeps what belongs to it ("1h30", "7.30", "6th",
// "4pm"), but a hyphen between numbers or weekdays stands alone; "slate's" is two words.
func words(text string) []word {
	var out []word
	for i := 0; i < len(text) && len(out) <= mostWords; {
		r, size := utf8.DecodeRuneInString(text[i:])
		from := i
		switch {
		case unicode.IsSpace(r):
			i += size
			continue
		case strings.ContainsRune(`"“”„`, r):
			if inside := quotedEnd(text[i+size:]); inside > 0 {
				out = append(out, word{strings.ToLower(text[i+size : i+size+inside]), from, i + size + inside, true})
				i += size + inside
				_, closing := utf8.DecodeRuneInString(text[i:])
				i += closing
				continue
			}
			i += size
		case isDigit(r) || r == '½':
			i += numberEnd(text[i:])
		case unicode.IsLetter(r):
			i += letters(text[i:])
		default:
			i += size
		}
		out = append(out, word{text: plain(text[from:i]), from: from, to: i})
	}
	return slices.Concat(parts(out)...)
}

// typed replaces signs by those of a typewriter.
var typed = strings.NewReplacer("’", "'", "‘", "'", "–", "-", "—", "-", "&", "and", "a.m.", "am", "p.m.", "pm")

// plain is a word in lower case, with the apostrophe and the dash of a typewriter.
func plain(s string) string {
	return typed.Replace(strings.ToLower(s))
}

// quotedEnd is how long the text up to the closing quote is; 0 when it is never closed
// or nothing stands in it.
func quotedEnd(text string) int {
	n := strings.IndexAny(text, `"“”`)
	if n < 0 || strings.TrimSpace(text[:n]) == "" {
		return 0
	}
	return n
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }

// numeral is a number as people write it: a date, or figures with signs between them and
// a unit behind.
var numeral = regexp.MustCompile(`^(?:\d{4}-\d{2}-\d{2}|[\d½]+(?:[:.,/]\d+)*½?[\pL]*[\d]*[\pL]*)`)

// numberEnd is how long the number at the beginning of a text is, with its unit.
func numberEnd(text string) int { return len(numeral.FindString(text)) }

// letters is how long the word at the beginning of a text is: letters and digits, with
// hyphens, underscores and apostrophes between them. "a.m." and "p.m." are words.
func letters(text string) int {
	for _, half := range [...]string{"a.m.", "p.m."} {
		if len(text) >= len(half) && strings.EqualFold(text[:len(half)], half) {
			return len(half)
		}
	}
	end := 0
	for i, r := range text {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			end = i + utf8.RuneLen(r)
		} else if !strings.ContainsRune("-_'’", r) || i != end {
			break
		}
	}
	return end
}

// parts splits the words that are two: "slate's", "wed-fri".
func parts(list []word) [][]word {
	out := make([][]word, len(list))
	for i, w := range list {
		out[i] = []word{w}
		if w.quoted {
			continue
		}
		if first, last, ok := strings.Cut(w.text, "-"); ok && isWeekday(first) && isWeekday(last) {
			mid := w.from + len(first)
			out[i] = []word{{first, w.from, mid, false}, {"-", mid, mid + 1, false}, {last, mid + 1, w.to, false}}
		} else if owner, ok := strings.CutSuffix(w.text, "'s"); ok && owner != "" {
			out[i] = []word{{owner, w.from, w.from + len(owner), false}, {"'s", w.to - len("s"), w.to, false}}
		}
	}
	return out
}
