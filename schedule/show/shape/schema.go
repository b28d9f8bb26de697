package shape

import (
	"encoding/json"
	"reflect"
	"strings"

	"build.example/turflast/calendars"
)

// draft is the edition of JSON Schema that schemas are written in.
const draft = "https://json-schema.org/draft/2020-12/schema"

// Schema is the JSON Schema of a shape. It allows keys that it doesn't know, as new ones
// may come any time.
func (w *Words) Schema(s Shape) map[string]any {
	b := schemas{w, map[string]any{}}
	top := b.object(reflect.TypeOf(s.Value))
	top["$schema"], top["title"] = draft, strings.TrimSuffix(s.About, ":")
	if len(b.defs) > 0 {
		top["$defs"] = b.defs
	}
	return top
}

// schemas builds one schema.
type schemas struct {
	words *Words
	defs  map[string]any // by the name of the struct
}

// object is the schema of a struct.
func (b *schemas) object(t reflect.Type) map[string]any {
	properties, required := map[string]any{}, []string{}
	for _, k := range b.words.Keys(t) {
		if !k.Optional {
			required = append(required, k.Name)
		}
	}
	b.properties(t, properties)
	return map[string]any{"type": "object", "properties": properties, "required": required}
}

// properties adds the schemas of the keys of a struct, with those of embedded ones.
func (b *schemas) properties(t reflect.Type, into map[string]any) {
	for _, f := range fieldsOf(asWritten(t)) {
		if f.embedded {
			b.properties(asWritten(f.of), into)
			continue
		}
		s := b.value(f.of)
		switch {
		case f.constant != "":
			s = map[string]any{"const": json.RawMessage(f.constant)}
		case f.of.Kind() == reflect.Pointer && !f.optional:
			s = map[string]any{"anyOf": []any{s, map[string]any{"type": "null"}}}
		}
		if f.doc != "" {
			s["description"] = f.doc
		}
		into[f.key] = s
	}
}

// value is the schema of a value.
func (b *schemas) value(t reflect.Type) map[string]any {
	t = asWritten(t)
	if k, own := kindOf[t]; own {
		return formed(t, k.json, k.null)
	}
	if words := b.words.byType[t]; words != nil {
		names := []string{}
		for _, x := range words {
			names = append(names, x.Name)
		}
		return map[string]any{"enum": names}
	}
	switch t.Kind() {
	case reflect.Struct:
		if _, known := b.defs[t.Name()]; !known {
			b.defs[t.Name()] = nil // an object may hold its own kind
			b.defs[t.Name()] = b.object(t)
		}
		return map[string]any{"$ref": "#/$defs/" + t.Name()}
	case reflect.Map:
		return map[string]any{"type": "object", "additionalProperties": b.value(t.Elem())}
	case reflect.Slice, reflect.Array:
		if t != reflect.TypeFor[json.RawMessage]() {
			return map[string]any{"type": "array", "items": b.value(t.Elem())}
		}
	}
	return map[string]any{"type": b.words.under(t).JSON}
}

// formed is the schema of a type with a form of its own.
func formed(t reflect.Type, is string, null bool) map[string]any {
	s := map[string]any{"type": is}
	if null {
		s["type"] = []string{is, "null"}
	}
	switch t {
	case reflect.TypeFor[calendars.Instant]():
		s["format"] = "date-time"
	case reflect.TypeFor[calendars.Date]():
		s["format"] = "date"
	}
	return s
}
