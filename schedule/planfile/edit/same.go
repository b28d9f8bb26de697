package edit

import (
	"reflect"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// differs is the key of the first thing of which two plans say something else; "" if they say
// the same. Places in the text don't count, nor how an effort or the reason of a closure is
// worded.
func differs(a, b *schedule.Plan) string {
	x, y := reflect.ValueOf(*a), reflect.ValueOf(*b)
	for i := range x.NumField() {
		if !same(x.Field(i), y.Field(i)) {
			return "its " + x.Type().Field(i).Name
		}
	}
	return ""
}

func same(a, b reflect.Value) bool {
	if a.CanInterface() {
		switch v := a.Interface().(type) {
		case schedule.Pos:
			return true
		case *time.Location:
			return v.String() == b.Interface().(*time.Location).String()
		case calendars.Closure:
			return v.Span == b.Interface().(calendars.Closure).Span
		case schedule.Task:
			other := b.Interface().(schedule.Task)
			if !sameTimes(&v, &other) {
				return false
			}
		case schedule.Effort:
			return true // seen with its task
		}
	}
	switch a.Kind() {
	case reflect.Slice, reflect.Array:
		if a.Len() != b.Len() {
			return false
		}
		for i := range a.Len() {
			if !same(a.Index(i), b.Index(i)) {
				return false
			}
		}
		return true
	case reflect.Pointer:
		if a.IsNil() || b.IsNil() {
			return a.IsNil() == b.IsNil()
		}
		return same(a.Elem(), b.Elem())
	case reflect.Struct:
		for i := range a.NumField() {
			if !same(a.Field(i), b.Field(i)) {
				return false
			}
		}
		return true
	}
	return reflect.DeepEqual(a.Interface(), b.Interface())
}
