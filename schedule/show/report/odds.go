package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/show/page"
)

// Odds writes what came of many builds of the programme in plain text of at most
// 80 columns: the chance, the picture, the dates, what drives the risk, how often
// each task is on the hand-over chain, which other dates break, and what is
// assumed. The error is the writer's.
func (r *Report) Odds(o *odds.Result) *page.Document {
	w := &page.Document{}
	w.Say(r.of.Plan.Garden)
	w.Add(r.Chances(o).Blocks...)
	return w
}

// Chances is the same without the garden's name.
func (r *Report) Chances(o *odds.Result) *page.Document {
	w := &page.Document{}
	w.Say(r.oddsChance(o))
	w.Say("The programme: " + lower(r.words.Margin(r.of.Programme)))
	w.Space()
	w.Add(page.Picture(func(s page.Size) []page.Text { return r.drawOdds(o, s) }))
	w.Space()
	w.Say("One dot is a hundredth of the builds: " + dotBefore + " done by the line, " + dotBeyond + " beyond it" + neverWords(o) + ".")
	if o.Certain() {
		return w
	}
	w.Heading("When it is done")
	w.Say(r.oddsDates(o))
	w.Say(r.oddsMargin(o))
	r.oddsCauses(w, o)
	r.oddsChain(w, o)
	r.oddsBroken(w, o)
	w.Heading("What is assumed")
	w.Say(oddsAssumed(o))
	return w
}

func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

func neverWords(o *odds.Result) string {
	if o.Unfinished == 0 {
		return ""
	}
	return ", " + dotNever + " never done: some work finds no hours"
}

// oddsChance is the sentence that the command is run for.
func (r *Report) oddsChance(o *odds.Result) string {
	if o.Certain() {
		return "Nothing in the plan is uncertain: every build is the programme."
	}
	return fmt.Sprintf("Hands over on time in %d of %d builds: a chance of %s %%, with 95 %% confidence %s to %s %%.",
		o.OnTime, o.Builds, chance(o), percent(o.Low), percent(o.High))
}

// chance is never said to be all or nothing when it isn't.
func chance(o *odds.Result) string {
	switch p := o.Chance(); {
	case p > 0.9995 && p < 1:
		return "more than 99.9"
	case p < 0.0005 && p > 0:
		return "less than 0.1"
	default:
		return percent(p)
	}
}

// inHundred is a share as "84 in 100", or how many when that is hardly any or
// hardly all.
func inHundred(n, of int) string {
	share := 100 * float64(n) / float64(of)
	switch {
	case n == 0:
		return "none"
	case n == of:
		return "all"
	case share < 1:
		return "fewer than 1 in 100"
	case share > 99:
		return "more than 99 in 100"
	}
	return fmt.Sprintf("%.0f in 100", share)
}

// percent gives a share with one digit after the point where it matters.
func percent(share float64) string {
	if share > 0.1 && share < 0.9 {
		return fmt.Sprintf("%.0f", 100*share)
	}
	return fmt.Sprintf("%.1f", 100*share)
}

// oddsDates says by when how many builds are done.
func (r *Report) oddsDates(o *odds.Result) string {
	var said []string
	for k, share := range []string{"Half of the builds are", "eight in ten", "nine in ten"} {
		if o.By[k] == calendars.Never {
			said = append(said, share+" never done")
			break
		}
		text := fmt.Sprintf("%s done by %s", share, r.words.Moment(o.By[k]))
		if k > 0 {
			text = fmt.Sprintf("%s by %s", share, r.words.Moment(o.By[k]))
		}
		said = append(said, text)
	}
	return strings.Join(said, ", ") + "."
}

// oddsMargin says what share of the plan's margin it takes that nine builds in ten
// are done.
func (r *Report) oddsMargin(o *odds.Result) string {
	at := o.By[len(o.By)-1]
	if at == calendars.Never {
		return "No margin is enough for nine builds in ten."
	}
	needs, has := r.oddsNeeds(at)
	switch {
	case needs <= 0:
		return "Nine builds in ten need nothing of the margin."
	case has > 0 && needs <= has:
		return fmt.Sprintf("Nine in ten take %s of the margin of %s, %s %% of it.", r.words.Work(needs), r.words.Work(has), percent(float64(needs)/float64(has)))
	case has > 0:
		return fmt.Sprintf("For nine in ten the margin would have to be %s of site time; it is %s.", r.words.Work(needs), r.words.Work(has))
	}
	return fmt.Sprintf("For nine in ten the margin would have to be %s of site time, and there is none.", r.words.Work(needs))
}

