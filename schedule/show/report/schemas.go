package report

import (
	"reflect"
	"slices"
	"strings"

	"build.example/turflast/schedule/planfile/keys"
)

// Schema is a JSON Schema that can be had by its name.
type Schema struct {
	Name  string // "plan", or "plan-json" for what plan --json writes
	About string // what it describes, in words
	Text  func() []byte
}

// Schemas are the schemas of the files that people write, then of all that is written as
// JSON.
func Schemas() []Schema {
	out := []Schema{
		{"plan", "the plan file", func() []byte { return keys.Schema(keys.Plan) }},
		{"whatif", "a what-if file", func() []byte { return keys.Schema(keys.WhatIf) }},
		{"prices", "a price list", func() []byte { return keys.Schema(keys.Prices) }},
	}
	for _, s := range shapes {
		about, command, _ := strings.Cut(strings.TrimSuffix(s.About, "):"), " (")
		name := strings.ReplaceAll(strings.ReplaceAll(command, "--", ""), " ", "-")
		out = append(out, Schema{name, strings.ToLower(about[:1]) + about[1:], func() []byte {
			return keys.Indented(kinds.Schema(s))
		}})
	}
	return out
}

// SchemaNamed is the schema of a name; ok is false when there is none.
func SchemaNamed(name string) (s Schema, ok bool) {
	all := Schemas()
	i := slices.IndexFunc(all, func(s Schema) bool { return s.Name == name })
	if i < 0 {
		return Schema{}, false
	}
	return all[i], true
}

// Formats are the objects that are written as JSON and name their format, each with its
// version: "programme 2".
func Formats() []string {
	var out []string
	for _, s := range shapes {
		format, version := "", ""
		for _, k := range kinds.Keys(reflect.TypeOf(s.Value)) {
			switch k.Name {
			case "format":
				format = strings.TrimPrefix(strings.Trim(k.Const, `"`), "turflast.")
			case "version":
				version = k.Const
			}
		}
		if format != "" {
			out = append(out, format+" "+version)
		}
	}
	return out
}
