package report

import (
	"fmt"
	"math"
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/ask/relief"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// Odds is the page on many builds of the programme: the chance, the picture, the dates,
// what drives the risk, how often each activity is on the hand-over chain, which other
// dates break, and what is assumed.
func (r *Report) Odds(o *odds.Result) *page.Document {
	w := &page.Document{}
	r.title(w)
	w.Add(r.Chances(o).Blocks...)
	return w
}

// Chances is [Report.Odds] without the garden's name.
func (r *Report) Chances(o *odds.Result) *page.Document {
	w := &page.Document{}
	if r.alone(w) {
		w.Say(wording.ChanceOfRest(o))
	} else {
		w.Say(wording.Chance(o))
	}
	if other := wording.OtherWay(o); other != "" {
		w.Say(other)
	}
	if most := r.words.MostSaved(o.Harmed); most != "" {
		w.Say(most)
	}
	r.oddsHelp(w, o)
	r.sayBought(w)
	w.Say(r.words.MarginOf("The programme", r.of.Programme))
	w.Space()
	w.Add(page.Picture(func(s page.Size) []page.Text { return r.drawOdds(o, s) }))
	w.Space()
	never := ""
	if o.Unfinished > 0 {
		never = dotNever
	}
	w.Say(wording.DotsMean("a hundredth of the builds", dotBefore, dotBeyond, never))
	if o.Certain() {
		return w
	}
	w.Heading("When it is done")
	w.Say(r.words.SharesDone(o.By))
	nine := o.By[len(o.By)-1]
	needs, has := r.oddsNeeds(nine)
	w.Say(r.words.NineInTen(nine, needs, has))
	r.oddsHarms(w, o)
	r.oddsReliefs(w)
	r.listBought(w)
	if o.Harmed == nil {
		r.oddsCauses(w, o)
	}
	r.oddsChain(w, o)
	r.oddsBroken(w, o)
	w.Heading("What is assumed")
	w.Say(wording.OddsRestOn(restsOn(o)))
	return w
}

// alone says what has no place, if anything has none, and that the page is about the
// rest.
func (r *Report) alone(w *page.Document) bool {
	said := r.words.RestAlone(r.of.Programme)
	if said != "" {
		w.Broken(0, said)
		w.Space()
	}
	return said != ""
}

// oddsNeeds returns the site time from the programme's finish to a moment, and the
// margin.
func (r *Report) oddsNeeds(at calendars.Instant) (needs, has calendars.Minutes) {
	return r.of.Hours.Site.Between(r.of.Programme.Finish, at), r.of.Programme.Handover.Time
}

// The least rank correlation of a cause on the page, and the most causes, activities and
// dates.
const (
	leastRank  = 0.05
	mostCauses = 6
	mostHarms  = 8
	mostDays   = 3 // of those that stand under all together
	mostOften  = 12
	mostBroken = 8
)

// oddsHarms tells what costs most, and what the chance would be without it.
func (r *Report) oddsHarms(w *page.Document, o *odds.Result) {
	if o.Harmed == nil || len(o.Harmed.Harms) == 0 {
		return
	}
	w.Heading("What costs most")
	rest, harms, days := 0, 0, 0
	for i := range o.Harmed.Harms {
		h, indent := &o.Harmed.Harms[i], 0
		if h.Part {
			indent = 4 // its mark stands in it
			days++
		} else {
			harms, days = harms+1, 0
		}
		if harms > mostHarms || days > mostDays {
			rest++
			continue
		}
		w.Under(indent, "- ", r.words.Harm(h, o.Harmed.Late))
	}
	if rest > 0 {
		w.Say(wording.AndMore(rest, ""))
	}
	w.Say(wording.HarmsRestOn(o.Harmed))
}

// Helping adds what would raise the chance, and returns r. Nil, where nobody asked, adds nothing.
func (r *Report) Helping(x *relief.Result) *Report {
	r.relief = x
	return r
}

// oddsHelp says what helps most; nothing where nothing was tried or nothing is late.
func (r *Report) oddsHelp(w *page.Document, o *odds.Result) {
	switch {
	case r.relief == nil || o.OnTime == o.Builds:
	case len(r.relief.Reliefs) == 0:
		w.Say(r.words.NothingHelps(r.relief))
	default:
		w.Say(r.words.Helps(&r.relief.Reliefs[0], r.relief.Builds))
	}
}

// oddsReliefs lists what helps.
func (r *Report) oddsReliefs(w *page.Document) {
	if r.relief == nil || len(r.relief.Reliefs) == 0 {
		return
	}
	w.Heading("What would help")
	for i := range r.relief.Reliefs {
		w.Mark("- ", r.words.Helps(&r.relief.Reliefs[i], r.relief.Builds))
	}
}

func (r *Report) oddsCauses(w *page.Document, o *odds.Result) {
	said := 0
	for i := range o.Causes {
		c := &o.Causes[i]
		if math.Abs(c.Rank) < leastRank || said == mostCauses {
			break
		}
		if said == 0 {
			w.Heading("What drives the risk")
		}
		w.Say(r.words.Cause(c, said == 0))
		said++
	}
	if said > 0 {
		w.Say(wording.Ranks(o.Ranked))
	}
}

// often is a task or delivery and the builds in which it is on the chain.
type often struct {
	name   string
	builds int
}

func (r *Report) oddsChain(w *page.Document, o *odds.Result) {
	if o.Replan && o.Other != nil {
		o = o.Other
	}
	var all []often
	for i, n := range o.OnChain {
		all = append(all, often{r.words.NameFirst(schedule.Activity(i)), n})
	}
	slices.SortStableFunc(all, func(a, b often) int { return b.builds - a.builds })
	all = slices.DeleteFunc(all, func(x often) bool { return x.builds == 0 })
	if len(all) == 0 {
		return
	}
	w.Heading("How often on the hand-over chain, as programmed")
	table := w.Table(0, page.Column{Room: len("more than 99 in 100"), Gap: 2}, page.Column{})
	for _, x := range all[:min(len(all), mostOften)] {
		table.Row(wording.InHundred(x.builds, o.Builds), x.name)
	}
	if rest := len(all) - mostOften; rest > 0 {
		table.Row("less often", fmt.Sprintf("%d more", rest))
	}
}

func (r *Report) oddsBroken(w *page.Document, o *odds.Result) {
	if len(o.Broken) == 0 {
		return
	}
	w.Heading("Other dates that break")
	for _, b := range o.Broken[:min(len(o.Broken), mostBroken)] {
		w.Broken(0, r.words.BrokenIn(&b, o.Builds))
	}
	if rest := len(o.Broken) - mostBroken; rest > 0 {
		w.Say(wording.AndMore(rest, "less often"))
	}
}

// restsOn are the options of a result, or of its other one where people re-plan there alone.
func restsOn(o *odds.Result) *odds.Options {
	if o.Other != nil && o.Other.Replan {
		return &o.Other.Options
	}
	return &o.Options
}
