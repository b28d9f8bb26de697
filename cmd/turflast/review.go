package main

import (
	"io"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/review"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

func (p *program) reviewCommand() *cobra.Command {
	var o reviewOptions
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

--write QUESTION writes what is advised for a question into the plan's file, of all it is
asked about or of those that --of names; --answer QUESTION --why REASON writes an
answer. Only the characters concerned change, and what is then left to ask is printed.

Where the plan has a site log, work under way of which it says nothing any more is asked
about too, and from two weeks before the site opens on whether a baseline is agreed.

  PLAN  the plan; a folder means the plan.yaml in it, - standard input.
        Without it: plan.yaml in this folder, else the built-in garden.

Exit code: 0, whatever it asks; 2 when the plan can't be used, or not written.`,
		Example: "  turflast review gardens/tidewall.yaml\n" +
			"  turflast review --write cure --of pave",
		Args:              atMost(1),
		ValidArgsFunction: planFiles,
		RunE:              func(c *cobra.Command, args []string) error { return p.review(c, args, &o) },
	}
	f := c.Flags()
	f.BoolVar(&o.all, "all", false, "list all that a question is about")
	f.StringSliceVar(&o.write, "write", nil, "write what is advised for these `QUESTIONS` into the plan's file")
	f.StringSliceVar(&o.of, "of", nil, "only of these `IDS` of tasks, deliveries or crews")
	f.StringVar(&o.answer, "answer", "", "write an answer to a `QUESTION` into the plan's file")
	f.StringVar(&o.why, "why", "", "the `REASON` of the answer")
	for _, name := range []string{"write", "answer"} {
		if err := c.RegisterFlagCompletionFunc(name, questionNames); err != nil {
			panic(err) // the option is there, and has no other
		}
	}
	addJSON(c, &o.asJSON)
	return c
}

// questionNames are the names of all questions, as one word each.
func questionNames(*cobra.Command, []string, string) (out []string, _ cobra.ShellCompDirective) {
	for _, q := range schedule.Questions() {
		out = append(out, strings.ReplaceAll(q, " ", "-"))
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

func (p *program) review(c *cobra.Command, args []string, o *reviewOptions) error {
	if err := o.check(); err != nil {
		return &usageError{err.Error(), c.CommandPath()}
	}
	s, err := p.find(c, args)
	if err != nil {
		return err
	}
	plan, found, err := p.reviewed(s)
	if err != nil {
		return err
	}
	if o.writes() {
		if err := p.writeAdvice(s, plan, found, o); err != nil {
			return err
		}
		if plan, found, err = p.reviewed(s); err != nil {
			return err
		}
	}
	r := report.NewReview(plan, found)
	return p.print(o.asJSON, func(out io.Writer) error { return r.JSON(out) },
		func() *page.Document { return r.Page(o.all) })
}

// reviewed is a plan as its file has it, and what is asked of it and its records.
func (p *program) reviewed(s source) (*schedule.Plan, []review.Finding, error) {
	plan, problems, err := p.load(s)
	if err != nil {
		return nil, nil, err
	}
	if problems = checked(plan, problems); problems.Fatal() {
		return nil, nil, &problemsError{s.name, problems.Faults()}
	}
	known, err := p.known(s, plan)
	if err != nil {
		return nil, nil, err
	}
	found, err := review.Review(plan, known)
	return plan, found, err
}

// known is what the log and the baselines of a plan say; without a file nothing is asked of
// those.
func (p *program) known(s source, plan *schedule.Plan) (k review.Records, err error) {
	if s.path == "" {
		return k, nil
	}
	events, err := p.events(s)
	if err != nil {
		return k, err
	}
	k.Now = calendars.InstantOf(p.env.Now())
	r := p.records(s)
	if n := len(r.baselines); n > 0 {
		k.Agreed = map[string]bool{}
		for i := range r.baselines[n-1].Tasks {
			k.Agreed[r.baselines[n-1].Tasks[i].ID] = true
		}
	}
	standing := progress.At(sitelog.Planned(plan, events, k.Now), events, r.newest(plan), k.Now)
	k.UnderWay, k.Done = map[string]calendars.Instant{}, true
	for i := range standing.Plan.Tasks {
		t, id := &standing.Plan.Tasks[i], schedule.TaskID(i)
		k.Done = k.Done && (t.Optional || standing.Plan.Finished(id))
		if standing.Plan.InHand(id) {
			k.UnderWay[t.ID] = standing.Plan.Progress.Tasks[id].Start
		}
	}
	for i := range events {
		e := &events[i]
		if e.At > k.Now {
			continue
		}
		k.Said = max(k.Said, e.At)
		if said, open := k.UnderWay[e.Task]; open {
			k.UnderWay[e.Task] = max(said, e.At)
		}
	}
	return k, nil
}
