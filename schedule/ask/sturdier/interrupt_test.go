package sturdier_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/internal/countdown"
	"build.example/turflast/schedule/verify"
)

// TestAnInterruptLeavesTheChoicesSoFar: what was looked at by then is told, each choice with
// as many builds on time as it has.
func TestAnInterruptLeavesTheChoicesSoFar(t *testing.T) {
	of := solved(t, strings.Replace(orderPlan, "%s", "", 1))
	some := 0
	for asked := int64(0); asked < 12_000; asked += asked/4 + 1 {
		r, err := sturdier.Find(countdown.From(asked), of, options(400), nil)
		if err == nil {
			break // it ended by itself
		}
		if !errors.Is(err, context.Canceled) {
			t.Fatalf("after %d questions the error is %v", asked, err)
		}
		if r == nil {
			continue
		}
		if !r.Cut || r.Tried == 0 || r.Choices[0].Kind != sturdier.AsPlanned || len(r.Advice) > 0 {
			t.Fatalf("after %d questions: cut %v, %d tried, %d choices", asked, r.Cut, r.Tried, len(r.Choices))
		}
		for k := range r.Choices {
			c := &r.Choices[k]
			if found := verify.Check(c.Plan, c.Programme, c.Programme.Scope); len(found.Rules) > 0 {
				t.Fatalf("the check refuses a choice: %v", found.Rules[0])
			}
			onTime := 0
			list, err := odds.Outcomes(ctx, c.Case, r.Options)
			if err != nil {
				t.Fatal(err)
			}
			for _, x := range list {
				if x.Finish <= c.Plan.Site.Handover {
					onTime++
				}
			}
			if onTime != c.OnTime {
				t.Errorf("after %d questions, %v: %d builds are said to be on time of %d, %d are",
					asked, c.Kind, c.OnTime, r.Builds, onTime)
			}
			if k > 0 {
				some++
			}
		}
	}
	if some == 0 {
		t.Error("no interrupt left a choice")
	}
}
