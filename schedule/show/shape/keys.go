package shape

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"unicode"

	"build.example/turflast/calendars"
)

// Shape is an object that the program writes on its own, not only within another.
type Shape struct {
	About string // what it is and who writes it
	Value any    // a value of its struct; only the type matters
}

// Key is one key of an object and the value under it.
type Key struct {
	Name     string
	Is       string       // what the value is, in a word or two
	JSON     string       // its type in JSON: "string", "integer", "number", "boolean", "array" or "object"
	Null     bool         // it may be null
	Optional bool         // it is left out when it is empty
	Const    string       // the only value it can have, as JSON; else empty
	Words    []Word       // the values of an enumeration
	Of       reflect.Type // the struct of its object, or of the items of its list; else nil
	Means    string
}

// Keys lists the keys that a struct writes, in order, with those of embedded structs in
// place. A key that holds an enumeration without words has the JSON type "".
func (w *Words) Keys(t reflect.Type) []Key {
	var keys []Key
	for _, f := range fieldsOf(asWritten(t)) {
		of := f.of
		if f.embedded {
			missing := of.Kind() == reflect.Pointer
			for _, k := range w.Keys(asWritten(of)) {
				k.Optional = k.Optional || missing
				keys = append(keys, k)
			}
			continue
		}
		k := w.under(of)
		k.Name, k.Means, k.Const = f.key, f.doc, f.constant
		k.Optional = f.optional
		if of.Kind() == reflect.Pointer {
			k.Null = !f.optional || k.Null
		}
		keys = append(keys, k)
	}
	return keys
}

// asWritten is the type whose form t is written in: what a pointer or an [In] holds, and
// span for a [calendars.Span].
func asWritten(t reflect.Type) reflect.Type {
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case t == reflect.TypeFor[calendars.Span]():
		return reflect.TypeFor[span]()
	case t.Implements(reflect.TypeFor[other]()):
		return asWritten(t.Field(1).Type)
	}
	return t
}

// under describes the value under a key that holds a t; the key has no name yet.
func (w *Words) under(t reflect.Type) Key {
	t = asWritten(t)
	if k, own := kindOf[t]; own {
		return Key{Is: k.is, JSON: k.json, Null: k.null}
	}
	if words := w.byType[t]; words != nil {
		return Key{Is: "word", JSON: "string", Words: words}
	}
	switch t.Kind() {
	case reflect.Struct:
		return Key{Is: title(t), JSON: "object", Of: t}
	case reflect.Map:
		return Key{Is: fmt.Sprintf("%s by %s", w.under(t.Elem()).Is, w.under(t.Key()).Is), JSON: "object"}
	case reflect.Slice, reflect.Array:
		if t == reflect.TypeFor[json.RawMessage]() {
			return Key{Is: "object", JSON: "object"}
		}
		item := w.under(t.Elem())
		return Key{Is: "list of " + item.Is, JSON: "array", Words: item.Words, Of: item.Of}
	}
	switch {
	case t.PkgPath() != "": // an enumeration without words
		return Key{}
	case t.Kind() == reflect.String:
		return Key{Is: "text", JSON: "string"}
	case t.Kind() == reflect.Bool:
		return Key{Is: "truth", JSON: "boolean"}
	case t.Kind() == reflect.Float64:
		return Key{Is: "number", JSON: "number"}
	}
	return Key{Is: "count", JSON: "integer"}
}

// title is the name of a struct in words.
func title(t reflect.Type) string {
	var b strings.Builder
	for i, r := range t.Name() {
		if unicode.IsUpper(r) && i > 0 {
			b.WriteByte(' ')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}

// Doc is the documentation of shapes as text: the keys of each, then those of the
// objects in them, each object once.
func (w *Words) Doc(shapes []Shape) string {
	var b strings.Builder
	var queue []reflect.Type
	section := func(head string, t reflect.Type) {
		b.WriteString(head + "\n\n")
		for _, k := range w.Keys(t) {
			w.doc(&b, &k)
			if k.Of != nil && !slices.Contains(queue, k.Of) {
				queue = append(queue, k.Of)
			}
		}
		b.WriteString("\n")
	}
	for _, s := range shapes {
		section(s.About, reflect.TypeOf(s.Value))
	}
	for i := 0; i < len(queue); i++ {
		section("Under \""+title(queue[i])+"\":", queue[i])
	}
	return strings.TrimSuffix(b.String(), "\n")
}

func (w *Words) doc(b *strings.Builder, k *Key) {
	is := k.Is
	switch {
	case k.Const != "":
		is = k.Const
	case k.Null:
		is += " or null"
	}
	if k.Optional {
		is += ", if any"
	}
	fmt.Fprintf(b, "  %-20s %s", k.Name, is)
	if k.Means != "" {
		b.WriteString(": " + k.Means)
	}
	b.WriteString("\n")
	for _, x := range k.Words {
		if x.Name != "" {
			fmt.Fprintf(b, "  %-20s   %q: %s\n", "", x.Name, x.Means)
		}
	}
}
