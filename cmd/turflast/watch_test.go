package main

import (
	"bytes"
	"context"
	"fmt"
	"testing"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/testdata"
)

// watching is a search that is watched by a clock that the test moves itself.
func watching(t *testing.T, rewrites bool) (p *schedule.Plan, w *watch, out *bytes.Buffer) {
	p, out = garden(t, testdata.Demo), &bytes.Buffer{}
	env := outside()
	env.Rewrites = rewrites
	w = (&program{stderr: out, env: env}).watch(wording.New(p))
	t.Cleanup(w.end)
	return p, w, out
}

func TestASearchIsToldOfInAFewLines(t *testing.T) {
	p, w, out := watching(t, false)
	at := func(d time.Duration) { w.look(outside().Now().Add(d)) }
	at(400 * time.Millisecond)
	if out.Len() > 0 {
		t.Errorf("told at once: %q", out)
	}
	at(600 * time.Millisecond)
	w.better(solve.Progress{Schedules: 7, Finish: p.Site.Handover})
	w.better(solve.Progress{Schedules: 1, Finish: p.Site.Handover + 60}) // another search begins
	for _, d := range []time.Duration{1, 2, 4, 6, 8, 20, 49, 51, 60, 400} {
		at(d * time.Second)
	}
	w.end()
	at(time.Hour)
	const want = "turflast: looking for a crew programme; Ctrl-C ends the search\n" +
		"turflast: looking for better than Sat 8 May 15:00; Ctrl-C keeps that\n" +
		"turflast: looking for better than Sat 8 May 15:00; Ctrl-C keeps that\n"
	if got := out.String(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

func TestOnATerminalALineIsRewrittenAndWiped(t *testing.T) {
	p, w, out := watching(t, true)
	at := func(d time.Duration) { w.look(outside().Now().Add(d)) }
	at(400 * time.Millisecond)
	at(600 * time.Millisecond)
	w.better(solve.Progress{Finish: p.Site.Handover})
	at(800 * time.Millisecond)
	w.end()
	w.end()
	at(time.Second)
	const want = "\r\x1b[Klooking for a crew programme; Ctrl-C ends the search" +
		"\r\x1b[Klooking for better than Sat 8 May 15:00; Ctrl-C keeps that\r\x1b[K"
	if got := out.String(); got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

// A longer search says how far it is, the best so far and what is proven. The step is told
// though nothing better is found in it.
func TestALongerSearchSaysHowFarItIs(t *testing.T) {
	p, w, out := watching(t, false)
	line := p.Site.Handover
	for _, q := range []solve.Progress{
		{Finish: line},
		{Finish: line, Step: 1, Steps: 20},
		{Finish: line - 60, Step: 2, Steps: 20, Bound: line - 120},
		{Finish: line, Step: 3, Steps: 20, Bound: line - 120},
		{Finish: line, Step: 4, Steps: 20, Bound: line - 60},
	} {
		w.better(q)
		fmt.Fprintln(out, w.text)
	}
	const want = "looking for better than Sat 8 May 15:00; Ctrl-C keeps that\n" +
		"step 1 of 20: Sat 8 May 15:00; Ctrl-C keeps it\n" +
		"step 2 of 20: Sat 8 May 14:00, at best Sat 8 May 13:00; Ctrl-C keeps it\n" +
		"step 3 of 20: Sat 8 May 14:00, at best Sat 8 May 13:00; Ctrl-C keeps it\n" +
		"step 4 of 20: Sat 8 May 14:00; Ctrl-C keeps it\n"
	if got := out.String(); got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

func TestAShortSearchIsNotToldOf(t *testing.T) {
	_, w, out := watching(t, true)
	w.end()
	if out.Len() > 0 {
		t.Errorf("told: %q", out)
	}
}

func TestAnInterruptKeepsTheBestSoFar(t *testing.T) {
	p := garden(t, testdata.Demo)
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	var out bytes.Buffer
	c, err := (&program{stderr: &out, env: outside()}).crewsUntil(ctx, s, solve.Options{})
	if err != nil || c.Programme.Scope != schedule.Crews || !c.Programme.Finish.IsReal() {
		t.Fatalf("no programme: %v", err)
	}
	const want = "Interrupted: this is the best programme so far. Left out: the rest of the search for a better " +
		"one and the rest of the proof that there is none.\n"
	if got := out.String(); got != want {
		t.Errorf("said %q, want %q", got, want)
	}
}

// The functions that the terminal UI is given solve a plan in both scopes, and
// a copy with another booking.
func TestTheScreenSolvesInBothScopes(t *testing.T) {
	p := garden(t, testdata.Starter)
	opts := (&program{env: outside()}).screen(builtIn())
	logic, err := opts.Logic(p)
	if err != nil {
		t.Fatal(err)
	}
	told := 0
	crews, err := opts.Crews(context.Background(), p, nil, func(finish calendars.Instant) { told++ })
	if err != nil {
		t.Fatal(err)
	}
	if logic.Programme.Scope != schedule.Logic || crews.Programme.Scope != schedule.Crews || told == 0 {
		t.Errorf("scopes %v and %v, told of %d programmes", logic.Programme.Scope, crews.Programme.Scope, told)
	}
	turf := p.FindDelivery("turf")
	later, err := opts.Crews(context.Background(),
		p.Rebooked(turf, p.Deliveries[turf].Arrives+60), nil, func(calendars.Instant) {})
	if err != nil {
		t.Fatal(err)
	}
	if a, b := crews.Programme.Unloads[turf].Arrives, later.Programme.Unloads[turf].Arrives; b != a+60 {
		t.Errorf("booked an hour later, it comes %d minutes later", b-a)
	}
}
