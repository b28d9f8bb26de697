// Package tui is the terminal UI: views of one plan's programme, and pages about it. It
// reads no files, no clock and computes no schedule: what it needs comes as functions in
// [Options].
package tui

import (
	"context"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/said"
	"build.example/turflast/tui/draw"
)

// Options are what the terminal UI works with. Load, Logic and Crews run beside
// the screen, one call of each at a time.
type Options struct {
	// Name is the plan as the user knows it: a file name, or the built-in garden.
	Name string

	// Load reads the plan; it is nil when any problem is more than a warning.
	Load func() (*schedule.Plan, schedule.Problems)

	// Stat returns a stamp that changes whenever the plan's file does, such as its size
	// and time of change; empty while there is no file. Nil when the plan can't change.
	Stat func() string

	// Logic makes the logic programme of a plan: the one that was loaded, or a
	// copy with changes.
	Logic func(*schedule.Plan) (network.Case, error)

	// Crews looks for the crew programme of such a plan, and calls better with the
	// finish of every better one it finds. It keeps the starts of near, which may be
	// nil, where nothing is lost by it. It ends soon after the context does.
	Crews func(
		ctx context.Context, p *schedule.Plan, near *schedule.Programme, better func(finish calendars.Instant),
	) (network.Case, error)

	// Longer begins a search that goes on from what Crews finds of the same plan near the
	// same programme; nil when that isn't wanted. Steps is how many steps it goes on by
	// itself, and each time that it is asked for.
	Longer func(p *schedule.Plan, near *schedule.Programme) Longer
	Steps  int

	// Agree writes a programme as the newest baseline, and says so in a sentence; nil
	// where none can be written.
	Agree func(c network.Case, why string) (said string, err error)

	// Tolerances finds how late each delivery may come around a crew programme, and calls
	// asked after each; Pairs finds which two break a date together. Both are nil when that
	// isn't wanted.
	Tolerances func(ctx context.Context, c network.Case, asked func()) []tolerance.Delivery
	Pairs      func(ctx context.Context, c network.Case) []tolerance.Pair

	// Mends finds what would mend the dates that break in a crew programme, near a
	// reference that may be nil, without moving the bookings of the lorries held. It calls
	// soFar with what is known after each thing that was tried, and ends soon after the
	// context does with what it has. Nil when that isn't wanted.
	Mends func(ctx context.Context, c network.Case, near *schedule.Programme, held []schedule.DeliveryID,
		soFar func(*mend.Result)) *mend.Result

	// Tight finds what makes an activity of a crew programme tight, nil for nothing. It is
	// nil when that isn't wanted.
	Tight func(c network.Case, of schedule.Activity) *schedule.Tight

	// Odds builds a crew programme many times over.
	Odds func(ctx context.Context, c network.Case) (*odds.Result, error)

	// Harms is the same odds with what costs most, once their page is shown. It is nil when that
	// isn't wanted.
	Harms func(ctx context.Context, c network.Case, known *odds.Result) (*odds.Result, error)

	// Sturdier looks for programmes with a better chance than a crew programme, Recover for
	// the measures that bring every date of one back, near a reference that may be nil. The
	// former calls soFar as it goes. Nil when that isn't wanted.
	Sturdier func(ctx context.Context, c network.Case, soFar func(sturdier.SoFar)) (*sturdier.Result, error)
	Recover  func(ctx context.Context, c network.Case, near *schedule.Programme) (*recovery.Result, error)

	// Copy gives a text to the terminal's clipboard; nil where there is none.
	Copy func(text string) error

	// Words understand what is typed about a plan at a moment. Numbers finds tasks and
	// lorries by their numbers on the sheets.
	Words func(p *schedule.Plan, numbers func(int) schedule.Activity, now calendars.Instant) Words

	// WhatIfs keeps the changes that are tried; nil where they can't be kept.
	WhatIfs WhatIfs

	// File is the plan's file; nil when there is nothing to write to.
	File File

	// Log is the site log that ticks go to; nil when there is none. Agreed is what
	// the baselines of a plan say; nil when there are none. Written looks for the programme
	// of the plan as it is written, for the same plan with what a log adds: what was planned where
	// nothing was agreed or issued.
	Log     Log
	Agreed  func(p *schedule.Plan) (Agreed, error)
	Written func(written, p *schedule.Plan) *schedule.Programme

	// Now is the clock. It sets the day shown first and where now is drawn.
	Now func() calendars.Instant

	// Theme colours the screen; the zero Theme doesn't.
	Theme draw.Theme
}

// Words understand what people type. An error says in one line what isn't understood, or
// asks which of several meanings is meant.
type Words interface {
	Changes(text string) ([]schedule.Change, error)
	Happened(text string) (calendars.Instant, error)
	Coming(text string) (calendars.Instant, error)
	Hours(text string) (from, until calendars.Instant, err error)
	Work(text string) (calendars.Minutes, error)
	PutRight(text string) (said.Tick, error)
	Ticks(text string) ([]said.Tick, error)
	Instant(m schedule.Moment) (calendars.Instant, error)
	ChangeExample() string
	TickExample() string
}
