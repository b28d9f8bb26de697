package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars/holidays"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
)

func (p *program) holidaysCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "holidays [REGION] [YEAR]",
		Short: "List the public holidays of a region, with the source of each",
		Long: fmt.Sprintf(`List the public holidays that a plan keeps for a region, each with the source of
its date. Dates that no official list or second source has confirmed are marked
provisional; outside %d to %d all are.

  REGION  an ISO 3166 code, such as GB-ENG or AU-VIC. Without it: the region of
          the plan given with --plan, else the list of regions.
  YEAR    a year. Without it: the plan's, else this one.

Exit code: 0, or 2 for an unknown region or year.`, holidays.First, holidays.Last),
		Example:           "  turflast holidays GB-ENG 2027",
		Args:              atMost(2),
		ValidArgsFunction: completeRegions,
		RunE:              p.holidays,
	}
}

func (p *program) holidays(c *cobra.Command, args []string) error {
	region, year := "", p.env.Now().Year()
	if c.Flags().Changed("plan") {
		plan, _, err := p.mustLoad(c, nil)
		if err != nil {
			return err
		}
		region, year = plan.Site.Region, plan.Site.Handover.In(plan.Site.Location).Year()
		if region == "" && len(args) == 0 {
			fmt.Fprintln(p.stdout, plan.Garden+" keeps no region's holidays.")
			return nil
		}
	}
	if len(args) > 0 {
		region = strings.ToUpper(args[0])
	}
	if region == "" {
		p.regions()
		return nil
	}
	if len(args) > 1 {
		n, err := strconv.Atoi(args[1])
		if err != nil {
			return &usageError{fmt.Sprintf("%q is not a year", args[1]), c.CommandPath()}
		}
		year = n
	}
	days, err := holidays.Of(region, year)
	if err != nil {
		return err
	}
	for _, r := range holidays.Regions() {
		if r.Code == region {
			return report.Holidays(r, year, days).Write(p.stdout, page.Wide)
		}
	}
	return nil
}

// regions lists the regions there are.
func (p *program) regions() {
	fmt.Fprintln(p.stdout, "Regions whose public holidays are known:")
	for _, r := range holidays.Regions() {
		fmt.Fprintf(p.stdout, "  %-7s %s\n", r.Code, r.Name)
	}
}

func completeRegions(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	var out []string
	if len(args) == 0 {
		for _, r := range holidays.Regions() {
			out = append(out, r.Code+"\t"+r.Name)
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}
