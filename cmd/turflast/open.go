package main

import (
	"context"
	"errors"
	"math"
	"os"
	"runtime/debug"
	"strings"
	"sync"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/cmd/turflast/logfile"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/recovery"
	"build.example/turflast/schedule/ask/sturdier"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/said"
	"build.example/turflast/tui"
)

// openCommand is the program without a command: the terminal UI.
func (p *program) openCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "turflast [PLAN]",
		Short: "Plan the build of a garden against a fixed window",
		Long: `turflast plans the build of a garden against a fixed window: a site that opens on
one date, a hand-over that cannot move. It looks for the programme in which nobody,
no machine, no room and no place at the gate is taken twice, and says whether the
hand-over holds and by how much, what drives the date, and how far every task and
lorry may slip.

Without a command it opens the plan in the terminal; when the output is no
terminal it prints the report of "turflast plan".

  PLAN  the plan file; a folder means the plan.yaml in it, - standard input.
        Without it: plan.yaml in this folder, else the built-in garden.
        A command's name wins over a file's: say ./check for a file "check".

` + asAtWords + `

It is a planning aid. It replaces no engineer, no licensed trade, no site rules.

` + exitWords,
		Example: "  turflast                 the built-in garden, or plan.yaml in this folder\n" +
			"  turflast new mine        a plan to start from\n" +
			"  turflast mine            open it",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) > 1 {
				// More arguments than one belong to a command.
				if _, err := file(args[0]); err != nil {
					return p.orCommand(c, args, err)
				}
			}
			return atMost(1)(c, args)
		},
		ValidArgsFunction: planFiles,
		RunE:              p.open,
	}
	c.Version = version()
	c.SetVersionTemplate("turflast {{.Version}}\n")
	c.Flags().Bool("version", false, "print which build this is")
	p.addLook(c)
	addAsAt(c)
	p.addSteps(c, "look longer for a better programme: so many `STEPS` more; on the screen while nothing else is to do")
	return c
}

func (p *program) open(c *cobra.Command, args []string) error {
	if !p.env.Terminal {
		return p.orCommand(c, args, p.plan(c, args, shown{}))
	}
	src, err := p.find(c, args)
	if err != nil {
		return p.orCommand(c, args, err)
	}
	if src.path == "" {
		// Standard input can be read once only.
		text, err := src.read()
		if err != nil {
			return err
		}
		src.read = func() ([]byte, error) { return text, nil }
	}
	looks, err := p.appearance(true)
	if err != nil {
		return err
	}
	opts := p.screen(src)
	opts.Theme = p.theme(looks)
	if err := p.standAt(c, src, &opts); err != nil {
		return err
	}
	if p.env.Getenv("GOGC") == "" {
		defer debug.SetGCPercent(debug.SetGCPercent(roomy))
		defer debug.SetMemoryLimit(debug.SetMemoryLimit(roomFor(src)))
	}
	err = tui.Run(opts)
	var ours *tui.Panic
	switch {
	case errors.As(err, &ours):
		return panicked(ours)
	case errors.Is(err, tea.ErrProgramPanic):
		return &fault{what: "the terminal UI failed"}
	}
	return err
}

// roomy is how much garbage may pile up while the screen is open, in per cent
// of the memory in use: searches leave much of it, and collecting it takes
// processor time from the screen.
const roomy = 400

// Memory that the screen may take, in bytes, before garbage is collected sooner: for any
// plan, and for each byte of its text. A plan of 1,000 tasks has some 200,000.
const roomForAll, roomForByte = 92 << 20, 200

// roomFor is how much memory the screen of a plan may take before garbage is collected
// sooner than [roomy] says.
func roomFor(src source) int64 {
	text, err := src.read()
	if err != nil {
		return math.MaxInt64 // which is said as the plan is opened
	}
	return roomForAll + roomForByte*int64(len(text))
}

// orCommand adds the command that may have been meant to an error about a file
// that isn't there.
func (p *program) orCommand(c *cobra.Command, args []string, err error) error {
	if len(args) > 0 && errors.Is(err, errNoFile) && !strings.ContainsAny(args[0], `/\\.`) {
		return unknownCommand(c, args[0], "a command or a file")
	}
	return err
}

