// Package paper puts pages together for print and phones: which documents make a file,
// whose copy it is, and on which sheet it is printed. What they say is that of the sheets
// and reports of the terminal.
package paper

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/web"
	"build.example/turflast/schedule/show/wording"
)

// Desk makes the pages of one programme.
type Desk struct {
	Issue string // the numbered printing, as words
	Home  string // the file of the page that lists the others; empty for none

	book   *sheets.Book
	sheets *report.Sheets
	words  *wording.Writer
}

// New returns the desk of a book.
func New(b *sheets.Book) *Desk {
	return &Desk{Issue: wording.NotIssued, book: b, sheets: report.NewSheets(b), words: wording.New(b.Plan)}
}

// Book is what the pages are made from.
func (d *Desk) Book() *sheets.Book { return d.book }

// page is an empty page of a desk.
func (d *Desk) page(title, copy string, on web.Sheet) *web.Page {
	return &web.Page{
		Garden: d.book.Plan.Garden, Title: title, Issue: d.Issue, AsAt: d.words.Stands(), Copy: copy,
		Sheet: on, Home: d.Home,
	}
}

// Day is the run sheets of a date: a sheet for each crew that has work, is asked something
// or has a daily duty on it; one for everyone where nobody has, or some work needs no crew.
// Each says a sentence at its top, which may be empty.
func (d *Desk) Day(on calendars.Date, said string) *web.Page {
	d.sheets.Said = said
	defer func() { d.sheets.Said = "" }()
	p := d.page(d.words.Day(on), wording.SiteCopy, web.A4)
	for c := range d.book.Plan.Crews {
		day := d.book.Of(on, schedule.CrewID(c))
		if len(day.Lines)+len(day.Begun)+len(day.Duties)+len(day.Asked) > 0 {
			p.Parts = append(p.Parts, web.Part{Doc: d.sheets.Today(day), Copy: wording.CopyOf(d.book.Plan.Crews[c].Name)})
		}
	}
	if rest := d.noCrew(on); len(p.Parts) == 0 || rest {
		p.Parts = append(p.Parts, web.Part{Doc: d.sheets.Today(d.book.Of(on, sheets.Everyone))})
	}
	return p
}

// noCrew says whether some task of a date needs no crew, so that only the sheet of everyone
// has it. Lorries are on every sheet.
func (d *Desk) noCrew(on calendars.Date) bool {
	for _, l := range d.book.Lines(on, sheets.Everyone) {
		if t, task := d.book.Plan.Task(l.Activity); task && len(d.book.Plan.Tasks[t].Crew) == 0 {
			return true
		}
	}
	return false
}

// Crew is the whole build for one crew.
func (d *Desk) Crew(c schedule.CrewID) *web.Page {
	name := d.book.Plan.Crews[c].Name
	return d.one(name, wording.CopyOf(name), web.A4, d.sheets.WholeBuild(c))
}

// Gate is the gate list of the whole build.
func (d *Desk) Gate() *web.Page {
	return d.one("Gate list", wording.GateCopy, web.A4, d.sheets.Gate(nil))
}

// Ahead is the look-ahead of some days from a date on. It says a sentence at its top, which may
// be empty.
func (d *Desk) Ahead(from calendars.Date, days int, said string) *web.Page {
	d.sheets.Said = said
	defer func() { d.sheets.Said = "" }()
	return d.one(d.words.DaysAhead(days, from), wording.SiteCopy, web.A4, d.sheets.Ahead(from, days))
}

// People is who comes to the site on which day, and heads and machines by half day.
func (d *Desk) People() *web.Page {
	return d.one("People", wording.LeadCopy, web.Wide4, d.sheets.People())
}

// Orders is what to order, book, call off and give back, as at a moment.
func (d *Desk) Orders(now calendars.Instant) *web.Page {
	return d.one("Orders and bookings", wording.LeadCopy, web.A4, d.sheets.Arrange(now))
}

// one is a page of one document.
func (d *Desk) one(title, copy string, on web.Sheet, doc *page.Document) *web.Page {
	p := d.page(title, copy, on)
	p.Parts = []web.Part{{Doc: doc}}
	return p
}
