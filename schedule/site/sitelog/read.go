package sitelog

import (
	"bufio"
	"bytes"
	"errors"
	"io"
)

// Read reads the text of a log. It never fails: lines that are no events are
// set aside, in their order. The events come in the order of [Event.Before],
// each once.
func Read(text []byte) (events []Event, aside []Aside) {
	events, aside, _ = ReadFrom(bytes.NewReader(text)) // what is in memory can be read
	return events, aside
}

// ReadFrom is [Read] for a text that isn't in memory, and need not fit there beside its events.
// The error is that of the reader.
func ReadFrom(text io.ReadSeeker) (events []Event, aside []Aside, err error) {
	lines, err := countLines(text)
	if err != nil {
		return nil, nil, err
	}
	l := &log{parser: parser{names: make(names)}, events: make([]Event, 0, lines)}
	in := bufio.NewReaderSize(text, 64<<10)
	for number := 1; ; number++ {
		line, err := l.line(in)
		if err != nil && err != io.EOF {
			return nil, nil, err
		}
		l.take(number, bytes.TrimSuffix(line, []byte("\n")), err == nil)
		if err == io.EOF {
			return inOrder(l.events), l.aside, nil
		}
	}
}

// countLines is how many lines a text has, for as many events; it is at its beginning again then.
// Room for all is made once: where a list grows, the old one takes room beside the new.
func countLines(text io.ReadSeeker) (n int, err error) {
	block := make([]byte, 64<<10)
	for {
		read, err := text.Read(block)
		n += bytes.Count(block[:read], []byte("\n"))
		if err == io.EOF {
			_, err = text.Seek(0, io.SeekStart)
			return n + 1, err
		}
		if err != nil {
			return 0, err
		}
	}
}

// log is a log that is being read.
type log struct {
	parser
	events []Event
	aside  []Aside
	long   []byte // of a line that is longer than the reader's room
}

// line is the next line with its end. It holds until the next one is read.
func (l *log) line(in *bufio.Reader) ([]byte, error) {
	line, err := in.ReadSlice('\n')
	if err != bufio.ErrBufferFull {
		return line, err
	}
	for l.long = l.long[:0]; err == bufio.ErrBufferFull; line, err = in.ReadSlice('\n') {
		l.long = append(l.long, line...)
	}
	l.long = append(l.long, line...)
	return l.long, err
}

// take adds what a line says; whole is false for one without an end.
func (l *log) take(number int, line []byte, whole bool) {
	if len(bytes.TrimSpace(line)) == 0 {
		return
	}
	e, column, err := l.parse(line)
	if err == nil {
		l.events = append(l.events, e)
		return
	}
	if !whole {
		column, err = 1, errors.New("the line has no end: its writing was cut off")
	}
	l.aside = append(l.aside, Aside{Line: number, Column: column, Text: string(line), Why: err.Error(), Torn: !whole})
}

// names are texts that many events share, each kept once, as far as there is room: those of a
// build are some thousands.
type names map[string]string

// mostNames is how many names are kept.
const mostNames = 20_000

func (n names) of(text []byte) string {
	if known, ok := n[string(text)]; ok {
		return known
	}
	s := string(text)
	if n != nil && len(n) < mostNames {
		n[s] = s
	}
	return s
}
