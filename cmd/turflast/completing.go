package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/progress"
	"build.example/turflast/schedule/site/sitelog"
)

// mostDatesShown bounds the dates that are offered: those of a window.
const mostDatesShown = 200

// described is a choice with what it is, as shells show it beside.
func described(word, is string) string {
	return word + "\t" + strings.Map(func(r rune) rune {
		if r == '\t' || r == '\n' {
			return ' '
		}
		return r
	}, printable(is))
}

// activities are tasks and lorries with their names: by their numbers on the sheets where
// a number is begun, else by their ids.
func (p *program) activities(s source, plan *schedule.Plan, begun string, fits func(schedule.Activity) bool) []string {
	known := p.records(s) // without one that can't be read the numbers may be others
	n := known.numbers(plan)
	var out []string
	for a := range plan.Activities() {
		switch {
		case !fits(a):
		case begun != "" && begun[0] >= '0' && begun[0] <= '9':
			out = append(out, described(fmt.Sprint(n.Of(a)), plan.ActivityName(a)))
		default:
			out = append(out, described(plan.ActivityID(a), plan.ActivityName(a)))
		}
	}
	return out
}

// completeNames completes the tasks and deliveries of a plan.
func (p *program) completeNames(c *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
	plan, s, err := p.mustLoad(c, nil)
	if len(args) > 0 || err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return p.activities(s, plan, begun, func(schedule.Activity) bool { return true }), cobra.ShellCompDirectiveNoFileComp
}

// completeCrews completes the crews of a plan.
func (p *program) completeCrews(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	plan, _, err := p.mustLoad(c, nil)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return crewNames(plan), cobra.ShellCompDirectiveNoFileComp
}

func crewNames(plan *schedule.Plan) []string {
	var out []string
	for i := range plan.Crews {
		out = append(out, described(plan.Crews[i].ID, plan.Crews[i].Name))
	}
	return out
}

// completeThings completes the first argument of an event: what it may be about.
func (p *program) completeThings(k logKind) cobra.CompletionFunc {
	words := strings.Fields(k.use)
	return func(c *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 && !k.more || len(words) < 2 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		plan, s, err := p.mustLoad(c, nil)
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		var out []string
		switch strings.TrimRight(words[1], ".") {
		case "TASK":
			out = p.activities(s, plan, begun, func(a schedule.Activity) bool { _, task := plan.Task(a); return task })
		case "LORRY":
			out = p.activities(s, plan, begun, func(a schedule.Activity) bool { _, lorry := plan.Delivery(a); return lorry })
		case "CREW":
			out = crewNames(plan)
		case "ITEM":
			out = p.openDesk(s, plan)
		case "GIVEN":
			for i := range plan.Givens {
				out = append(out, described(plan.Givens[i].ID, plan.Givens[i].What))
			}
		}
		return out, cobra.ShellCompDirectiveNoFileComp
	}
}

// openDesk are the items of the desk list that the log doesn't have as settled; all where it
// can't be read.
func (p *program) openDesk(s source, plan *schedule.Plan) (out []string) {
	if events, _, err := readLog(s.logPath()); err == nil && len(events) > 0 {
		now := calendars.InstantOf(p.env.Now())
		plan = progress.At(sitelog.Planned(plan, events, now), events, nil, now).Plan
	}
	for i := range plan.Desk {
		if plan.DeskSettled(schedule.DeskID(i)) == 0 {
			out = append(out, described(plan.Desk[i].ID, plan.Desk[i].What))
		}
	}
	return out
}

// completeDates completes the dates of a plan's window.
func (p *program) completeDates(c *cobra.Command, _ []string, _ string) ([]string, cobra.ShellCompDirective) {
	plan, _, err := p.mustLoad(c, nil)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return datesOf(plan), cobra.ShellCompDirectiveNoFileComp
}

func datesOf(plan *schedule.Plan) []string {
	var out []string
	last := calendars.DateIn(plan.Site.Handover, plan.Site.Location)
	for d := calendars.DateIn(plan.Site.Opens, plan.Site.Location); d <= last && len(out) < mostDatesShown; d++ {
		at, _ := calendars.At(plan.Site.Location, d, calendars.Day/2)
		out = append(out, described(d.String(), at.In(plan.Site.Location).Format("Mon 2 Jan")))
	}
	return out
}

// completeDateOptions makes the options of a command, and of those under it, that name a
// date or a moment complete the dates of the window.
func (p *program) completeDateOptions(c *cobra.Command) {
	for _, name := range []string{"on", asAtFlag} {
		if c.Flags().Lookup(name) == nil {
			continue
		}
		if _, known := c.GetFlagCompletionFunc(name); known {
			continue
		}
		if err := c.RegisterFlagCompletionFunc(name, p.completeDates); err != nil {
			panic(err) // the option is there, and has no other
		}
	}
	for _, inner := range c.Commands() {
		p.completeDateOptions(inner)
	}
}

// completeChanges completes the next word of a change, whether its words are one argument
// or several.
func (p *program) completeChanges(c *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
	plan, s, err := p.mustLoad(c, nil)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	before := ""
	if i := strings.LastIndexByte(begun, ' '); i >= 0 {
		before = begun[:i+1]
	}
	said := strings.Fields(strings.Join(args, " ") + " " + before)
	var out []string
	for _, next := range p.nextWords(s, plan, said, begun[len(before):]) {
		out = append(out, before+next)
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

// nextWords are the words that may come next in a change.
func (p *program) nextWords(s source, plan *schedule.Plan, said []string, begun string) []string {
	if len(said) == 0 {
		out := p.activities(s, plan, begun, func(schedule.Activity) bool { return true })
		out = append(out, crewNames(plan)...)
		for i := range plan.Machines {
			out = append(out, described(plan.Machines[i].ID, plan.Machines[i].Name))
		}
		for i := range plan.Givens {
			out = append(out, described(plan.Givens[i].ID, plan.Givens[i].What))
		}
		return append(out, described("drop", "leave out a task"), described("wet", "a wet day"),
			described("site", "longer or shorter hours"), described("gate", "likewise"),
			described("task", "a new one"), described("lorry", "likewise"), described("link", "what comes after what"),
			described("unlink", "likewise"))
	}
	switch said[len(said)-1] {
	case "on", "from", "work", "ours", "appointment", "open":
		return datesOf(plan)
	case "drop", "link", "unlink", "after":
		return p.activities(s, plan, begun, func(a schedule.Activity) bool { _, task := plan.Task(a); return task })
	case "1d", "2h", "1h":
		return []string{"later", "earlier", "longer", "shorter"}
	case "1":
		return []string{"more", "fewer"}
	case "more", "fewer", "wet":
		return []string{"on"}
	}
	if len(said) == 1 {
		return verbsOf(plan, said[0])
	}
	return nil
}

// verbsOf are the words that may come after what a change begins with.
func verbsOf(plan *schedule.Plan, name string) []string {
	switch {
	case name == schedule.SiteHours || name == schedule.GateHours:
		return []string{"open", "closed", "closure"}
	case plan.FindTask(name) != schedule.None:
		return []string{"1h", "stops", "appointment"}
	case plan.FindDelivery(name) != schedule.None:
		return []string{"1d", "2h", "on"}
	}
	for i := range plan.Crews {
		if plan.Crews[i].ID == name {
			return []string{"1", "work", "away"}
		}
	}
	for i := range plan.Machines {
		if plan.Machines[i].ID == name {
			return []string{"away", "ours"}
		}
	}
	return []string{"1d", "from"}
}
