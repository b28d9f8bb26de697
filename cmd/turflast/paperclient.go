package main

import (
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/paper"
	"build.example/turflast/schedule/show/sheets"
)

func (p *program) paperClientCommand() *cobra.Command {
	r, with := p.paperRun(), ""
	c := &cobra.Command{
		Use:   "client",
		Short: "Write one page for the client: what is built when, when to come, how sure we are",
		Long: `Write one page for a client: by when all is done and how sure that is, in plain words;
what is built when; when somebody comes to sign what; what others provide. --with puts
the build with the changes of a what-if file beside it, and marks what differs.

How sure that is comes from many builds of the programme, as "turflast odds" makes
them; the page has no figure of it, and no slips.

` + paperWords + "\n\n" + asAtWords + "\n\n" + exitWords,
		Example: "  turflast paper client --out client.html\n" +
			"  turflast paper client --with late-slate.yaml --out client.html",
		Args: atMost(0), ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(c *cobra.Command, _ []string) error { return r.client(c, with) },
	}
	r.addFlags(c, false)
	c.Flags().StringVar(&with, "with", "", "beside it, the build with the changes of a what-if `FILE`")
	completeFiles(c, "with")
	return c
}

func (r *paperRun) client(c *cobra.Command, with string) error {
	if err := r.mayPut(); err != nil {
		return err
	}
	var set *schedule.WhatIf
	if c.Flags().Changed("with") {
		read, err := r.p.readWhatIf(with)
		if err != nil {
			return err
		}
		if set = read; set.Name == "" {
			base := filepath.Base(with)
			set.Name = strings.TrimSuffix(base, filepath.Ext(base))
		}
	}
	x, b, err := r.book(c)
	if err != nil {
		return err
	}
	other, err := r.other(c, x, set, with)
	if err != nil {
		return err
	}
	d := paper.New(b)
	if err := r.put(d.Client(r.built(d), other)); err != nil {
		return err
	}
	return x.met()
}

// other is the build with a set of changes; nil without any.
func (r *paperRun) other(c *cobra.Command, x *solved, set *schedule.WhatIf, name string) (*paper.Other, error) {
	if set == nil {
		return nil, nil
	}
	after, err := r.p.changed(c, x, set, name)
	if err != nil {
		return nil, err
	}
	d := paper.New(sheets.New(after.Case, after.numbers(after.Plan)))
	out := &paper.Other{Name: set.Name, Desk: d, Odds: r.built(d)}
	for _, change := range set.Changes {
		out.Changes = append(out.Changes, change.String())
	}
	return out, nil
}
