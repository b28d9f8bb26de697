package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/starters"
)

// strike writes a plan that takes a garden down again.
func (p *program) strike(c *cobra.Command, args []string, o *starterOptions) error {
	if err := allNew(within(folder(args), planDocuments(""))); err != nil {
		return err
	}
	src, err := file(o.strikeOf)
	if err != nil {
		return err
	}
	plan, problems, err := p.load(src)
	switch {
	case err != nil:
		return err
	case problems.Fatal():
		return &problemsError{src.name, problems.Faults()}
	}
	g := starters.Garden{Name: plan.Garden + ", taken down", Ground: starters.Dug, Place: starters.PlaceOf(plan)}
	if c.Flags().Changed("garden") {
		g.Name = o.garden
	}
	if err := strikeDates(&g, plan, o); err != nil {
		return &usageError{err.Error(), c.CommandPath()}
	}
	s, err := starters.StrikeOf(plan, g)
	if err != nil {
		return err
	}
	return p.writeBooked(args, "", s.Book)
}

// strikeDates puts the window of a strike into a garden: a week after the hand-over, for a
// week, unless it is given.
func strikeDates(g *starters.Garden, plan *schedule.Plan, o *starterOptions) (err error) {
	if g.Hours, err = weekOf(o.hours); err != nil {
		return err
	}
	if o.opens == "" || o.handover == "" {
		g.Guessed = append(g.Guessed, "dates")
	}
	first := calendars.DateIn(plan.Site.Handover, g.Place.Location) + 7
	first += calendars.Date((8 - int(first.Weekday())) % 7) // the Monday from then on
	g.Opens, _ = calendars.At(g.Place.Location, first, g.Begins())
	if o.opens != "" {
		if g.Opens, err = momentOf(g, o.opens, g.Begins()); err != nil {
			return fmt.Errorf("--opens: %w", err)
		}
	}
	g.Handover, _ = calendars.At(g.Place.Location, calendars.DateIn(g.Opens, g.Place.Location)+4, g.Ends())
	if o.handover != "" {
		if g.Handover, err = momentOf(g, o.handover, g.Ends()); err != nil {
			return fmt.Errorf("--handover: %w", err)
		}
	}
	return windowFits(g)
}
