package wall

import (
	"strings"

	"github.com/mattn/go-runewidth"

	"build.example/turflast/schedule/show/page"
)

// widths are those of Helvetica's characters, from the blank on, in thousandths of the size
// (Adobe's metrics of the base fonts, from memory). Arial and Liberation Sans have the same.
var widths = [...]int16{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
	556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
	1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
	667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
	333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
	556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
}

// A bold character takes boldFactor of a plain one's width. Characters that aren't in widths
// are taken as wide as the widest of their kind.
const (
	boldFactor = 1.08
	otherWidth = 780
	wideWidth  = 1150
)

// font is a size in millimetres, and a weight.
type font struct {
	size float64
	bold bool
}

// width is how wide a clean text is; sure is false where that is a guess on the safe side.
func (f font) width(s string) (mm float64, sure bool) {
	n, sure := 0, true
	for _, r := range s {
		switch i := int(r) - ' '; {
		case i >= 0 && i < len(widths):
			n += int(widths[i])
		case r == '…':
			n += 1000
		case runewidth.RuneWidth(r) > 1:
			n, sure = n+wideWidth, false
		case runewidth.RuneWidth(r) == 1:
			n, sure = n+otherWidth, false
		}
	}
	mm = float64(n) * f.size / 1000
	if f.bold {
		mm *= boldFactor
	}
	return mm, sure
}

func (f font) wide(s string) float64 {
	mm, _ := f.width(s)
	return mm
}

// cut is a text, or as much of it as fits, cut at a word where one ends in its second half.
func (f font) cut(s string, room float64) string {
	if f.wide(s) <= room {
		return s
	}
	end := 0
	for i := range s {
		if f.wide(s[:i]+"…") > room {
			break
		}
		end = i
	}
	head := s[:end]
	if i := strings.LastIndexByte(head, ' '); i*2 > len(head) {
		head = head[:i]
	}
	if head = strings.TrimRight(head, " "); head == "" {
		return ""
	}
	return head + "…"
}

// day is the words of a date, or as many of them as fit.
func (f font) day(s string, room float64) string {
	for f.wide(s) > room {
		i := strings.LastIndexByte(s, ' ')
		if i < 0 {
			return ""
		}
		s = s[:i]
	}
	return s
}

// wrap breaks a text into lines that fit, at most so many. What is too long is cut.
func (f font) wrap(s string, room float64, most int) (lines []string) {
	line := ""
	words := page.Words(s)
	for i, word := range words {
		longer := strings.TrimPrefix(line+" "+word, " ")
		switch {
		case line == "" || f.wide(longer) <= room:
			line = longer
		case len(lines)+1 == most:
			return append(lines, f.cut(line+" "+strings.Join(words[i:], " "), room))
		default:
			lines, line = append(lines, f.cut(line, room)), word
		}
	}
	if line != "" {
		lines = append(lines, f.cut(line, room))
	}
	return lines
}

// clean is a text as far as it may stand on a picture.
func clean(s string) string {
	return strings.TrimSpace(strings.ToValidUTF8(page.Harmless(s), ""))
}
