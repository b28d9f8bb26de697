package pasted

import (
	"bytes"
	"encoding/binary"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// The most that a table may hold. More is no list of tasks for one window.
const (
	mostBytes   = 4 << 20
	mostRows    = 2_000
	mostColumns = 60
	mostCell    = 500 // characters
)

// Refused is the error for a text that is no table, or one that can't be taken as it is.
type Refused struct {
	Row    int    // line of the text, from 1; 0 for the whole
	Column int    // from 1; 0 for the whole row
	Text   string // what is wrong
	Hint   string // what to do
}

func (e *Refused) Error() string {
	at := ""
	if e.Row > 0 {
		at = fmt.Sprintf("row %d", e.Row)
	}
	if e.Column > 0 {
		at += fmt.Sprintf(", column %d", e.Column)
	}
	if at != "" {
		at += ": "
	}
	return at + e.Text + "; " + e.Hint
}

// line is one row of a table as it stands in the text.
type line struct {
	row   int // line of the text, from 1
	cells []string
}

// decode is a text in UTF-8; UTF-16 is known by its byte order mark.
func decode(data []byte) (string, error) {
	if len(data) > mostBytes {
		return "", &Refused{Text: "it is larger than 4 MiB", Hint: "a table of tasks is a few pages; is it another file?"}
	}
	for mark, order := range map[string]binary.ByteOrder{"\xff\xfe": binary.LittleEndian, "\xfe\xff": binary.BigEndian} {
		rest, wide := bytes.CutPrefix(data, []byte(mark))
		if !wide {
			continue
		}
		if len(rest)%2 != 0 {
			return "", &Refused{Text: "it is UTF-16 text cut short", Hint: "save it as CSV in UTF-8"}
		}
		units := make([]uint16, len(rest)/2)
		for i := range units {
			units[i] = order.Uint16(rest[2*i:])
		}
		data = []byte(string(utf16.Decode(units)))
	}
	text := strings.TrimPrefix(string(data), "\uFEFF")
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u00a0", " ", "\u202f", " ").Replace(text)
	return text, clean(text)
}

// clean refuses what no person wrote, with its place.
func clean(text string) error {
	row, column := 1, 0
	for i, r := range text {
		if column++; r == '\n' {
			row, column = row+1, 0
			continue
		}
		if r >= ' ' && r < 0x7f {
			continue
		}
		what := ""
		_, size := utf8.DecodeRuneInString(text[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			what = "a byte that is no UTF-8 text"
		case r == utf8.RuneError:
			what = "a character that was lost before (U+FFFD)"
		case r == 0:
			what = "a zero byte"
		case r != '\t' && unicode.IsControl(r), unicode.Is(unicode.Cf, r), r == '\u2028', r == '\u2029',
			unicode.Is(unicode.Co, r):
			what = fmt.Sprintf("a character that can't be seen (U+%04X)", r)
		}
		if what != "" {
			return &Refused{Row: row, Text: fmt.Sprintf("%s, character %d of the row", what, column),
				Hint: "save the table as CSV in UTF-8, or take it out"}
		}
	}
	return nil
}

// separators are what may stand between cells; 0 is a run of spaces.
var separators = []rune{'\t', ';', ',', '|', 0}

// lines cuts a text into rows of cells.
func lines(text string, separator rune) ([]line, error) {
	if separator == 0 {
		return spaced(text), nil
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = separator, true, -1
	r.TrimLeadingSpace = separator != '\t'
	var out []line
	for {
		cells, err := r.Read()
		switch {
		case errors.Is(err, io.EOF):
			return out, nil
		case err != nil:
			var at *csv.ParseError
			if errors.As(err, &at) {
				return nil, &Refused{Row: at.StartLine, Text: "a quote isn't closed", Hint: "close it, or take it out"}
			}
			return nil, &Refused{Text: err.Error(), Hint: "save the table as CSV in UTF-8"}
		}
		row, _ := r.FieldPos(0)
		if separator == '|' {
			cells = barred(cells)
		}
		if cells != nil {
			out = append(out, line{row, cells})
		}
		if len(out) > mostRows {
			return nil, &Refused{Row: row, Text: fmt.Sprintf("it has more than %d rows", mostRows),
				Hint: "a plan is one window: split it, or is it another table?"}
		}
	}
}

// barred are the cells of a row between bars; nil for the rule under the headings.
func barred(cells []string) []string {
	if len(cells) > 0 && strings.TrimSpace(cells[0]) == "" {
		cells = cells[1:]
	}
	if n := len(cells); n > 0 && strings.TrimSpace(cells[n-1]) == "" {
		cells = cells[:n-1]
	}
	if strings.Trim(strings.Join(cells, ""), " -:") == "" {
		return nil
	}
	return cells
}

// gap is what stands between cells in text that is aligned by spaces.
var gap = regexp.MustCompile(`\s{2,}`)

func spaced(text string) (out []line) {
	row := 0
	for l := range strings.Lines(text) {
		if row++; strings.TrimSpace(l) != "" && len(out) <= mostRows {
			out = append(out, line{row, gap.Split(strings.TrimSpace(l), -1)})
		}
	}
	return out
}

// tidy makes every cell one line, and refuses those that no table of tasks has.
func tidy(all []line) error {
	for _, l := range all {
		if len(l.cells) > mostColumns {
			return &Refused{Row: l.row, Text: fmt.Sprintf("it has more than %d columns", mostColumns),
				Hint: "leave out what is no column of tasks"}
		}
		for k, cell := range l.cells {
			cell = strings.Join(strings.Fields(strings.ReplaceAll(cell, "\n", ", ")), " ")
			l.cells[k] = cell
			switch {
			case utf8.RuneCountInString(cell) > mostCell:
				return &Refused{l.row, k + 1, fmt.Sprintf("a cell has more than %d characters", mostCell),
					"shorten it; is a quote open before it?"}
			case formula.MatchString(cell):
				return &Refused{l.row, k + 1, fmt.Sprintf("a formula, %.40q", cell),
					"copy what it shows and not the formula"}
			case failed.MatchString(cell):
				return &Refused{l.row, k + 1, fmt.Sprintf("an error of the spreadsheet, %q", cell), "mend it there"}
			}
		}
	}
	return nil
}

var (
	formula = regexp.MustCompile(`^'?[=@]|^'?[+-]\s*[A-Za-z]+[0-9]*\s*[(!:*/+]|^'?[+-]\s*[A-Za-z]{1,3}[0-9]+$`)
	failed  = regexp.MustCompile(`^#(REF!|N/A|VALUE!|NAME\?|DIV/0!|NUM!|NULL!)$`)
)
