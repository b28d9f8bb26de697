package paper

import (
	"html/template"

	"build.example/turflast/schedule/ask/odds"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/wall"
	"build.example/turflast/schedule/show/web"
	"build.example/turflast/schedule/show/wording"
)

// Other is the same build with changes.
type Other struct {
	Name    string
	Changes []string
	Desk    *Desk
	Odds    *odds.Result // nil where nobody could build it
}

// Client is the page for a client. The odds are those of many builds of the programme; nil
// where there are none. The other may be nil.
func (d *Desk) Client(o *odds.Result, other *Other) *web.Page {
	p := d.page(wording.ClientTitle, wording.ClientCopy, web.A4)
	p.Tight = true
	var with *report.Beside
	if other != nil {
		with = &report.Beside{Name: other.Name, Changes: other.Changes, Of: other.Desk.sheets, Sure: sure(other.Odds)}
	}
	part := web.Part{Doc: d.sheets.Client(sure(o), with)}
	if chart := wall.Brief(d.book); chart.SVG != "" {
		part.Picture, part.Name, part.Within = template.HTML(chart.SVG), chart.Name, true
	}
	p.Parts = []web.Part{part, {Doc: d.sheets.Built(), Aside: true}}
	return p
}

// sure says how sure a date is; empty where nobody knows.
func sure(o *odds.Result) string {
	if o == nil {
		return ""
	}
	return wording.HowSure(o)
}
