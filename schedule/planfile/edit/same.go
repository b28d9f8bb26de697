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
	if is, known := sameAs(a.Interface(), b.Interface()); known {
		return is
	}
	switch a.Kind() {
	case reflect.Slice, reflect.Array:
		return a.Len() == b.Len() && all(a.Len(), func(i int) bool { return same(a.Index(i), b.Index(i)) })
	case reflect.Pointer:
		if a.IsNil() || b.IsNil() {
			return a.IsNil() == b.IsNil()
		}
		return same(a.Elem(), b.Elem())
	case reflect.Struct:
		return all(a.NumField(), func(i int) bool { return same(a.Field(i), b.Field(i)) })
	}
	return reflect.DeepEqual(a.Interface(), b.Interface())
}

// sameAs compares what isn't compared by its parts alone; known is false for all else.
func sameAs(a, b any) (is, known bool) {
	switch v := a.(type) {
	case schedule.Pos, schedule.Effort: // an effort is seen with its task
		return true, true
	case *time.Location:
		return v.String() == b.(*time.Location).String(), true
	case calendars.Closure:
		return v.Span == b.(calendars.Closure).Span, true
	case schedule.Task:
		other := b.(schedule.Task)
		return false, !sameTimes(&v, &other)
	}
	return false, false
}

func all(n int, is func(int) bool) bool {
	for i := range n {
		if !is(i) {
			return false
		}
	}
	return true
}
