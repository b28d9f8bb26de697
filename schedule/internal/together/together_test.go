package together_test

import (
	"runtime"
	"strings"
	"sync/atomic"
	"testing"

	"build.example/turflast/schedule/internal/together"
)

func TestAllRun(t *testing.T) {
	var g together.Group
	var sum atomic.Int64
	for i := range 10 {
		g.Go(func() { sum.Add(int64(i)) })
	}
	g.Wait()
	if sum.Load() != 45 {
		t.Errorf("sum %d", sum.Load())
	}
}

func broken() { panic("out of turf") }

// A panic reaches whoever waits, with the place where it happened, also from a
// group within a group; the other functions run to their end.
func TestPanicReachesWait(t *testing.T) {
	var outer together.Group
	var ended atomic.Bool
	outer.Go(func() {
		var inner together.Group
		inner.Go(broken)
		inner.Go(func() { ended.Store(true) })
		inner.Wait()
	})
	defer func() {
		p, ok := recover().(*together.Panic)
		if !ok || p.String() != "out of turf" || !ended.Load() {
			t.Fatalf("%v, the other ended: %v", p, ended.Load())
		}
		names := ""
		for frames := runtime.CallersFrames(p.Frames()); ; {
			f, more := frames.Next()
			names += f.Function + "\n"
			if !more {
				break
			}
		}
		if !strings.Contains(names, "together_test.broken") {
			t.Errorf("the stack doesn't say where:\n%s", names)
		}
	}()
	outer.Wait()
}
