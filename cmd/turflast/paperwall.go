package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/show/paper"
	"build.example/turflast/schedule/show/wall"
	"build.example/turflast/schedule/show/web"
	"build.example/turflast/schedule/show/wording"
)

// wallRun is one run of the command that writes the wall chart.
type wallRun struct {
	paper            string // --paper
	long, svg, slips bool   // --long, --svg, --slips
	sheet            web.Sheet
}

func (p *program) paperWallCommand() *cobra.Command {
	w := &wallRun{}
	c := p.paperPage("wall", "Write the wall chart, for A3 or A2, or as one long picture",
		`Write the window as a chart for the wall of the hut: site hours from left to right with
nights as narrow seams, zones as one walks in, the gate at the foot, names on bars with
the numbers of the sheets, what fixes the hand-over as a strip on top, and the line.

It takes as many sheets of A3 or A2 as it needs to be read from two metres, each with
the ruler; --long makes it one picture, as wide and as high as it takes. On a screen
the same stands under it in words. Black and white will do.

How far each may slip, the margin and the chance are on the lead's copy alone, which
--slips makes.`,
		"  turflast paper wall --out wall.html\n  turflast paper wall --paper a2 --slips --out lead.html\n"+
			"  turflast paper wall --svg --out wall.svg", false, w.page)
	c.Flags().StringVar(&w.paper, "paper", "a3", "the sheets of `PAPER` to print on, lying: a3 or a2")
	c.Flags().BoolVar(&w.long, "long", false, "one long picture instead of sheets")
	c.Flags().BoolVar(&w.svg, "svg", false, "one long picture as SVG, without a page around it")
	c.Flags().BoolVar(&w.slips, "slips", false, "the lead's copy: with slips, margin and chance")
	c.PreRunE = func(c *cobra.Command, _ []string) error { return w.check(c) }
	return c
}

// check reads the paper that the chart is for.
func (w *wallRun) check(c *cobra.Command) error {
	switch w.paper {
	case "a3":
		w.sheet = web.A3
	case "a2":
		w.sheet = web.A2
	default:
		return &usageError{fmt.Sprintf("--paper is %q; give a3 or a2", w.paper), c.CommandPath()}
	}
	return nil
}

func (w *wallRun) page(r *paperRun, d *paper.Desk) (pageFile, error) {
	o := wall.Options{Paper: w.sheet, Long: w.long, Slips: w.slips}
	if w.slips {
		o.Chance = wording.OnTimeHow(r.built(d))
	}
	if w.svg {
		return picture(d.WallSVG(o)), nil
	}
	return d.Wall(o), nil
}

// built builds a desk's programme many times; nil where that can't be done.
func (r *paperRun) built(d *paper.Desk) *odds.Result {
	result, err := builds(r.p.interruptible(), d.Book().Case)
	if err != nil {
		return nil
	}
	return result
}
