package shape

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Write writes a value, a struct with the tags that the package describes, as JSON
// indented by two spaces. The error is the writer's.
func (w *Words) Write(out io.Writer, p *schedule.Plan, value any) error {
	e := &encoder{words: w, plan: p, fields: make(map[reflect.Type][]field)}
	e.texts = json.NewEncoder(&e.text)
	e.texts.SetEscapeHTML(false)
	e.value(reflect.ValueOf(value))
	var lines bytes.Buffer
	if err := json.Indent(&lines, e.out.Bytes(), "", "  "); err != nil {
		panic(err) // what was just written is JSON
	}
	lines.WriteByte('\n')
	_, err := out.Write(lines.Bytes())
	return err
}

type encoder struct {
	words  *Words
	plan   *schedule.Plan
	out    bytes.Buffer
	fields map[reflect.Type][]field
	texts  *json.Encoder // writes to text
	text   bytes.Buffer
}

// value writes any value.
func (e *encoder) value(v reflect.Value) {
	if plain, own := e.words.plain(e.plan, v.Interface()); own {
		e.scalar(plain)
		return
	}
	switch x := v.Interface().(type) {
	case json.RawMessage:
		e.out.Write(x)
		return
	case calendars.Span:
		e.value(reflect.ValueOf(span{x.Start, x.End}))
		return
	case other:
		p, value := x.in()
		was := e.plan
		e.plan = p
		e.value(reflect.ValueOf(value))
		e.plan = was
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			e.scalar(nil)
			return
		}
		e.value(v.Elem())
	case reflect.Struct:
		e.out.WriteByte('{')
		e.keys(v, e.out.Len())
		e.out.WriteByte('}')
	case reflect.Slice, reflect.Array:
		e.list(v)
	case reflect.Map:
		e.object(v)
	default:
		e.scalar(v.Interface())
	}
}

// scalar writes a text, a number, a truth or null.
func (e *encoder) scalar(v any) {
	e.text.Reset()
	if err := e.texts.Encode(v); err != nil {
		panic(fmt.Sprintf("no way to write %T: %v", v, err))
	}
	e.out.Write(bytes.TrimSuffix(e.text.Bytes(), []byte("\n")))
}

func (e *encoder) list(v reflect.Value) {
	e.out.WriteByte('[')
	for i := range v.Len() {
		if i > 0 {
			e.out.WriteByte(',')
		}
		e.value(v.Index(i))
	}
	e.out.WriteByte(']')
}

// object writes a map, its keys sorted as they are written.
func (e *encoder) object(v reflect.Value) {
	type entry struct {
		key   string
		value reflect.Value
	}
	var all []entry
	for it := v.MapRange(); it.Next(); {
		key, _ := e.words.plain(e.plan, it.Key().Interface())
		all = append(all, entry{key.(string), it.Value()})
	}
	slices.SortFunc(all, func(a, b entry) int { return strings.Compare(a.key, b.key) })
	e.out.WriteByte('{')
	for i, x := range all {
		if i > 0 {
			e.out.WriteByte(',')
		}
		e.scalar(x.key)
		e.out.WriteByte(':')
		e.value(x.value)
	}
	e.out.WriteByte('}')
}

// keys writes the keys of a struct. The keys of the object begin at first in the output,
// so there is a comma before all but the one there.
func (e *encoder) keys(v reflect.Value, first int) {
	fields, known := e.fields[v.Type()]
	if !known {
		fields = fieldsOf(v.Type())
		e.fields[v.Type()] = fields
	}
	for _, f := range fields {
		x := v.Field(f.index)
		switch {
		case f.embedded:
			e.embedded(x, first)
			continue
		case f.optional && e.empty(x):
			continue
		}
		if e.out.Len() > first {
			e.out.WriteByte(',')
		}
		e.scalar(f.key)
		e.out.WriteByte(':')
		if f.constant != "" {
			e.out.WriteString(f.constant)
			continue
		}
		e.value(x)
	}
}

// embedded writes the keys of an embedded struct, or none if it is nil.
func (e *encoder) embedded(v reflect.Value, first int) {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return
		}
		v = v.Elem()
	}
	if v.Type() == reflect.TypeFor[calendars.Span]() {
		s := v.Interface().(calendars.Span)
		v = reflect.ValueOf(span{s.Start, s.End})
	}
	e.keys(v, first)
}

// empty reports whether omitempty leaves a value out.
func (e *encoder) empty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map:
		return v.Len() == 0
	}
	switch v.Interface().(type) {
	case calendars.Instant, calendars.Date, schedule.Money:
		return v.IsZero()
	}
	if plain, own := e.words.plain(e.plan, v.Interface()); own {
		return plain == ""
	}
	return v.IsZero()
}

// field is one field of a struct.
type field struct {
	index    int
	of       reflect.Type
	key      string
	doc      string
	constant string // as JSON; empty for none
	optional bool   // left out when it is empty
	embedded bool   // its keys are written in place
}

// fieldsOf lists the fields of a struct, all of which are written.
func fieldsOf(t reflect.Type) []field {
	var out []field
	for i := range t.NumField() {
		f := t.Field(i)
		key, option, _ := strings.Cut(f.Tag.Get("json"), ",")
		x := field{
			index: i, of: f.Type, key: key, doc: f.Tag.Get("doc"), constant: f.Tag.Get("const"),
			optional: option == "omitempty", embedded: f.Anonymous,
		}
		if x.constant != "" && f.Type.Kind() == reflect.String {
			x.constant = `"` + x.constant + `"`
		}
		out = append(out, x)
	}
	return out
}
