package main

import (
	"io"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/ask/review"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

func (p *program) reviewCommand() *cobra.Command {
	asJSON, all := false, false
	c := &cobra.Command{
		Use:   "review [PLAN]",
		Short: "Ask of a plan what an experienced lead would ask",
		Long: `Ask what an experienced lead would ask of a plan: what the practices of a published
guide to schedules say of its links, dates and floats, and what the trade knows of
structures, wet work, lifts and living stock. The gravest comes first. Each question
has its source, the line of the plan that it is about, and what to write there.

It asks, and decides nothing. What has an answer is written in the plan, and then
not asked again:

  answered:
    - {asked: clear ground, about: [steps], why: two people carry them in}

"about" names tasks, deliveries or crews; without it the answer is for all.

  PLAN  the plan; a folder means the plan.yaml in it, - standard input.
        Without it: plan.yaml in this folder, else the built-in garden.

Exit code: 0, whatever it asks; 2 when the plan can't be used.`,
		Example:           "  turflast review gardens/tidewall.yaml",
		Args:              atMost(1),
		ValidArgsFunction: planFiles,
		RunE:              func(c *cobra.Command, args []string) error { return p.review(c, args, all, asJSON) },
	}
	c.Flags().BoolVar(&all, "all", false, "list all that a question is about")
	addJSON(c, &asJSON)
	return c
}

func (p *program) review(c *cobra.Command, args []string, all, asJSON bool) error {
	s, err := p.find(c, args)
	if err != nil {
		return err
	}
	plan, problems, err := p.load(s)
	if err != nil {
		return err
	}
	if problems = checked(plan, problems); problems.Fatal() {
		return &problemsError{s.name, problems.Faults()}
	}
	found, err := review.Review(plan)
	if err != nil {
		return err
	}
	r := report.NewReview(plan, found)
	return p.print(asJSON, func(out io.Writer) error { return r.JSON(out) },
		func() *page.Document { return r.Page(all) })
}
