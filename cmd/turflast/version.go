package main

import (
	"fmt"
	"runtime"

	"github.com/spf13/cobra"
)

func (p *program) versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print which build this is",
		Long:  "Print which build this is, for a report to send us.\n\nExit code: 0.",
		Args:  atMost(0),
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprintf(p.stdout, "turflast %s, %s, %s/%s\n",
				version(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
			return err
		},
	}
}
