package paper

import (
	"html/template"

	"build.example/turflast/schedule/show/wall"
	"build.example/turflast/schedule/show/web"
	"build.example/turflast/schedule/show/wording"
)

// Wall is the wall chart on sheets of paper, and under it, for screens, the same in words.
func (d *Desk) Wall(o wall.Options) *web.Page {
	p := d.page(wording.Wall, wallCopy(o), o.Paper)
	for i, x := range d.pictures(o) {
		if i == 0 {
			p.Sheet.Width, p.Sheet.Height = int(x.Width+0.5), int(x.Height+0.5)
		}
		p.Parts = append(p.Parts, web.Part{Picture: template.HTML(x.SVG), Name: x.Name})
	}
	p.Parts = append(p.Parts, web.Part{Doc: d.sheets.Whole(o.Slips), Aside: true})
	return p
}

// WallSVG is the wall chart as one picture, in SVG alone; empty where the site never opens.
func (d *Desk) WallSVG(o wall.Options) string {
	o.Long = true
	text := ""
	for _, x := range d.pictures(o) {
		text += x.SVG
	}
	return text
}

func (d *Desk) pictures(o wall.Options) []wall.Picture {
	o.Belong = []string{wallCopy(o), d.Issue, d.words.Stands()}
	return wall.Draw(d.book, o)
}

// wallCopy says whose copy a chart is.
func wallCopy(o wall.Options) string {
	if o.Slips {
		return wording.LeadCopy
	}
	return wording.HutCopy
}
