package odds_test

import (
	"context"
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/internal/countdown"
)

// TestAnInterruptLeavesTheFirstBuilds: what is told after an interrupt is what would be
// told had so many builds been asked for.
func TestAnInterruptLeavesTheFirstBuilds(t *testing.T) {
	c := garden(t)
	o := odds.Options{Builds: 5000, Seed: 7, Pace: odds.UsualPace}
	some := 0
	for _, asked := range []int64{0, 1, 2, 3, 6, 20} {
		r, err := odds.Run(countdown.From(asked), c, o)
		if !errors.Is(err, context.Canceled) {
			t.Fatalf("after %d questions the error is %v", asked, err)
		}
		if r == nil {
			continue
		}
		some++
		if r.Asked != o.Builds || r.Builds >= o.Builds {
			t.Fatalf("%d of %d builds, want fewer than %d", r.Builds, r.Asked, o.Builds)
		}
		fewer := o
		fewer.Builds = r.Builds
		want, err := odds.Run(context.Background(), c, fewer)
		if err != nil {
			t.Fatal(err)
		}
		want.Asked = o.Builds
		if diff := cmp.Diff(want, r); diff != "" {
			t.Errorf("after %d builds (-want +got):\n%s", r.Builds, diff)
		}
	}
	if some < 2 {
		t.Errorf("only %d interrupts left builds", some)
	}
}
