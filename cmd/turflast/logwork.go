package main

import (
	"strconv"

	"github.com/spf13/cobra"
)

// crewFlag says who is at a task.
const crewFlag = "crew"

func addCrewFlag(c *cobra.Command) {
	c.Flags().String(crewFlag, "", "the `CREW` that is at it, and how many, if it isn't as planned: masons 2")
}

func failFlags(c *cobra.Command) {
	c.Flags().String("right", "", "how `LONG` putting it right takes, like 2h")
	c.Flags().String(crewFlag, "", "the `CREW` that puts it right, and how many: fitters 2")
}

// crewAndHeads joins what follows the option of a crew into its one value: the crew, and a
// number right behind it, which is how many.
func crewAndHeads(args []string) []string {
	var out []string
	for i := 0; i < len(args); i++ {
		out = append(out, args[i])
		if args[i] == "--" {
			return append(out, args[i+1:]...)
		}
		if args[i] != "--"+crewFlag || i+2 >= len(args) {
			continue
		}
		if _, err := strconv.ParseUint(args[i+2], 10, 16); err == nil {
			out = append(out, args[i+1]+" "+args[i+2])
			i += 2
		}
	}
	return out
}

// rightOptions are the options of a failure in words.
func rightOptions(c *cobra.Command) string {
	right, _ := c.Flags().GetString("right")
	crew, _ := c.Flags().GetString(crewFlag)
	switch {
	case right == "" && crew == "":
		return ""
	case right == "":
		return ", to be put right by " + crew
	case crew == "":
		return ", " + right + " to put right"
	}
	return ", " + right + " to put right by " + crew
}

// crewOption is the option of who is at a task in words.
func crewOption(c *cobra.Command) string {
	if crew, err := c.Flags().GetString(crewFlag); err == nil && crew != "" {
		return " by " + crew
	}
	return ""
}
