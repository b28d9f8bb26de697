package sitelog

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Format is the newest form of a line that is read, and the one that is written. A line without
// the key format is of form 1, as all are so far: the lines of one log may be of several forms.
const Format = 1

// wire is an event as a line of the log.
type wire struct {
	Format   *int   `json:"format,omitempty"`
	ID       string `json:"id"`
	What     Kind   `json:"what"`
	At       string `json:"at"`
	Written  string `json:"written"`
	By       string `json:"by"`
	Task     string `json:"task,omitempty"`
	Delivery string `json:"delivery,omitempty"`
	Crew     string `json:"crew,omitempty"`
	Given    string `json:"given,omitempty"`
	Desk     string `json:"desk,omitempty"`
	Machine  string `json:"machine,omitempty"`
	Left     *int   `json:"left_minutes,omitempty"`
	Takes    *int   `json:"takes_minutes,omitempty"`
	To       string `json:"to,omitempty"`
	Was      string `json:"was,omitempty"`
	Date     string `json:"date,omitempty"`
	From     string `json:"from,omitempty"`
	Until    string `json:"until,omitempty"`
	People   *int   `json:"people,omitempty"`
	Text     string `json:"text,omitempty"`
	Of       string `json:"of,omitempty"`

	SignedBy string `json:"signed_by,omitempty"`
	Duty     string `json:"duty,omitempty"`
	Who      string `json:"who,omitempty"`
	Zone     string `json:"zone,omitempty"`
	After    string `json:"after,omitempty"`
	Before   string `json:"before,omitempty"`
}

// Line is the event as a line of the log, with its end; moments are on the
// clock of a location.
func (e *Event) Line(loc *time.Location) []byte {
	at := func(t calendars.Instant) string {
		if t == 0 {
			return ""
		}
		return t.RFC3339(loc)
	}
	w := wire{
		ID: e.ID, What: e.What, At: at(e.At), Written: at(e.Written), By: e.By,
		Task: e.Task, Delivery: e.Delivery, Crew: e.Crew, Given: e.Given, Desk: e.Desk, Machine: e.Machine,
		To: at(e.To), Was: at(e.Was), From: at(e.From), Until: at(e.Until), Text: e.Text, Of: e.Of,
		Duty: e.Duty, Who: e.Who, Zone: e.Zone, After: e.Follows, Before: e.Precedes,
	}
	if e.What == Signed {
		w.SignedBy, w.Who = w.Who, ""
	}
	if e.What == Left {
		left := int(e.Left)
		w.Left = &left
	}
	if e.Takes != 0 {
		takes := int(e.Takes)
		w.Takes = &takes
	}
	if e.What == People || e.People != 0 {
		people := e.People
		w.People = &people
	}
	if e.Date != 0 {
		w.Date = e.Date.String()
	}
	var out bytes.Buffer
	lines := json.NewEncoder(&out)
	lines.SetEscapeHTML(false)
	if err := lines.Encode(w); err != nil {
		panic(err) // it is all strings and numbers
	}
	return out.Bytes()
}

// Aside is a line of a log that is no event. It is kept as it is and shown.
type Aside struct {
	Line   int // counted from 1
	Column int // in bytes, from 1
	Text   string
	Why    string // what is wrong with it
	Torn   bool   // the last line, without an end: a write that was cut off
}

// Whole says whether a line without an end is all there, as some editors leave the last.
func Whole(line []byte) bool {
	_, _, err := Parse(line)
	return err == nil
}

// mark is the byte order mark that some editors put before a text; it says nothing.
var mark = []byte("\ufeff")

// Parse reads one line. The error says what is wrong and what to do; column is
// where, in bytes from 1.
func Parse(line []byte) (e Event, column int, err error) { return new(parser).parse(line) }

// parser reads lines.
type parser struct {
	wire  wire
	names names // where texts that many events share are kept; may be nil
}

func (p *parser) parse(line []byte) (e Event, column int, err error) {
	p.wire = wire{}
	w, s := &p.wire, scanner{line: line, names: p.names}
	if bytes.HasPrefix(line, mark) {
		s.at = len(mark)
	}
	s.scan(w)
	if n, newer := newerFormat(line, w, s.err); newer {
		return e, 1, errors.New(schedule.NewerFormat("event", n, Format))
	}
	if s.err != nil {
		return e, s.column, s.err
	}
	r := reader{w: w}
	e = r.event()
	if r.err != nil {
		return Event{}, 1 + max(bytes.Index(line, []byte(`"`+r.key+`"`)), 0), r.err
	}
	return e, 1, nil
}

// newerFormat is the format of a line that is newer than is read here: whatever else is wrong
// with it may come of that.
func newerFormat(line []byte, w *wire, fault error) (format int, newer bool) {
	if fault == nil && w.Format == nil {
		return 0, false
	}
	var has struct {
		Format int `json:"format"`
	}
	err := json.Unmarshal(bytes.TrimPrefix(line, mark), &has)
	return has.Format, err == nil && has.Format > Format
}

// reader turns a line's fields into an event; err is the first fault, in key.
type reader struct {
	w   *wire
	key string
	err error
}

func (r *reader) fail(key, format string, args ...any) {
	if r.err == nil {
		r.key, r.err = key, fmt.Errorf(format, args...)
	}
}

func (r *reader) moment(key, text string) calendars.Instant {
	if text == "" {
		return 0
	}
	t, ok := calendars.ParseRFC3339(text)
	if !ok {
		r.fail(key, "%s %q is no moment; write it as 2027-05-03T07:10:00+01:00", key, text)
	}
	return t
}

// who takes who says so of an event: of a signature its key is another.
func (r *reader) who(e *Event) {
	switch w := r.w; {
	case w.Who != "" && w.What == Signed:
		r.fail("who", "an event %q has no %q", w.What, "who")
	case w.SignedBy != "" && w.What != Signed:
		r.fail("signed_by", "an event %q has no %q", w.What, "signed_by")
	case w.SignedBy != "":
		e.Who = w.SignedBy
	}
}

func (r *reader) event() Event {
	w := r.w
	e := Event{
		ID: w.ID, What: w.What, By: w.By, Task: w.Task, Delivery: w.Delivery, Crew: w.Crew, Given: w.Given, Desk: w.Desk,
		At: r.moment("at", w.At), Written: r.moment("written", w.Written), To: r.moment("to", w.To),
		Was: r.moment("was", w.Was), Machine: w.Machine,
		From: r.moment("from", w.From), Until: r.moment("until", w.Until), Text: w.Text, Of: w.Of,
		Duty: w.Duty, Who: w.Who, Zone: w.Zone, Follows: w.After, Precedes: w.Before,
	}
	if w.Format != nil && *w.Format < 1 {
		r.fail("format", "format takes a whole number from 1 on")
	}
	e.Left, e.Takes = minutes(w.Left), minutes(w.Takes)
	if w.People != nil {
		e.People = *w.People
	}
	if w.Date != "" {
		d, err := calendars.ParseDate(w.Date)
		if err != nil {
			r.fail("date", "date %v", err)
		}
		e.Date = d
	}
	r.who(&e)
	if w.Takes != nil && e.Takes <= 0 {
		r.fail("takes_minutes", "takes_minutes %d is less than 1", e.Takes)
	}
	if r.err == nil {
		if key, err := e.shape(w.Left != nil, w.People != nil); err != nil {
			r.fail(key, "%s", err)
		}
	}
	return e
}
