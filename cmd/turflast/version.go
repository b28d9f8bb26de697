package main

import (
	"fmt"
	"runtime"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars/zones"
)

func (p *program) versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print which build this is",
		Long:  "Print which build this is, and of which release its time zones, for a report to send us.\n\nExit code: 0.",
		Args:  atMost(0),
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprintf(p.stdout, "turflast %s, %s, %s/%s, time zones of %s\n",
				version(), runtime.Version(), runtime.GOOS, runtime.GOARCH, zones.Release)
			return err
		},
	}
}
