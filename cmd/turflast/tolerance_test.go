package main

import (
	"bytes"
	"context"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/testdata"
)

func TestQuestionsAreToldOfAsTheyAreDone(t *testing.T) {
	_, w, out := watching(t, false)
	at := func(d time.Duration) { w.look(outside().Now().Add(d)) }
	deliveries := w.counted("deliveries", 12)
	at(600 * time.Millisecond)
	deliveries.Done()
	deliveries.Done()
	at(6 * time.Second)
	pairs := w.counted("late deliveries, alone and in pairs", 0)
	pairs.Done()
	at(51 * time.Second)
	const want = "turflast: deliveries: 0 of 12 done; Ctrl-C ends it with those\n" +
		"turflast: deliveries: 2 of 12 done; Ctrl-C ends it with those\n" +
		"turflast: late deliveries, alone and in pairs: 1 done; Ctrl-C ends it with those\n"
	if got := out.String(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

func TestAnInterruptBeforeAnyDeliveryIsDoneTellsNoFigures(t *testing.T) {
	s, err := solve.New(garden(t, testdata.Starter))
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	var out bytes.Buffer
	p := &program{stderr: &out, env: outside()}
	found := p.tolerances(ctx, &solved{Case: s.Logic()}, toleranceAsked{tasks: true, pairs: true})
	if diff := cmp.Diff(&report.Tolerance{Stopped: true}, found); diff != "" || out.Len() > 0 {
		t.Errorf("found (-want +got):\n%s, said %q", diff, &out)
	}
}
