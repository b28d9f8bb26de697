// Package picture draws a frame of the terminal UI as SVG, so that it can be looked at, and
// shown, without a terminal.
package picture

import (
	"fmt"
	"html"
	"strconv"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"build.example/turflast/tui/draw"
)

// A cell's width and height, and where its words stand, in pixels.
const (
	cellWidth  = 9
	cellHeight = 18
	baseline   = 14
	fontSize   = 15
)

// pen is how characters are drawn: colours in hexadecimal, empty for the terminal's own.
type pen struct {
	words, ground                  string
	bold, faint, underlined, swaps bool
}

// screen is the terminal: the colours of its words and its ground.
type screen struct{ words, ground, faint string }

// SVG draws a frame, with its escape sequences, on a dark or a light terminal.
func SVG(frame string, s draw.Size, light bool) string {
	on := screen{"#d4d4d8", "#18181c", "#8c8c92"}
	if light {
		on = screen{"#1c1c20", "#fdfdfb", "#77777d"}
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%[1]d" height="%d" `+
		`font-family="DejaVu Sans Mono, monospace" font-size="%d" xml:space="preserve">`+"\n",
		(s.Width+1)*cellWidth, (s.Height+1)*cellHeight, fontSize)
	fmt.Fprintf(&b, `<rect width="100%%" height="100%%" fill="%s"/>`+"\n", on.ground)
	for y, line := range strings.Split(frame, "\n") {
		on.line(&b, y, line)
	}
	b.WriteString("</svg>\n")
	return b.String()
}

// line draws a line of a frame, a run of one pen after the other.
func (on screen) line(b *strings.Builder, y int, line string) {
	var p pen
	x := 0
	for line != "" {
		if rest, ok := strings.CutPrefix(line, "\x1b["); ok {
			codes, after, _ := strings.Cut(rest, "m")
			p, line = p.set(strings.Split(codes, ";")), after
			continue
		}
		run, rest := line, ""
		if i := strings.IndexByte(line, '\x1b'); i >= 0 {
			run, rest = line[:i], line[i:]
		}
		on.run(b, x, y, run, p)
		x, line = x+ansi.StringWidth(run), rest
	}
}

// run draws characters of one pen from column x on.
func (on screen) run(b *strings.Builder, x, y int, text string, p pen) {
	words, ground := p.words, p.ground
	if words == "" {
		words = on.words
	}
	if p.faint {
		words = on.faint
	}
	if p.swaps {
		if ground == "" {
			ground = on.ground
		}
		words, ground = ground, words
	}
	left, top, width := x*cellWidth+cellWidth/2, y*cellHeight+cellHeight/2, ansi.StringWidth(text)*cellWidth
	if ground != "" {
		fmt.Fprintf(b, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`, left, top, width, cellHeight, ground)
	}
	if p.underlined {
		fmt.Fprintf(b, `<rect x="%d" y="%d" width="%d" height="1" fill="%s"/>`, left, top+cellHeight-2, width, words)
	}
	if strings.TrimSpace(text) == "" {
		b.WriteByte('\n')
		return
	}
	bold := ""
	if p.bold {
		bold = ` font-weight="bold"`
	}
	fmt.Fprintf(b, `<text x="%d" y="%d" textLength="%d" fill="%s"%s>%s</text>`+"\n",
		left, top+baseline, width, words, bold, html.EscapeString(text))
}

// set returns the pen after the parameters of an escape sequence.
func (p pen) set(codes []string) pen {
	for len(codes) > 0 {
		n, _ := strconv.Atoi(codes[0])
		codes = codes[1:]
		switch n {
		case 0:
			p = pen{}
		case 1:
			p.bold = true
		case 2:
			p.faint = true
		case 4:
			p.underlined = true
		case 7:
			p.swaps = true
		case 38:
			p.words, codes = extended(codes)
		case 48:
			p.ground, codes = extended(codes)
		default:
			p = p.ofSixteen(n)
		}
	}
	return p
}

// ofSixteen sets one of the sixteen colours: words 30 to 37 and, bright, 90 to 97; grounds 40
// to 47.
func (p pen) ofSixteen(n int) pen {
	switch {
	case n >= 30 && n < 38:
		p.words = sixteen[n-30]
	case n >= 90 && n < 98:
		p.words = sixteen[n-90+8]
	case n >= 40 && n < 48:
		p.ground = sixteen[n-40]
	}
	return p
}

// extended reads a colour of 256 or of all, and returns the parameters after it.
func extended(codes []string) (string, []string) {
	at := func(i int) int {
		n, _ := strconv.Atoi(codes[i])
		return n
	}
	switch {
	case len(codes) >= 4 && codes[0] == "2":
		return fmt.Sprintf("#%02x%02x%02x", at(1), at(2), at(3)), codes[4:]
	case len(codes) >= 2 && codes[0] == "5":
		r, g, b := Indexed(uint8(at(1)))
		return fmt.Sprintf("#%02x%02x%02x", r, g, b), codes[2:]
	}
	return "", nil
}

// Indexed returns the colour that terminals show for one of 256 from 16 on: a cube of six
// steps, then 24 greys (as xterm has them; from memory).
func Indexed(n uint8) (r, g, b uint8) {
	if n >= 232 {
		v := 8 + 10*(n-232)
		return v, v, v
	}
	step := func(k uint8) uint8 {
		if k == 0 {
			return 0
		}
		return 55 + 40*k
	}
	n -= 16
	return step(n / 36), step(n / 6 % 6), step(n % 6)
}

// sixteen are usual colours of a terminal that has so many.
var sixteen = [16]string{"#000000", "#c93b3b", "#3fa34d", "#b58900", "#3b6fd1", "#a14fb5", "#2aa1b3", "#c8c8c8",
	"#707070", "#ef5b5b", "#5fd068", "#e5c34a", "#6f9cf0", "#c97be0", "#5cc8d8", "#ffffff"}
