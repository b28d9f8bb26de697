package baseline

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Format is the newest form of the file that is read, and the one that is written. Files
// without it are of form 1.
const Format = 1

// file is a baseline as its file has it.
type file struct {
	Format     int            `json:"format"`
	Number     int            `json:"baseline"`
	Garden     string         `json:"garden"`
	Agreed     string         `json:"agreed"`
	By         string         `json:"by"`
	Why        string         `json:"why,omitempty"`
	Digest     string         `json:"plan"`
	Seed       uint64         `json:"seed"`
	Finish     string         `json:"finish"`
	Handover   string         `json:"handover"`
	Margin     int32          `json:"margin_minutes"`
	OnClock    bool           `json:"margin_on_clock,omitempty"`
	Tasks      []fileTask     `json:"tasks"`
	Deliveries []fileDelivery `json:"deliveries"`
}

type fileTask struct {
	ID      string      `json:"id"`
	Start   string      `json:"start,omitempty"`
	Finish  string      `json:"finish,omitempty"`
	Done    string      `json:"done,omitempty"`
	Signed  string      `json:"signed,omitempty"`
	Crew    []fileHeads `json:"crew,omitempty"`
	Dropped bool        `json:"dropped,omitempty"`
	NoPlace bool        `json:"no_place,omitempty"`
}

type fileHeads struct {
	Crew  string `json:"crew"`
	Heads int    `json:"heads"`
}

type fileDelivery struct {
	ID      string `json:"id"`
	Arrives string `json:"arrives"`
	Start   string `json:"start,omitempty"`
	Finish  string `json:"finish,omitempty"`
	NoPlace bool   `json:"no_place,omitempty"`
}

// Write writes the baseline as a file: JSON, moments on the clock of a location.
func (b *Baseline) Write(out io.Writer, loc *time.Location) error {
	at := func(t calendars.Instant) string {
		if t == 0 {
			return ""
		}
		return t.RFC3339(loc)
	}
	f := file{
		Format: Format,
		Number: b.Number, Garden: b.Garden, Agreed: at(b.Agreed), By: b.By, Why: b.Why, Digest: b.Digest, Seed: b.Seed,
		Finish: at(b.Finish), Handover: at(b.Handover), Margin: int32(b.Margin.Time), OnClock: b.Margin.Clock,
		Tasks: []fileTask{}, Deliveries: []fileDelivery{},
	}
	for _, t := range b.Tasks {
		x := fileTask{
			ID: t.ID, Start: at(t.Start), Finish: at(t.Finish),
			Done: at(t.Done), Signed: at(t.Signed), Dropped: t.Dropped, NoPlace: t.NoPlace,
		}
		for _, h := range t.Crew {
			x.Crew = append(x.Crew, fileHeads(h))
		}
		f.Tasks = append(f.Tasks, x)
	}
	for _, d := range b.Deliveries {
		f.Deliveries = append(f.Deliveries, fileDelivery{d.ID, at(d.Arrives), at(d.Start), at(d.Finish), d.NoPlace})
	}
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(f)
}

// Fault is what is wrong with a baseline file, and where.
type Fault struct {
	Line, Column int // from 1; the column in bytes
	Text         string
}

// Error is the place and what is wrong.
func (f *Fault) Error() string { return fmt.Sprintf("%d:%d: %s", f.Line, f.Column, f.Text) }

// Read reads what [Baseline.Write] writes, strictly. The error is a [*Fault].
func Read(text []byte) (*Baseline, error) {
	var newer struct {
		Format int `json:"format"`
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // some editors put it there; it says nothing
	if json.Unmarshal(text, &newer) == nil && newer.Format > Format {
		return nil, faultAt(text, int64(bytes.Index(text, []byte(`"format"`))),
			"this baseline is of format %d, and this turflast reads up to %d: a newer one wrote it", newer.Format, Format)
	}
	var f file
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(&f); err != nil {
		return nil, faultAt(text, offset(d, err), "%s", plain(err))
	}
	if _, err := d.Token(); err != io.EOF {
		return nil, faultAt(text, d.InputOffset(), "something follows the baseline")
	}
	r := &reader{text: text}
	b := r.baseline(&f)
	if r.err != nil {
		return nil, r.err
	}
	return b, nil
}

func offset(d *json.Decoder, err error) int64 {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		return syntax.Offset
	case errors.As(err, &kind):
		return kind.Offset
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return math.MaxInt64 // its end
	}
	return d.InputOffset()
}

