package keys

import (
	"strings"

	"build.example/turflast/schedule"
)

// Value says how a value is written. Of Each, Named and Object at most one is there;
// without any it is a single value.
type Value struct {
	Is      string   // in words, with the unit of what is measured
	Types   []string // of a single value, as JSON has it; text without any
	Pattern string   // a regular expression that all text of it fits
	Words   []string // the only words it may be
	Least   float64  // of a number
	Above   bool     // it must be more than Least
	Most    float64  // of a number

	Each   *Value // it is a list of these
	Filled bool   // the list may not be empty

	Named *Value // it is a mapping from names that the plan chooses to these
	Names *Value // how those names are written

	Object *Object // it is a mapping with these keys

	Or *Value // it may be this as well
}

// Objects are the objects in a value, however deep in lists and mappings.
func (v *Value) Objects() []*Object {
	var out []*Object
	for ; v != nil; v = v.Or {
		if v.Object != nil {
			out = append(out, v.Object)
		}
		out = append(out, v.Each.Objects()...)
		out = append(out, v.Named.Objects()...)
	}
	return out
}

// Pieces of patterns, by the forms that package calendars reads.
const (
	aClock  = `([01][0-9]|2[0-3]):[0-5][0-9]`
	anEnd   = `(([01][0-9]|2[0-3]):[0-5][0-9]|24:00)`
	aDate   = `2[01][0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])`
	aMoment = aDate + " " + aClock
	aRange  = aClock + "-" + anEnd
	aLength = `(0|[1-9][0-9]*)`
	someDay = `(mon|tue|wed|thu|fri|sat|sun)`
	aNumber = `(0|[1-9][0-9]*)(\.[0-9]{1,3})?`
)

const (
	mostPeople = 10_000
	mostUnits  = 1_000_000
	mostMoney  = 100_000_000
)

// Single values.
var (
	text     = Value{Is: "text", Types: []string{"string", "number", "boolean"}}
	flag     = Value{Is: "true or false", Types: []string{"boolean"}}
	money    = number("an amount of money, with at most two decimals", 0, mostMoney)
	chance   = number("a chance, from 0 to 1", 0, 1)
	hours    = Value{Is: "person-hours", Types: []string{"number"}, Above: true, Most: mostUnits}
	moment   = pattern("a moment on the site's clock, date and time", aMoment)
	date     = pattern("a date", aDate)
	clock    = pattern("a time of day", anEnd)
	stretch  = pattern("a stretch of a day", aRange)
	span     = pattern("a span of time, moment to moment", aMoment+" to "+aMoment)
	openings = pattern("hours of a day, or closed", "(closed|"+aRange+"( "+aRange+")*)")
	work     = pattern("working time in m and h", aLength+"[mh]|[1-9][0-9]*h[1-9][0-9]?m")
	wait     = pattern("time on the clock in m, h, d and w", aLength+"[mhdw]|[1-9][0-9]*h[1-9][0-9]?m")
	lag      = pattern("working time in m and h, negative for a lead", "-?("+aLength+"[mh]|[1-9][0-9]*h[1-9][0-9]?m)")
	before   = pattern("a length before opening, or before the id of a delivery or task",
		"("+aLength+"[mhdw]|[1-9][0-9]*h[1-9][0-9]?m) before [a-z][a-z0-9-]*")
	amount   = pattern("a number and a unit", aNumber+` [^\s/]+`)
	pace     = pattern("a number, a unit and /person-hour", aNumber+` [^\s/]+/person-hour`)
	heads    = pattern("a range of heads", "[1-9][0-9]*[.][.][1-9][0-9]*")
	days     = pattern("a weekday or a run of them, like mon-fri", someDay+"(-"+someDay+")?")
	tzName   = pattern("a name of the tz database", `\S+`)
	region   = pattern("a code of ISO 3166-1 or 3166-2", "[A-Z][A-Z0-9-]*")
	currency = pattern("a code of ISO 4217", "[A-Z]{3}")
)

func pattern(is, all string) Value { return Value{Is: is, Pattern: "^(" + all + ")$"} }

func number(is string, least, most float64) Value {
	return Value{Is: is, Types: []string{"number"}, Least: least, Most: most}
}

func count(of string, least float64) Value {
	return Value{Is: "a whole number of " + of, Types: []string{"integer"}, Least: least, Most: mostPeople}
}

func oneOf(words ...string) Value {
	return Value{Is: "one of " + strings.Join(words, ", "), Words: words}
}

// id is the id of something; what the plan has under it isn't a matter of form.
func id(of string) Value { return pattern("the id of "+of, "[a-z][a-z0-9-]*") }

func list(of Value) Value { return Value{Is: "a list, each entry " + of.Is, Each: &of} }

func filled(of Value) Value {
	v := list(of)
	v.Is, v.Filled = "a list of one or more, each entry "+of.Is, true
	return v
}

func named(names, of Value) Value {
	return Value{Is: "a mapping from " + names.Is + " to " + of.Is, Named: &of, Names: &names}
}

func keysOf(o *Object) Value { return Value{Is: "keys of its own", Object: o} }

func or(a, b Value) Value {
	a.Is, a.Or = a.Is+"; or "+b.Is, &b
	return a
}

// idOrList is one id, or a list of some.
func idOrList(of string) Value { return or(id(of), filled(id(of))) }

func linkNames() []string {
	return []string{schedule.FinishStart.String(), schedule.StartStart.String(),
		schedule.FinishFinish.String(), schedule.StartFinish.String()}
}
