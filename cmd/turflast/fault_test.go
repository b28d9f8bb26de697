package main

import (
	"runtime"
	"strings"
	"testing"
)

// beside is the value of a panic that happened in another goroutine.
type beside struct{ frames []uintptr }

func (beside) String() string { return "out of turf" }

func (b beside) Frames() []uintptr { return b.frames }

func searching() beside {
	var pcs [8]uintptr
	return beside{pcs[:runtime.Callers(1, pcs[:])]}
}

// A fault tells where the panic happened, not where it reached whoever waited.
func TestFaultOfAnotherGoroutine(t *testing.T) {
	f := panicked(searching())
	if at := strings.Join(f.lines, "\n"); f.Error() != "out of turf" ||
		!strings.Contains(at, ".searching fault_test.go:") {
		t.Errorf("%v\n%s", f, at)
	}
}
