// Package shape writes structs as the JSON that programs read, in the terms of a
// plan, and documents their keys. A struct declares the keys: the tag json names a
// key and may say omitempty, doc says what the key means, const holds a value that
// never changes. Fields hold the types of the plan. This package alone decides how
// each is written:
//
//	calendars.Instant     RFC 3339 with the site's offset; null when there is no such moment
//	calendars.Date        such as "2027-05-04"
//	calendars.Minutes     whole minutes
//	Float                 whole minutes; null when it has no number
//	calendars.Span        an object with from and to
//	schedule.Money        in the plan's currency
//	schedule.TaskID, ...  the plan's id of it; the name of a stage, the text of a rule
//	an enumeration        its name, by the [Words] that write it
//
// Embedded structs write their keys in place. A list is never null. A key with
// omitempty is left out when its value is empty: a zero moment, amount or count,
// the id of nothing, false, an empty text or list, a nil pointer.
package shape

import (
	"reflect"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Float is how much something may slip: null when it has no number.
type Float calendars.Minutes

// In is a value that is written in the terms of a plan of its own, such as one with
// changes, whatever the plan of the object around it.
type In[T any] struct {
	Plan  *schedule.Plan
	Value T
}

func (x In[T]) in() (*schedule.Plan, any) { return x.Plan, x.Value }

// other is an In of any type.
type other interface {
	in() (*schedule.Plan, any)
}

// span is how a calendars.Span is written.
type span struct {
	From calendars.Instant `json:"from" doc:"its start"`
	To   calendars.Instant `json:"to" doc:"its end"`
}

// Word is the name of one value of an enumeration, and what it means.
type Word struct {
	Value       any
	Name, Means string
}

// Words are the names of the values of enumerations. An enumeration without any is
// written as its bare value.
type Words struct {
	names  map[any]string
	byType map[reflect.Type][]Word
}

// NewWords makes Words of a list. The words of one type keep the order of the list.
func NewWords(list ...Word) *Words {
	w := &Words{make(map[any]string), make(map[reflect.Type][]Word)}
	for _, x := range list {
		t := reflect.TypeOf(x.Value)
		w.names[x.Value] = x.Name
		w.byType[t] = append(w.byType[t], x)
	}
	return w
}

// Name is the name of a value.
func (w *Words) Name(value any) string { return w.names[value] }

// Types maps each enumeration to its words.
func (w *Words) Types() map[reflect.Type][]Word { return w.byType }

// plain returns what a value of a type with a form of its own is written as: a text, a
// number, or nil for null. For all other types own is false.
func (w *Words) plain(p *schedule.Plan, value any) (plain any, own bool) {
	switch v := value.(type) {
	case calendars.Instant:
		if !v.IsReal() {
			return nil, true
		}
		return v.In(p.Site.Location).Format(time.RFC3339), true
	case calendars.Date:
		return v.String(), true
	case Float:
		if m := calendars.Minutes(v); m == schedule.NoFloat || m == schedule.FreeRange {
			return nil, true
		}
		return int32(v), true
	case schedule.Money:
		return float64(v) / 100, true
	}
	if w.byType[reflect.TypeOf(value)] != nil {
		return w.names[value], true
	}
	return id(p, value)
}

// id returns the plan's id of what a value indexes, empty for nothing. If the value is
// no index, own is false.
func id(p *schedule.Plan, value any) (plain any, own bool) {
	switch v := value.(type) {
	case schedule.TaskID:
		return of(p.Tasks, v, func(x *schedule.Task) string { return x.ID }), true
	case schedule.DeliveryID:
		return of(p.Deliveries, v, func(x *schedule.Delivery) string { return x.ID }), true
	case schedule.ZoneID:
		return of(p.Zones, v, func(x *schedule.Zone) string { return x.ID }), true
	case schedule.CrewID:
		return of(p.Crews, v, func(x *schedule.Crew) string { return x.ID }), true
	case schedule.MachineID:
		return of(p.Machines, v, func(x *schedule.Machine) string { return x.ID }), true
	case schedule.GivenID:
		return of(p.Givens, v, func(x *schedule.Given) string { return x.ID }), true
	case schedule.RuleID:
		return of(p.Rules, v, func(x *schedule.Rule) string { return x.Text }), true
	case schedule.StageID:
		return of(p.Stages, v, func(x *string) string { return *x }), true
	}
	return nil, false
}

func of[T any, I ~int32](list []T, i I, name func(*T) string) string {
	if i < 0 {
		return ""
	}
	return name(&list[i])
}

// kindOf describes how the types with a form of their own are written: in a word or two,
// the type in JSON, and whether it may be null.
var kindOf = map[reflect.Type]struct {
	is, json string
	null     bool
}{
	reflect.TypeFor[calendars.Instant]():   {"moment", "string", true},
	reflect.TypeFor[calendars.Date]():      {"date", "string", false},
	reflect.TypeFor[calendars.Minutes]():   {"minutes", "integer", false},
	reflect.TypeFor[Float]():               {"minutes", "integer", true},
	reflect.TypeFor[schedule.Money]():      {"amount", "number", false},
	reflect.TypeFor[schedule.TaskID]():     {"id of a task", "string", false},
	reflect.TypeFor[schedule.DeliveryID](): {"id of a delivery", "string", false},
	reflect.TypeFor[schedule.ZoneID]():     {"id of a zone", "string", false},
	reflect.TypeFor[schedule.CrewID]():     {"id of a crew", "string", false},
	reflect.TypeFor[schedule.MachineID]():  {"id of a machine", "string", false},
	reflect.TypeFor[schedule.GivenID]():    {"id of a given", "string", false},
	reflect.TypeFor[schedule.RuleID]():     {"a rule as written", "string", false},
	reflect.TypeFor[schedule.StageID]():    {"a stage", "string", false},
}
