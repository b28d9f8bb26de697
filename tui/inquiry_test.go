package tui

import (
	"context"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
)

// The page of sturdier programmes says how far the search is as soon as it says so itself.
func TestSturdierSaysHowFar(t *testing.T) {
	b := demo(t)
	b.press("l")
	b.press("l")
	a := b.app()
	if a.crews == nil {
		t.Fatal("no crew programme is found")
	}
	told := make(chan struct{})
	a.opts.Sturdier = func(
		ctx context.Context, _ network.Case, soFar func(sturdier.SoFar),
	) (*sturdier.Result, error) {
		soFar(sturdier.SoFar{Step: 2, Steps: 4, Tried: 7, Planned: 0.04, SameMargin: 0.09, Sturdiest: 0.31})
		close(told)
		<-ctx.Done()
		return nil, ctx.Err()
	}
	a.page.kind = sturdierPage
	a, cmd := a.inquire(sturdierPage)
	before := lines(a.inquiryLines())
	over := make(chan struct{})
	go func() {
		defer close(over)
		cmd().(tea.BatchMsg)[0]() // the work; the other is the wait for a look
	}()
	<-told
	after := lines(a.inquiryLines())
	a.endStudies()
	<-over
	if !strings.Contains(before, "each built many times over") {
		t.Errorf("before it says how far: %s", before)
	}
	for _, want := range []string{"part 2 of 4", "7 others tried", "4.0 %", "9.0 %", "31 % at most."} {
		if !strings.Contains(after, want) {
			t.Errorf("no %q in %q", want, after)
		}
	}
}

// lines joins the lines of a page.
func lines(texts []page.Text) string {
	var out []string
	for _, l := range texts {
		out = append(out, strings.TrimSpace(l.String()))
	}
	return strings.Join(out, " ")
}
