package instances

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// Fault is an error in a file, with its line.
type Fault struct {
	Line int // from 1; the last one when something is missing at the end
	Text string
}

func (f *Fault) Error() string { return fmt.Sprintf("line %d: %s", f.Line, f.Text) }

// most is the largest number read, and the most activities and lines.
const most = 1 << 20

// line is one line of text with the number it has in its file.
type line struct {
	number int
	text   string
}

func (l line) fault(format string, args ...any) error {
	return &Fault{l.number, fmt.Sprintf(format, args...)}
}

// readLines returns the lines that aren't blank and the number of the last line.
func readLines(r io.Reader) (lines []line, last int, err error) {
	s := bufio.NewScanner(r)
	s.Buffer(nil, most)
	for s.Scan() {
		last++
		if last > most {
			return nil, last, &Fault{last, "there are too many lines"}
		}
		if text := strings.TrimSpace(s.Text()); text != "" {
			lines = append(lines, line{last, text})
		}
	}
	if err := s.Err(); err != nil {
		return nil, last, &Fault{last + 1, err.Error()}
	}
	return lines, last, nil
}

// whole reads a whole number, negative or not.
func (l line) whole(word string) (int, error) {
	n, err := strconv.Atoi(word)
	if err != nil || n < -most || n > most {
		return 0, l.fault("%q is no whole number up to %d", word, most)
	}
	return n, nil
}

// wholes reads the whole numbers of a line.
func (l line) wholes() ([]int, error) {
	words := strings.Fields(l.text)
	row := make([]int, len(words))
	for i, w := range words {
		n, err := l.whole(w)
		if err != nil {
			return nil, err
		}
		row[i] = n
	}
	return row, nil
}
