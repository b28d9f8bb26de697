package draw

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/beyond"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/issue"
	"build.example/turflast/schedule/site/progress"
)

// Garden is what the views draw: a plan, its programme, and how to speak of it.
type Garden struct {
	network.Case                // with the changes that are tried, if any
	Filed        *schedule.Plan // without the changes that are tried
	Words        *wording.Writer
	Now          calendars.Instant

	// Only says which activities the filter shows; nil shows all.
	Only []bool

	// Issues are what was handed out to the crews, oldest first.
	Issues []*issue.Issue

	// Numbers are the short numbers of tasks and deliveries.
	Numbers *sheets.Numbers

	// Standing is what the site log says; nil while nothing is logged.
	Standing *progress.Standing

	// Tolerances is how late deliveries may come; nil while that hasn't been asked.
	Tolerances *Tolerances

	// Mends is what would mend the dates that break, as far as it is known; nil while
	// nothing is. EndMends is the key that ends the search for more.
	Mends    *mend.Result
	EndMends string

	// TickNow and TickEarlier are the keys that tick something off.
	TickNow, TickEarlier string

	// Chance is how likely the build is to be on time, as a sentence without its stop; empty
	// while that isn't known.
	Chance string

	// Trial is what the changes in force do; nil when there are none.
	Trial *Trial

	// Agreed is the newest baseline; nil without one.
	Agreed *Agreed

	// Planned is when each task was to be, as agreed or issued last, or else by the plan as it
	// is written; nil where nothing is logged.
	Planned *schedule.Programme

	book   *sheets.Book
	beyond *beyond.Answer
	said   map[saidLine][]wording.Fact // what sheet has returned so far
	stands map[schedule.CrewID]issue.Standing

	unticked *int // how much should have been ticked off by now and wasn't; nil before it is counted
}

// saidLine is a line of a run sheet, of the lead's copy or not.
type saidLine struct {
	sheets.Line
	lead bool
}

// sheet returns what the run sheet says of a line, on the lead's copy also how far it may slip.
func (g *Garden) sheet(l sheets.Line, lead bool) []wording.Fact {
	key := saidLine{l, lead}
	facts, known := g.said[key]
	if !known {
		if g.said == nil {
			g.said = make(map[saidLine][]wording.Fact)
		}
		book := *g.sheets()
		book.Lead = lead
		facts = g.Words.SheetParagraphs(&book, l)
		g.said[key] = facts
	}
	return facts
}

// sheets returns the sheets of the programme, which are made on the first call.
func (g *Garden) sheets() *sheets.Book {
	if g.book == nil {
		g.book = sheets.New(g.Case, g.Numbers)
		if g.Standing != nil {
			g.book.Logged(g.Standing)
		}
		if g.Planned != nil && len(g.Planned.Tasks) == len(g.Plan.Tasks) { // a change may add tasks
			g.book.Planned = g.Planned
		}
	}
	return g.book
}

// unanswered is how much should have been ticked off by now and wasn't.
func (g *Garden) unanswered() int {
	if g.unticked == nil {
		n := len(g.sheets().Questions(Everyone))
		g.unticked = &n
	}
	return *g.unticked
}

// Shown says whether the filter shows an activity and the programme has a place
// for it.
func (g *Garden) Shown(a schedule.Activity) bool {
	if a < 0 || a >= g.Plan.Activities() || g.Only != nil && !g.Only[a] {
		return false
	}
	_, lorry := g.Plan.Delivery(a)
	return lorry || g.Programme.Of(a).Start.IsReal()
}

// Name returns an activity's name, clean, or its id where it has none.
func (g *Garden) Name(a schedule.Activity) string {
	return named(g.Plan.ActivityName(a), g.Plan.ActivityID(a))
}

// nameFor returns an activity's name for so many columns: the short one of the plan
// where the whole doesn't fit. It may be too long all the same.
func (g *Garden) nameFor(a schedule.Activity, columns int) string {
	name := g.Name(a)
	if short := Clean(g.Plan.ShortName(a)); Columns(name) > columns && short != "" {
		return short
	}
	return name
}

// zoneName returns a zone's name, clean, or its id where it has none.
func (g *Garden) zoneName(z schedule.ZoneID) string {
	return named(g.Plan.Zones[z].Name, g.Plan.Zones[z].ID)
}

// crewName returns a crew's name, clean, or its id where it has none.
func (g *Garden) crewName(c schedule.CrewID) string {
	return named(g.Plan.Crews[c].Name, g.Plan.Crews[c].ID)
}

// named returns a clean name, or the id where there is none.
func named(name, id string) string {
	if clean := Clean(name); clean != "" {
		return clean
	}
	return Clean(id)
}

// Date returns the civil date of a moment at the site.
func (g *Garden) Date(t calendars.Instant) calendars.Date {
	return calendars.DateIn(t, g.Plan.Site.Location)
}

// Days returns the first and the last date with anything to show.
func (g *Garden) Days() (from, to calendars.Date) {
	first, last := g.Plan.Site.Opens, g.Plan.Site.Handover
	for i := range g.Programme.Tasks {
		if d := &g.Programme.Tasks[i]; d.Start.IsReal() && d.Finish.IsReal() {
			first, last = min(first, d.Start), max(last, d.Finish)
		}
	}
	for i := range g.Plan.Deliveries {
		at := g.arrives(schedule.DeliveryID(i))
		first, last = min(first, at), max(last, at)
	}
	return g.Date(first), g.Date(last - 1)
}

// clock returns the wall-clock time of a moment, as 07:30.
func (g *Garden) clock(t calendars.Instant) string {
	return t.In(g.Plan.Site.Location).Format("15:04")
}

// arrives returns when the programme expects a lorry.
func (g *Garden) arrives(d schedule.DeliveryID) calendars.Instant {
	return g.Programme.Unloads[d].Arrives
}