// plain is a message of the library in our words.
func plain(err error) string {
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &kind):
		return fmt.Sprintf("no %s belongs here", kind.Value)
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return "the baseline ends too soon"
	}
	return strings.TrimPrefix(err.Error(), "json: ")
}

// faultAt is a fault at an offset in bytes.
func faultAt(text []byte, at int64, format string, args ...any) *Fault {
	before := text[:min(max(at, 0), int64(len(text)))]
	line := bytes.LastIndexByte(before, '\n') + 1
	return &Fault{bytes.Count(before, []byte("\n")) + 1, len(before) - line + 1, fmt.Sprintf(format, args...)}
}

// reader turns a file into a baseline; err is the first fault.
type reader struct {
	text []byte
	err  error
}

// fail places a fault at the first use of a value in the text.
func (r *reader) fail(value, format string, args ...any) {
	if r.err == nil {
		r.err = faultAt(r.text, int64(bytes.Index(r.text, []byte(`"`+value+`"`))), format, args...)
	}
}

func (r *reader) moment(key, text string) calendars.Instant {
	t, ok := calendars.ParseRFC3339(text)
	if !ok {
		r.fail(text, "%s %q is no moment; write it as 2027-05-03T07:10:00+01:00", key, text)
	}
	return t
}

func (r *reader) baseline(f *file) *Baseline {
	if f.Number < 1 {
		r.fail("baseline", "a baseline needs its number, from 1")
	}
	b := &Baseline{
		Number: f.Number, Garden: f.Garden, Agreed: r.moment("agreed", f.Agreed),
		By: f.By, Why: f.Why, Digest: f.Digest, Seed: f.Seed,
		Finish: r.moment("finish", f.Finish), Handover: r.moment("handover", f.Handover),
		Margin: schedule.Margin{Time: calendars.Minutes(f.Margin), Clock: f.OnClock},
	}
	seen := make(map[string]bool)
	once := func(what, id string) {
		if id == "" || seen[what+id] {
			r.fail(id, "%s %q is there twice, or has no id", what, id)
		}
		seen[what+id] = true
	}
	for _, t := range f.Tasks {
		once("task", t.ID)
		b.Tasks = append(b.Tasks, r.task(t))
	}
	for _, d := range f.Deliveries {
		once("delivery", d.ID)
		b.Deliveries = append(b.Deliveries, r.delivery(d))
	}
	return b
}

func (r *reader) task(t fileTask) Task {
	out := Task{ID: t.ID, Dropped: t.Dropped, NoPlace: t.NoPlace}
	dated := t.Start+t.Finish+t.Done+t.Signed != "" || len(t.Crew) > 0
	switch {
	case t.Dropped && t.NoPlace:
		r.fail(t.ID, "%s is left out, so it needs no place", t.ID)
		return out
	case t.Dropped && dated:
		r.fail(t.ID, "%s is left out, so it has no dates and no crew", t.ID)
	case t.NoPlace && dated:
		r.fail(t.ID, "%s has no place, so it has no dates and no crew", t.ID)
	}
	if t.Dropped || t.NoPlace {
		return out
	}
	out.Start, out.Finish = r.moment("start", t.Start), r.moment("finish", t.Finish)
	out.Done, out.Signed = r.moment("done", t.Done), r.moment("signed", t.Signed)
	if out.Finish < out.Start {
		r.fail(t.ID, "%s finishes before it starts", t.ID)
	}
	for _, h := range t.Crew {
		out.Crew = append(out.Crew, Heads(h))
	}
	return out
}

func (r *reader) delivery(d fileDelivery) Delivery {
	out := Delivery{ID: d.ID, Arrives: r.moment("arrives", d.Arrives), NoPlace: d.NoPlace}
	switch {
	case !d.NoPlace:
		out.Start, out.Finish = r.moment("start", d.Start), r.moment("finish", d.Finish)
	case d.Start+d.Finish != "":
		r.fail(d.ID, "%s has no place, so it isn't unloaded", d.ID)
	}
	return out
}
