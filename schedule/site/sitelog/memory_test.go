package sitelog_test

import (
	"bytes"
	"fmt"
	"runtime"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/sitelog"
)

// notes are the lines of n notes, as a long log has them.
func notes(n int) []byte {
	var out []byte
	for i := range n {
		e := event(sitelog.NewID(int64(i), uint32(i)), sitelog.Note, "07:00", "")
		e.At, e.Text = e.At.Plus(calendars.Minutes(i/400)), fmt.Sprintf("the mixer stood still for a while, number %d", i)
		e.Written = e.At
		out = append(out, e.Line(london)...)
	}
	return out
}

// taken is how many bytes f allocates, and how many of them what it returns keeps.
func taken[T any](f func() T) (all, kept uint64) {
	var before, after, then runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	got := f()
	runtime.ReadMemStats(&after)
	runtime.GC()
	runtime.ReadMemStats(&then)
	runtime.KeepAlive(got)
	return after.TotalAlloc - before.TotalAlloc, then.HeapAlloc - min(before.HeapAlloc, then.HeapAlloc)
}

// A log of 100 MB, half a million events, is read and added up in 300 MB of memory: an event
// keeps little more than itself and its text, and adding up copies none.
func TestEventsTakeLittleMemory(t *testing.T) {
	const n = 20_000
	text := notes(n)
	var events []sitelog.Event
	read, kept := taken(func() []sitelog.Event { events, _ = sitelog.Read(text); return events })
	if len(events) != n {
		t.Fatalf("%d events", len(events))
	}
	if read/n > 720 || kept/n > 400 {
		t.Errorf("an event takes %d bytes to read, and keeps %d; 720 and 400 are the most", read/n, kept/n)
	}
	runtime.KeepAlive(text)
	added, kept := taken(func() *sitelog.State { return sitelog.Replay(events, calendars.Never) })
	if added/n > 150 || kept/n > 40 {
		t.Errorf("an event takes %d bytes to add up, and keeps %d; 150 and 40 are the most", added/n, kept/n)
	}
	t.Logf("read %d, added up %d bytes an event", read/n, added/n)
}

// The text of a log is read as it comes, whatever the lengths of its lines.
func TestReadFromIsRead(t *testing.T) {
	text := bytes.Join([][]byte{notes(3), bytes.Repeat([]byte("x"), 200_000), many(2), []byte("\n torn")}, []byte("\n"))
	long := event("long", sitelog.Note, "07:00", "")
	long.Text = string(bytes.Repeat([]byte("y"), 150_000))
	text = append(long.Line(london), text...)
	events, aside, err := sitelog.ReadFrom(bytes.NewReader(text))
	if err != nil || len(events) != 6 {
		t.Fatalf("%d events, %v", len(events), err)
	}
	if i := sitelog.Find(events, "long"); i == nil || i.Text != long.Text {
		t.Error("the text of the long line is another")
	}
	if len(aside) != 2 || aside[0].Line != 6 || len(aside[0].Text) != 200_000 || aside[1].Line != 11 || !aside[1].Torn {
		t.Errorf("%d lines are set aside", len(aside))
	}
}
