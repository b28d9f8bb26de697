package draw

import (
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// markMend stands before what would mend a broken date.
const markMend = "+ "

// mendLines are what would mend the dates that break, in few words.
func (g *Garden) mendLines(most int) []page.Block { return g.mendsTold(most, false) }

// mendsTold are what would mend the dates that break, as sentences: what they have in
// common first, then the best of them, at most so many, with where a little more work makes
// the finish jump if cliffs are wanted. None while that isn't known.
func (g *Garden) mendsTold(most int, cliffs bool) []page.Block {
	if g.Mends == nil {
		return nil
	}
	d := &page.Document{}
	d.Say(Clean(g.Words.MendsLead(g.Programme, g.Mends)))
	told := g.Mends.Mends[:min(most, len(g.Mends.Mends))]
	alike := g.Words.CliffOfAll(told)
	for _, m := range told {
		text := g.Words.Mend(g.Programme, m)
		if cliff := g.Words.Cliff(m); cliffs && alike == "" && cliff != "" {
			text += " " + cliff
		}
		d.Mark(markMend, Clean(text))
	}
	if cliffs && alike != "" {
		d.Say(Clean(wording.WithEach(alike)))
	}
	d.In(page.Quiet, wording.MendsSoFar(g.Mends, g.EndMends))
	return d.Blocks
}

// mended lists what would mend the dates that break, for the notes of a day.
func (g *Garden) mended(width int) []paragraph {
	return titled(wording.WouldMend, width, g.mendLines(mend.Most))
}

// MendsOn adds to a page what would mend the dates that break.
func (g *Garden) MendsOn(d *page.Document) {
	lines := g.mendsTold(mend.Most, true)
	if len(lines) == 0 {
		return
	}
	d.Heading(wording.WouldMend)
	d.Add(lines...)
	if g.Mends.Tried >= g.Mends.Of {
		d.Say(wording.MendsRest(g.Mends))
	}
}