// oddsNeeds is the site time from the programme's finish to a moment, and the
// margin.
func (r *Report) oddsNeeds(at calendars.Instant) (needs, has calendars.Minutes) {
	return r.of.Hours.Site.Between(r.of.Programme.Finish, at), r.of.Programme.Handover.Time
}

// The least rank correlation that is said, and the most causes, tasks and dates.
const (
	leastRank  = 0.05
	mostCauses = 6
	mostOften  = 12
	mostBroken = 8
)

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
		w.Say(r.cause(c, said == 0))
		said++
	}
	if said > 0 {
		w.Say(fmt.Sprintf("The figures are rank correlations with the finish (Spearman), of %d builds: 0 for nothing, 1 for all.", o.Ranked))
	}
}

// cause says how one thing moves the finish; the first moves it most.
func (r *Report) cause(c *odds.Cause, first bool) string {
	what, more := r.causeName(c)
	effect := "later"
	if c.Rank < 0 {
		effect = "sooner"
	}
	most := ""
	if first {
		most = " moves the finish most"
		if c.Kind == odds.WetDays {
			most = " move the finish most"
		}
	}
	return fmt.Sprintf("%s%s: %s, the %s it is done (%.2f).", what, most, more, effect, c.Rank)
}

// causeName names what is uncertain, and says what more of it is.
func (r *Report) causeName(c *odds.Cause) (what, more string) {
	switch c.Kind {
	case odds.Work:
		return "The work of " + r.words.Activity(c.Activity), "the longer it takes"
	case odds.Pace:
		return "The pace of " + r.of.Plan.Crews[c.Crew].Name, "the slower they are"
	case odds.Late:
		return "The lorry with " + r.words.Activity(c.Activity), "the later it comes"
	}
	return "Wet days", "the more there are"
}

// often is a task or delivery and the builds in which it is on the chain.
type often struct {
	name   string
	builds int
}

func (r *Report) oddsChain(w *page.Document, o *odds.Result) {
	var all []often
	for i, n := range o.OnChain {
		a := schedule.Activity(i)
		name := r.words.Activity(a)
		if _, lorry := r.of.Plan.Delivery(a); lorry {
			name = "The lorry with " + name
		}
		all = append(all, often{name, n})
	}
	slices.SortStableFunc(all, func(a, b often) int { return b.builds - a.builds })
	all = slices.DeleteFunc(all, func(x often) bool { return x.builds == 0 })
	if len(all) == 0 {
		return
	}
	w.Heading("How often on the hand-over chain")
	table := w.Table(0, page.Column{Room: len("more than 99 in 100"), Gap: 2}, page.Column{})
	for _, x := range all[:min(len(all), mostOften)] {
		table.Row(inHundred(x.builds, o.Builds), x.name)
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
		w.Broken(0, r.brokenIn(&b, o.Builds))
	}
	if rest := len(o.Broken) - mostBroken; rest > 0 {
		w.Say(fmt.Sprintf("And %d more, less often.", rest))
	}
}

// brokenIn says in how many builds a date breaks.
func (r *Report) brokenIn(b *odds.Broken, builds int) string {
	in, name := "in "+inHundred(b.Builds, builds)+" builds", r.words.Activity(b.Activity)
	if b.Builds == builds {
		in = "in every build"
	}
	switch b.Kind {
	case schedule.BreakHandover:
		return fmt.Sprintf("The lorry with %s is still there at the hand-over %s.", name, in)
	case schedule.BreakBy:
		return fmt.Sprintf("%s misses its own date %s.", name, in)
	case schedule.BreakKeep:
		return fmt.Sprintf("%s is done past the keep of %s %s.", name, r.words.Delivery(b.Stock), in)
	case schedule.BreakWithin:
		return fmt.Sprintf("%s comes after its longest wait %s.", name, in)
	}
	return fmt.Sprintf("The lorry with %s stands longer than it waits %s.", name, in)
}

// oddsAssumed says what the figures rest on.
func oddsAssumed(o *odds.Result) string {
	shape := "PERT's beta"
	if o.Shape == odds.Triangular {
		shape = "triangular"
	}
	text := "Every build keeps the bookings and the order of hands of the programme: nobody plans anew when it rains or a lorry is late. " +
		"Working times with a spread are " + shape + ", all others certain. "
	if o.Pace > 0 {
		text += fmt.Sprintf("Each crew is up to %.0f %% faster or slower than thought, in all its work with a spread alike. ", 100*o.Pace)
	}
	text += "A slot, a day of more people or an appointment that is missed is made up after the hand-over. Weather is odds, not a forecast. "
	return text + fmt.Sprintf("Seed %d.", o.Seed)
}
