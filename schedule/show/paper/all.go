package paper

import (
	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wall"
	"build.example/turflast/schedule/show/web"
	"build.example/turflast/schedule/show/wording"
)

// File is a page with the name of its file.
type File struct {
	Name string
	Page *web.Page
}

// Index is the file that lists the others.
const Index = "index.html"

// All is all pages of a desk, the index first: of the days from a date on that have work, or of
// all days where none of them is left; orders as at a moment.
func (d *Desk) All(o wall.Options, today calendars.Date, now calendars.Instant, ahead int, built *odds.Result) []File {
	d.Home = Index
	files := []File{
		{"wall.html", d.Wall(o)},
		{"client.html", d.Client(built, nil)},
		{"orders.html", d.Orders(now)},
		{"people.html", d.People()},
		{"gate.html", d.Gate()},
	}
	days := d.days(today)
	if len(days) > 0 {
		files = append(files, File{"ahead.html", d.Ahead(days[0], ahead, "")})
	}
	for _, on := range days {
		files = append(files, File{"day-" + on.String() + ".html", d.Day(on, "")})
	}
	for c := range d.book.Plan.Crews {
		files = append(files, File{"crew-" + d.book.Plan.Crews[c].ID + ".html", d.Crew(schedule.CrewID(c))})
	}
	d.Home = ""
	index := d.page(wording.AllPages, wording.LeadCopy, web.A4)
	part := web.Part{Doc: d.sheets.Index()}
	for _, f := range files {
		part.Links = append(part.Links, web.Link{File: f.Name, Name: wording.Capital(f.Page.Title), Says: f.Page.Copy})
	}
	index.Parts = []web.Part{part}
	return append([]File{{Index, index}}, files...)
}

// days lists the days with work from a date on; all of them where none is left.
func (d *Desk) days(from calendars.Date) (out []calendars.Date) {
	first, last := d.book.Days()
	if from > last {
		from = first
	}
	for on := max(first, from); on <= last; on++ {
		if len(d.book.Lines(on, sheets.Everyone)) > 0 {
			out = append(out, on)
		}
	}
	return out
}
