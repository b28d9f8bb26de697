// Package strict reads the JSON files that the program writes beside a plan: nothing in them
// is taken for granted, and each fault has its place.
package strict

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Fault is what is wrong with a file, and where.
type Fault struct {
	Line, Column int // from 1; the column in bytes
	Text         string
}

// Error is the place and what is wrong.
func (f *Fault) Error() string { return fmt.Sprintf("%d:%d: %s", f.Line, f.Column, f.Text) }

// Decode reads a text into a struct that has all keys the text may have. What names the
// file ("baseline"), format is the newest form of it that is read. The text is returned
// without the mark that some editors put before it.
func Decode(text []byte, what string, format int, into any) ([]byte, *Fault) {
	var newer struct {
		Format int `json:"format"`
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // it says nothing
	if json.Unmarshal(text, &newer) == nil && newer.Format > format {
		return nil, faultAt(text, int64(bytes.Index(text, []byte(`"format"`))),
			"%s", schedule.NewerFormat(what, newer.Format, format))
	}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		return nil, faultAt(text, offset(d, err), "%s", plain(err, what))
	}
	if _, err := d.Token(); err != io.EOF {
		return nil, faultAt(text, d.InputOffset(), "something follows the %s", what)
	}
	return text, nil
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
func plain(err error, what string) string {
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &kind):
		return fmt.Sprintf("no %s belongs here", kind.Value)
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return "the " + what + " ends too soon"
	}
	return strings.TrimPrefix(err.Error(), "json: ")
}

// faultAt is a fault at an offset in bytes.
func faultAt(text []byte, at int64, format string, args ...any) *Fault {
	before := text[:min(max(at, 0), int64(len(text)))]
	line := bytes.LastIndexByte(before, '\n') + 1
	return &Fault{bytes.Count(before, []byte("\n")) + 1, len(before) - line + 1, fmt.Sprintf(format, args...)}
}

// Reader makes sense of what a text was decoded to.
type Reader struct {
	Text  []byte
	Fault *Fault // the first; nil while there is none
}

// Fail notes a fault, at the first use of a value in the text.
func (r *Reader) Fail(value, format string, args ...any) {
	if r.Fault == nil {
		r.Fault = faultAt(r.Text, int64(bytes.Index(r.Text, []byte(`"`+value+`"`))), format, args...)
	}
}

// Moment reads the moment of a key.
func (r *Reader) Moment(key, text string) calendars.Instant {
	t, ok := calendars.ParseRFC3339(text)
	if !ok {
		r.Fail(text, "%s %q is no moment; write it as 2027-05-03T07:10:00+01:00", key, text)
	}
	return t
}
