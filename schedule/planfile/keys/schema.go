package keys

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"
)

// Draft is the edition of JSON Schema that schemas are written in.
const Draft = "https://json-schema.org/draft/2020-12/schema"

// Schema is the JSON Schema of a file, for editors: it takes every file that the reader
// takes, as YAML 1.2 resolves its values, and refuses what has another shape. What the
// reader knows beyond it are the names in use and how dates and amounts go together.
func Schema(top *Object) []byte {
	defs := map[string]any{}
	all := objectSchema(top)
	for _, p := range Paths(top) {
		for _, o := range p.Value.Objects() {
			defs[o.defName()] = objectSchema(o)
		}
	}
	all["$schema"], all["title"] = Draft, strings.TrimPrefix(top.Of, "the ")+" of turflast"
	if len(defs) > 0 {
		all["$defs"] = defs
	}
	return Indented(all)
}

// Indented is a value as JSON for people to read too: keys in order, angle brackets as
// they are. It panics on what JSON can't say.
func Indented(v any) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// defName is the name under which an object stands in a schema.
func (o *Object) defName() string {
	name := o.Of
	for _, article := range []string{"a ", "an ", "the "} {
		name = strings.TrimPrefix(name, article)
	}
	return strings.ReplaceAll(name, " ", "-")
}

func objectSchema(o *Object) map[string]any {
	properties, required, with := map[string]any{}, []string{}, map[string]any{}
	var brings []any
	for i := range o.Keys {
		k := &o.Keys[i]
		properties[k.Name] = keySchema(k)
		if k.Required {
			required = append(required, k.Name)
		}
		if len(k.With) > 0 {
			with[k.Name] = k.With
		}
		if len(k.Brings) > 0 {
			isTrue := map[string]any{k.Name: map[string]any{"const": true}}
			brings = append(brings, map[string]any{
				"if":   map[string]any{"properties": isTrue, "required": []string{k.Name}},
				"then": map[string]any{"required": k.Brings},
			})
		}
	}
	s := map[string]any{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		s["required"] = required
	}
	if len(with) > 0 {
		s["dependentRequired"] = with
	}
	if len(brings) > 0 {
		s["allOf"] = brings
	}
	if len(o.OneOf) > 0 {
		s["oneOf"] = eachRequired(o.OneOf)
	}
	if len(o.AnyOf) > 0 {
		s["anyOf"] = eachRequired(o.AnyOf)
	}
	return s
}

// eachRequired are schemas of which each requires one key.
func eachRequired(names []string) []any {
	var out []any
	for _, name := range names {
		out = append(out, map[string]any{"required": []string{name}})
	}
	return out
}

// keySchema is the schema of a key's value, with what it says.
func keySchema(k *Key) map[string]any {
	s := valueSchema(&k.Value)
	s["description"] = fmt.Sprintf("%s%s. %s%s.",
		strings.ToUpper(k.Means[:1]), k.Means[1:], strings.ToUpper(k.Value.Is[:1]), k.Value.Is[1:])
	s["examples"] = []any{Resolved(k.Example)}
	return s
}

func valueSchema(v *Value) map[string]any {
	if v.Or != nil {
		first := *v
		first.Or = nil
		return map[string]any{"anyOf": []any{valueSchema(&first), valueSchema(v.Or)}}
	}
	s := map[string]any{}
	switch {
	case v.Object != nil:
		s["$ref"] = "#/$defs/" + v.Object.defName()
	case v.Each != nil:
		s["type"], s["items"] = "array", valueSchema(v.Each)
		if v.Filled {
			s["minItems"] = 1
		}
	case v.Named != nil:
		s["type"], s["additionalProperties"] = "object", valueSchema(v.Named)
		s["propertyNames"] = map[string]any{"pattern": v.Names.Pattern}
	case v.Words != nil:
		s["enum"] = v.Words
	case v.Pattern != "":
		s["type"], s["pattern"] = "string", v.Pattern
	case len(v.Types) == 1:
		s["type"] = v.Types[0]
		v.bounds(s)
	default:
		s["type"] = v.Types
	}
	return s
}

// bounds adds those of a number.
func (v *Value) bounds(s map[string]any) {
	if v.Most == 0 {
		return
	}
	s["maximum"] = v.Most
	if v.Above {
		s["exclusiveMinimum"] = v.Least
	} else {
		s["minimum"] = v.Least
	}
}

// Resolved is the value of YAML text as the core schema of YAML 1.2 has it, which is what
// editors check: numbers, truths, texts, lists and mappings. It is nil for text that isn't
// YAML.
func Resolved(text string) any {
	var doc yaml.Node
	if yaml.Unmarshal([]byte(text), &doc) != nil || len(doc.Content) == 0 {
		return nil
	}
	return resolved(doc.Content[0])
}

func resolved(n *yaml.Node) any {
	switch n.Kind {
	case yaml.MappingNode:
		m := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			m[n.Content[i].Value] = resolved(n.Content[i+1])
		}
		return m
	case yaml.SequenceNode:
		list := []any{}
		for _, entry := range n.Content {
			list = append(list, resolved(entry))
		}
		return list
	}
	return resolvedScalar(n)
}

// resolvedScalar follows the core schema of YAML 1.2 (section 10.3.2), from memory, but for
// numbers that JSON can't write as they stand: those stay text, as no key takes them.
func resolvedScalar(n *yaml.Node) any {
	if n.Style != 0 {
		return n.Value
	}
	switch n.Value {
	case "", "~", "null", "Null", "NULL":
		return nil
	case "true", "True", "TRUE":
		return true
	case "false", "False", "FALSE":
		return false
	}
	if number := json.Number(n.Value); json.Valid([]byte(n.Value)) {
		if _, err := number.Float64(); err == nil {
			return number
		}
	}
	return n.Value
}
