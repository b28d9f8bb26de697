package main

import (
	"fmt"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars/zones"
	"build.example/turflast/schedule/show/feed"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/site/baseline"
	"build.example/turflast/schedule/site/sitelog"
)

func (p *program) versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print which build this is, and what it reads and writes",
		Long: `Print which build this is, of which release its time zones are, and the newest formats
that it reads and writes, for a report to send us.

Exit code: 0.`,
		Args: atMost(0),
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprintf(p.stdout, "turflast %s, %s, %s/%s, time zones of %s\n",
				version(), runtime.Version(), runtime.GOOS, runtime.GOARCH, zones.Release)
			if err != nil {
				return err
			}
			doc := &page.Document{}
			doc.Say(fmt.Sprintf("Files: lines of a log of format %d, baselines of format %d, "+
				"calendar revisions of format %d.",
				sitelog.Format, baseline.Format, feed.LedgerVersion))
			doc.Say("JSON: " + strings.Join(report.Formats(), ", ") + ".")
			return doc.Write(p.stdout, page.Wide)
		},
	}
}
