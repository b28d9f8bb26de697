package draw

import "golang.org/x/text/unicode/norm"

// asciiMarks stand for the marks on a terminal that shows ASCII alone. One that lies on a
// line keeps its direction; what is work stays heavier than what waits.
var asciiMarks = map[string]string{
	markChain: "#", markWork: "=", markBeyond: "%", markPause: "-", markCure: ".", markFloat: "-", markGone: ".",
	markMore: ">", markHold: "o", markSigned: "*", markTicked: "x", markInHand: ">", markIn: "v", markOut: "^",
	markLater: ">", markSooner: "<", markAgreed: "[", markUntil: "]", markNow: ":", markLine: "|", markAim: ":",
	markSeam: ".", markOpen: "=", markTrace: "|", markGap: "-", "▽": "v", "△": "^", "┐": "+", "┘": "+", "┏": "+",
	"┓": "+", "┗": "+", "┛": "+", "┣": "+", "┫": "+", "╺": "-", "╸": "-", "╻": "|", "╹": "|",
	"…": "~", "←": "<", "↑": "^", "↓": "v", "–": "-", "—": "-", "×": "x", "≤": "<", "≥": ">",
	markMissing: "o", "▁": "_", "⌫": "<", "⇧": "^",
	"’": "'", "‘": "'", "“": "\"", "”": "\"", "²": "2", "³": "3", "½": "h",
}

// asciiFor returns what stands for a cell's character on a terminal that shows ASCII alone,
// as wide as it: a mark's own, a letter without its accents, or a question mark.
func asciiFor(c cell) string {
	if c.text[0] < 0x80 {
		return c.text[:1]
	}
	if mark, ok := asciiMarks[c.text]; ok {
		return mark
	}
	stand := "?"
	if letter := norm.NFD.String(c.text); letter[0] < 0x80 {
		stand = letter[:1]
	}
	if c.wide {
		stand += " "
	}
	return stand
}
