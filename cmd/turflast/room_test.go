package main

import (
	"errors"
	"math"
	"testing"
)

// TestRoomForAThousandTasks: a plan of 1,000 tasks is to do with 150 MB, of which what isn't
// the collector's, the program itself above all, takes some 12.
func TestRoomForAThousandTasks(t *testing.T) {
	text := make([]byte, 200_000)
	room := roomFor(source{read: func() ([]byte, error) { return text, nil }})
	if room < 100<<20 || room > 138e6 {
		t.Errorf("room for %d bytes, of a plan of %d", room, len(text))
	}
	none := roomFor(source{read: func() ([]byte, error) { return nil, errors.New("gone") }})
	if none != math.MaxInt64 {
		t.Errorf("a plan that can't be read has room for %d bytes", none)
	}
}
