// Package sturdier looks for programmes with a better chance to hand over on time
// than a plan's own: other orders of hands, and other bookings where they may be
// moved.
//
// Candidates come from builds known beforehand: some builds are drawn as [odds]
// draws them, and each is solved as if all of it were known. The order of hands that
// suits it, or the mean of several such orders, then makes a programme of the plan
// itself, in which everything starts as soon as what is shared allows. Then bookings
// that may move are moved one by one. Every candidate is checked, meets the dates that
// the plan's programme meets, and is built many times over with the same draws as the
// plan's (common random numbers). Some draws choose and others judge, so that the
// choice doesn't flatter its chance.
//
// What has no place in the plan's programme has none in any choice: all are about the
// same rest.
package sturdier

import (
	"context"
	"errors"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/whatif"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
)

// Kind names a choice.
type Kind uint8

// The choices.
const (
	AsPlanned  Kind = iota // the plan's own programme
	SameMargin             // done no later, with a better chance
	Between                // done later, part of the way to the sturdiest
	Sturdiest              // the best chance found, whatever it costs of the margin
)

// String returns what a choice is called on a page, in JSON and on the command line.
func (k Kind) String() string {
	return [...]string{"as planned", "same margin", "between", "sturdiest"}[k]
}

// Choice is one programme and how it fares.
type Choice struct {
	network.Case // the plan with its bookings
	Kind         Kind

	OnTime    int     // builds whose last required work is done by the hand-over
	Low, High float64 // 95 % confidence interval of that chance, by Wilson
	Broken    int     // builds in which a date other than the hand-over of a task breaks
	By        [3]calendars.Instant
	Gain      Gain // over the plan's own programme; zero for that one

	Moved  []whatif.Moved // tasks that start or finish at another time than as planned
	Booked []schedule.DeliveryID
	Handed []HandOn
	Spare  []Spare
}

// Gain is what a programme gains over the plan's own, build by build with the same
// draws.
type Gain struct {
	Won, Lost int // builds that are on time with it and not as planned, and the other way round
	Share     float64
	Low, High float64 // 95 % confidence interval of the share, for pairs (Agresti and Min, 2005)
}

// Sure says whether the confidence interval of the gain lies above 0.
func (g Gain) Sure() bool { return g.Low > 0 }

// HandOn is a crew that does two tasks in another order than as planned.
type HandOn struct {
	Crew        schedule.CrewID
	First, Then schedule.TaskID // Then came first as planned
}

// Spare is a task whose crew float is larger than as planned.
type Spare struct {
	Task     schedule.TaskID
	Was, Now calendars.Minutes
}

// Advice is a change that the plan as it is doesn't allow, and what it would
// gain with everything else in its order. Either Activity or Measure says what.
type Advice struct {
	Activity schedule.Activity // a lorry to be booked for To, an optional task to be left out, or Nothing
	To       calendars.Instant
	Measure  int // index in Plan.Measures of a measure to be bought, or None
	Gain     Gain
}

// Result is what was found.
type Result struct {
	odds.Options
	Choices []Choice // as planned first, then by finish
	Advice  []Advice // what gains most first
	Tried   int      // programmes looked at
	Cut     bool     // an interrupt left the rest of the search out: the builds that chose the choices judge them too
}

// ErrRefused is the fault of a programme that its check refuses.
var ErrRefused = errors.New("sturdier: a programme was refused by its check")

// search looks for sturdier programmes than base.
type search struct {
	ctx  context.Context
	s    *solve.Solver // of the plan with the programme's bookings
	o    odds.Options
	base *candidate
	cap  calendars.Instant // no finish later than this
	all  []*candidate      // judged, base first
	seen map[string]bool
	tell func(SoFar) // may be nil
	step int
}

// Find looks for sturdier programmes than a crew programme. The builds of the options
// judge the choices; other builds, fewer, judge what is tried on the way. The error is
// that of [odds.Run], or [ErrRefused]. With the context's, the result is that of what was
// looked at by then, judged by those fewer builds; nil when nothing but the plan's own
// programme was. It tells how far it is as it goes, by one goroutine; tell may be nil.
func Find(ctx context.Context, c network.Case, o odds.Options, tell func(SoFar)) (*Result, error) {
	c = booked(c)
	x := &search{ctx: ctx, s: solve.Again(c), o: o, seen: make(map[string]bool), base: &candidate{Case: c}, tell: tell}
	x.cap = max(c.Plan.Site.Handover, c.Programme.Finish)
	x.seen[x.base.key()] = true
	x.all = []*candidate{x.base}
	r, err := x.find()
	if err != nil && ctx.Err() != nil {
		return x.soFar(), err
	}
	return r, err
}

func (x *search) find() (*Result, error) {
	if certain, err := x.certain(); err != nil {
		return nil, err
	} else if certain { // nothing can be gained
		return &Result{Options: x.o, Choices: []Choice{x.choice(AsPlanned, x.base)}}, nil
	}
	for k, step := range [...]func() error{x.orders, x.crosses, x.bookings} {
		x.step = k + 1
		if err := step(); err != nil {
			return nil, err
		}
	}
	x.step = steps
	x.sayHow()
	r := &Result{Options: x.o, Tried: len(x.all) - 1}
	if err := x.choose(r); err != nil {
		return nil, err
	}
	return r, x.advise(r)
}

// certain says whether the plan's own programme is in time in every build. If not, the
// builds that judge what is tried have judged it.
func (x *search) certain() (bool, error) {
	screen := x.screen()
	if err := x.judge(x.all, screen); err != nil || x.base.onTime < screen.Builds {
		return false, err
	}
	if err := x.judge(x.all, x.o); err != nil || x.base.onTime == x.o.Builds {
		return true, err
	}
	return false, x.judge(x.all, screen)
}

// soFar is what was found when the context was done: of the candidates that were screened,
// the best of each kind; nil when there is none.
func (x *search) soFar() *Result {
	o := x.screen()
	x.all = slices.DeleteFunc(x.all, func(c *candidate) bool { return len(c.outcomes) != o.Builds })
	if len(x.all) < 2 || x.all[0] != x.base {
		return nil
	}
	r := &Result{Options: o, Tried: len(x.all) - 1, Cut: true, Choices: []Choice{x.choice(AsPlanned, x.base)}}
	for k, c := range x.pick() {
		if c == nil {
			continue
		}
		whole, err := x.whole(c)
		if err != nil {
			continue
		}
		whole.onTime, whole.broken, whole.outcomes = c.onTime, c.broken, c.outcomes
		r.Choices = append(r.Choices, x.choice(Kind(k), whole))
	}
	return r
}
