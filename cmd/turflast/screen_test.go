package main_test

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/charmbracelet/lipgloss"
)

// screen is as much of a terminal as a test needs: it holds the text that a
// user would see, without colours.
type screen struct {
	cols, rows int
	cells      [][]string // one character each; "" right of a wide one
	x, y       int
	alternate  bool
	rest       []byte // the start of a sequence whose end has not come
}

func newScreen(cols, rows int) *screen {
	s := &screen{}
	s.resize(cols, rows)
	return s
}

func (s *screen) resize(cols, rows int) {
	s.cols, s.rows = cols, rows
	s.cells = make([][]string, rows)
	for y := range s.cells {
		s.cells[y] = slices.Repeat([]string{" "}, cols)
	}
	s.x, s.y = min(s.x, cols-1), min(s.y, rows-1)
}

// String is the text of the screen, a line each, without blanks at line ends.
func (s *screen) String() string {
	lines := make([]string, s.rows)
	for y, row := range s.cells {
		lines[y] = strings.TrimRight(strings.Join(row, ""), " ")
	}
	return strings.Join(lines, "\n")
}

// Write shows what a command writes.
func (s *screen) Write(p []byte) {
	in := append(s.rest, p...)
	for len(in) > 0 {
		n := s.step(in)
		if n == 0 {
			break
		}
		in = in[n:]
	}
	s.rest = slices.Clone(in)
}

// step takes one character or sequence off the input and returns its length, or
// 0 when its end has not come yet.
func (s *screen) step(in []byte) int {
	switch in[0] {
	case 0x1b:
		return s.escape(in)
	case '\r':
		s.x = 0
	case '\n':
		s.down()
	case '\b':
		s.x = max(0, s.x-1)
	case '\t':
		s.x = min(s.cols-1, s.x/8*8+8)
	default:
		if in[0] < ' ' {
			return 1
		}
		if !utf8.FullRune(in) {
			return 0
		}
		r, n := utf8.DecodeRune(in)
		s.put(string(r))
		return n
	}
	return 1
}

func (s *screen) down() {
	if s.y++; s.y < s.rows {
		return
	}
	s.y = s.rows - 1
	s.cells = append(s.cells[1:], slices.Repeat([]string{" "}, s.cols))
}

func (s *screen) put(char string) {
	w := lipgloss.Width(char)
	if w == 0 {
		return
	}
	if s.x+w > s.cols {
		s.x = 0
		s.down()
	}
	s.cells[s.y][s.x] = char
	if w == 2 {
		s.cells[s.y][s.x+1] = ""
	}
	s.x += w
}

// escape takes a control sequence.
func (s *screen) escape(in []byte) int {
	if len(in) < 2 {
		return 0
	}
	switch in[1] {
	case '[':
		end := slices.IndexFunc(in[2:], func(b byte) bool { return b >= '@' && b <= '~' })
		if end < 0 {
			return 0
		}
		s.control(string(in[2:2+end]), in[2+end])
		return end + 3
	case ']', 'P', '_', '^':
		for i := 2; i < len(in); i++ {
			if in[i] == '\a' {
				return i + 1
			}
			if in[i] == '\\' && in[i-1] == 0x1b {
				return i + 1
			}
		}
		return 0
	case '(', ')':
		return min(3, len(in))
	}
	return 2
}

// control moves the cursor or clears; sequences for colours and modes change
// nothing.
func (s *screen) control(args string, final byte) {
	first, second := 0, 0
	a, b, _ := strings.Cut(args, ";")
	first, second = number(a), number(b)
	switch final {
	case 'A':
		s.y = max(0, s.y-max(1, first))
	case 'B':
		s.y = min(s.rows-1, s.y+max(1, first))
	case 'C':
		s.x = min(s.cols-1, s.x+max(1, first))
	case 'D':
		s.x = max(0, min(s.x, s.cols-1)-max(1, first))
	case 'G':
		s.x = min(s.cols, max(1, first)) - 1
	case 'H', 'f':
		s.y, s.x = min(s.rows, max(1, first))-1, min(s.cols, max(1, second))-1
	case 'J':
		s.clear(first)
	case 'K':
		s.clearLine(first)
	case 'h', 'l':
		if args == "?1049" {
			s.alternate = final == 'h'
			s.clear(2)
			s.x, s.y = 0, 0
		}
	}
}

func number(s string) int {
	n := 0
	for _, r := range s {
		if r < '0' || r > '9' {
			return 0
		}
		n = 10*n + int(r-'0')
	}
	return n
}

func (s *screen) clear(how int) {
	switch how {
	case 0:
		s.clearLine(0)
		s.blank(s.y+1, s.rows)
	case 1:
		s.clearLine(1)
		s.blank(0, s.y)
	default:
		s.blank(0, s.rows)
	}
}

func (s *screen) blank(from, to int) {
	for y := from; y < to; y++ {
		s.cells[y] = slices.Repeat([]string{" "}, s.cols)
	}
}

func (s *screen) clearLine(how int) {
	from, to := min(s.x, s.cols), s.cols
	switch how {
	case 1:
		from, to = 0, min(s.x+1, s.cols)
	case 2:
		from = 0
	}
	for x := from; x < to; x++ {
		s.cells[s.y][x] = " "
	}
}

func TestScreen(t *testing.T) {
	tests := []struct{ in, want string }{
		{"one\r\ntwo", "one\ntwo\n"},
		{"\x1b[31mred\x1b[0m ok", "red ok\n\n"},
		{"abcdefghij", "abcdefgh\nij\n"},
		{"abcdefgh\r\nij", "abcdefgh\nij\n"},
		{"a\r\nb\r\nc\r\nd", "b\nc\nd"},
		{"old\r\nold\x1b[1A\rnew\x1b[K\x1b[2;2Hx", "new\noxd\n"},
		{"left\x1b[?1049h\x1b[2J\x1b[Hin", "in\n\n"},
		{"\x1b]0;title\aok\x1b]2;t\x1b\\!", "ok!\n\n"},
		{"日本x", "日本x\n\n"},
		{"abc\x1b[2Dx\x1b[J", "ax\n\n"},
	}
	for _, test := range tests {
		for _, cut := range []int{len(test.in), 1, 3} {
			s := newScreen(8, 3)
			for rest := []byte(test.in); len(rest) > 0; {
				n := min(cut, len(rest))
				s.Write(rest[:n])
				rest = rest[n:]
			}
			if got := s.String(); got != test.want {
				t.Errorf("%q in pieces of %d shows %q, want %q", test.in, cut, got, test.want)
			}
		}
	}
}
