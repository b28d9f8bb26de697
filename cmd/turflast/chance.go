package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wording"
)

// chanceFlag is the option that tells the chance beside the margin.
const chanceFlag = "chance"

func addChance(c *cobra.Command) {
	c.Flags().Bool(chanceFlag, false, `how likely it is on time too, as "turflast odds" says it: takes some seconds`)
}

// chanceOf builds programmes many times, each once; nil unless the option asks for it. The error
// says that it can't be had.
func (p *program) chanceOf(c *cobra.Command) (report.ChanceOf, error) {
	if asked, err := c.Flags().GetBool(chanceFlag); err != nil || !asked {
		return nil, nil // turflast by itself prints the plan too, and has no such option
	}
	if logic, err := c.Flags().GetBool(logicFlag); err == nil && logic {
		return nil, &usageError{"--chance is that of the crew programme: leave --logic out", c.CommandPath()}
	}
	known, told := make(map[*schedule.Programme]*odds.Result), make(map[string]bool)
	return func(of network.Case) *odds.Result {
		if result, ok := known[of.Programme]; ok {
			return result
		}
		result, err := builds(p.interruptible(), of)
		if err != nil {
			result = nil // the programme stands alone
			if why := wording.NoChance(err); !told[why] {
				told[why] = true
				fmt.Fprintln(p.stderr, why)
			}
		}
		known[of.Programme] = result
		return result
	}, nil
}