// screen is what the terminal UI is given to work with.
func (p *program) screen(src source) tui.Options {
	solves, file := &solving{}, &screenFile{p: p, src: src}
	read := src
	read.read = file.read
	opts := tui.Options{
		Name: src.name,
		Load: func() (*schedule.Plan, schedule.Problems) {
			plan, problems, err := p.load(read)
			if err != nil {
				return nil, schedule.Problems{{Text: err.Error()}}
			}
			if problems = checked(plan, problems); problems.Fatal() {
				return nil, problems
			}
			return plan, problems
		},
		Logic:  solves.logic,
		Crews:  solves.crews,
		Longer: solves.longer,
		Steps:  p.screenSteps(),

		Tolerances: tolerances,
		Pairs:      pairs,
		Tight:      tight,
		Odds:       builds,
		Harms:      harmed,
		Mends:      mending,
		Sturdier:   sturdierOnes,
		Recover:    recovering,

		Copy: p.clip,

		Words: func(plan *schedule.Plan, numbers func(int) schedule.Activity, now calendars.Instant) tui.Words {
			return said.New(plan, now, numbers)
		},
		WhatIfs: whatIfFiles{p, src.beside()},

		Now: func() calendars.Instant { return calendars.InstantOf(p.env.Now()) },
	}
	if src.path != "" {
		opts.File = file
		opts.Stat = func() string { return logfile.Stamp(src.path) }
		opts.Log = &screenLog{p, src}
		opts.Agree = func(c network.Case, why string) (string, error) { return p.agree(src, c, why) }
		opts.Agreed = func(plan *schedule.Plan) (tui.Agreed, error) {
			r := p.records(src)
			if r.unread != nil {
				return tui.Agreed{}, r.unread
			}
			out := tui.Agreed{Programme: r.newest(plan), Numbered: r.numbered(), Issues: r.issues,
				Planned: r.planned(plan)}
			if n := len(r.baselines); n > 0 {
				out.Number = r.baselines[n-1].Number
			}
			return out, nil
		}
		opts.Written = p.filed.planned
	}
	return opts
}

// solving solves plans for the terminal UI. A copy of the last plan with other
// bookings is solved without building its network again.
type solving struct {
	mu   sync.Mutex
	last *solve.Solver
}

func (s *solving) of(plan *schedule.Plan) (*solve.Solver, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.last != nil && s.last.Plan().SameButBookings(plan) {
		return s.last.Rebook(plan), nil
	}
	made, err := solve.New(plan)
	if err == nil {
		s.last = made
	}
	return made, err
}

func (s *solving) logic(plan *schedule.Plan) (network.Case, error) {
	solver, err := s.of(plan)
	if err != nil {
		return network.Case{}, err
	}
	return verified(solver.Logic())
}

func (s *solving) crews(ctx context.Context, plan *schedule.Plan,
	near *schedule.Programme, better func(calendars.Instant)) (network.Case, error) {
	solver, err := s.of(plan)
	if err != nil {
		return network.Case{}, err
	}
	return verified(solver.Crews(ctx,
		solve.Options{Reference: near, Progress: func(p solve.Progress) { better(p.Finish) }}))
}

// tolerances finds how late each delivery may come.
func tolerances(ctx context.Context, c network.Case, asked func()) []tolerance.Delivery {
	return tolerance.Deliveries(ctx, c, tolerance.Options{Done: asked})
}

// pairs finds which two late deliveries break a date together.
func pairs(ctx context.Context, c network.Case) []tolerance.Pair {
	return tolerance.Pairs(ctx, c, tolerance.Options{})
}

// mending finds what would mend the dates that break; nothing when a programme on the way
// was refused by its check.
func mending(ctx context.Context, c network.Case, near *schedule.Programme, held []schedule.DeliveryID,
	soFar func(*mend.Result)) *mend.Result {
	found, err := mend.Find(ctx, c, mend.Options{Reference: near, Held: held, Progress: soFar})
	if err != nil {
		return &mend.Result{}
	}
	return found
}

// sturdierOnes looks for programmes with a better chance, as "turflast sturdier" does.
func sturdierOnes(
	ctx context.Context, c network.Case, soFar func(sturdier.SoFar),
) (*sturdier.Result, error) {
	return sturdier.Find(ctx, c, odds.Usual(), soFar)
}

// recovering finds what to buy when dates break, as "turflast recover" does without prices.
func recovering(ctx context.Context, c network.Case, near *schedule.Programme) (*recovery.Result, error) {
	if c.Programme.Blocked == nil && len(c.Programme.Breaks) == 0 {
		return &recovery.Result{Proven: true}, nil
	}
	found, err := recovery.All(ctx, c, &schedule.Prices{}, solve.Options{Reference: near})
	return &found, err
}

// clip gives a text to the terminal's clipboard, if it takes it (the OSC 52 sequence).
func (p *program) clip(text string) error {
	termenv.NewOutput(os.Stdout).Copy(text)
	return nil
}

// harmed adds what costs most to odds.
func harmed(ctx context.Context, c network.Case, known *odds.Result) (*odds.Result, error) {
	out := *known
	found, err := odds.Harms(ctx, c, known.Options)
	if err != nil {
		found = &odds.Harmed{} // it isn't looked for again
	}
	out.Harmed = found
	return &out, nil
}

// builds builds a programme as "turflast odds" does.
func builds(ctx context.Context, c network.Case) (*odds.Result, error) {
	return odds.Better(ctx, c, odds.Usual())
}
