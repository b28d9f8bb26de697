package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/show/paper"
	"build.example/turflast/schedule/show/wall"
	"build.example/turflast/schedule/show/web"
	"build.example/turflast/schedule/show/wording"
)

func (p *program) paperAllCommand() *cobra.Command {
	r, w := p.paperRun(), &wallRun{}
	c := &cobra.Command{
		Use:   "all FOLDER",
		Short: "Write all pages to a folder, with an index",
		Long: `Write all pages to a folder, as at one moment: the wall chart, the run sheets of every
day that is left, the whole build of every crew, the gate list, the look-ahead, people,
orders, the client's page, and index.html, which lists them.

  FOLDER  where to write them; made if it isn't there

` + paperWords + "\n\n" + asAtWords + "\n\n" + exitWords,
		Example: "  turflast paper all pages\n  turflast paper all pages --slips --paper a2",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"paper all needs a folder", c.CommandPath()}
			}
			return atMost(1)(c, args)
		},
		PreRunE: func(c *cobra.Command, _ []string) error { return w.check(c) },
		RunE:    func(c *cobra.Command, args []string) error { return r.all(c, args[0], w) },
	}
	c.Flags().StringVar(&w.paper, "paper", "a3", "the sheets of `PAPER` to print the wall chart on: a3 or a2")
	c.Flags().BoolVar(&w.slips, "slips", false, "the lead's copy of the wall chart: with slips, margin and chance")
	c.Flags().BoolVar(&r.replace, "replace", false, "replace files, whoever wrote them")
	addAsAt(c)
	p.addLonger(c)
	return c
}

// all writes all pages: all of them, or none where one would replace what isn't ours.
func (r *paperRun) all(c *cobra.Command, folder string, w *wallRun) error {
	x, b, err := r.book(c)
	if err != nil {
		return err
	}
	d := paper.New(b)
	d.Issue = strings.TrimSuffix(x.issued(r.crew), ".")
	o, chance := wall.Options{Paper: w.sheet, Slips: w.slips}, r.built(d)
	if w.slips {
		o.Chance = wording.OnTimeHow(chance)
	}
	today := calendars.DateIn(r.now(b), b.Plan.Site.Location)
	files := d.All(o, today, r.now(b), usualDays, chance)
	for _, f := range files {
		if err := mayWrite(filepath.Join(folder, f.Name), r.replace); err != nil {
			return err
		}
	}
	if err := makeFolder(folder); err != nil {
		return err
	}
	for _, f := range files {
		if err := r.writeIn(folder, f.Name, f.Page); err != nil {
			return err
		}
	}
	fmt.Fprintln(r.p.stdout, printable(fmt.Sprintf("wrote %d pages; begin with %s", len(files),
		filepath.Join(folder, paper.Index))))
	return x.met()
}

func (r *paperRun) writeIn(folder, name string, made *web.Page) error {
	var text bytes.Buffer
	if err := made.Write(&text); err != nil {
		return err
	}
	return putPage(filepath.Join(folder, name), text.Bytes(), r.replace)
}
