package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/baseline"
	"build.example/turflast/testdata"
)

// The longer search that the screen is given counts its steps, ends with its context, and
// a programme that is taken lies beside the plan as its next baseline.
func TestTheScreenLooksOnAndAgrees(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plan.yaml")
	if err := os.WriteFile(path, []byte(testdata.Starter), 0o600); err != nil {
		t.Fatal(err)
	}
	src, err := file(path)
	if err != nil {
		t.Fatal(err)
	}
	p := &program{env: outside()}
	opts := p.screen(src)
	if opts.Steps != usualSteps {
		t.Errorf("%d steps by itself", opts.Steps)
	}
	plan, _ := opts.Load()
	l := opts.Longer(plan, nil)
	known, err := l.Step(context.Background())
	if err != nil || known.Steps == 0 && !known.Proven {
		t.Fatalf("after a step: %+v, %v", known, err)
	}
	if known.Better.Model != nil {
		t.Error("it betters what the search found of the starter plan")
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if known, err = l.Step(ctx); err != nil || known.Steps != 0 {
		t.Errorf("stopped: %+v, %v", known, err)
	}

	c, err := opts.Crews(context.Background(), plan, nil, func(_ calendars.Instant) {})
	if err != nil {
		t.Fatal(err)
	}
	for number, name := range []string{"plan.baseline-1.json", "plan.baseline-2.json"} {
		said, err := opts.Agree(c, "a longer search found it")
		if err != nil || !strings.Contains(said, name) {
			t.Fatalf("said %q, %v", said, err)
		}
		text, err := os.ReadFile(filepath.Join(filepath.Dir(path), name))
		if err != nil {
			t.Fatal(err)
		}
		b, err := baseline.Read(text)
		if err != nil || b.Number != number+1 || b.Why != "a longer search found it" || b.Finish != c.Programme.Finish {
			t.Errorf("%s is %+v, %v", name, b, err)
		}
	}
}
