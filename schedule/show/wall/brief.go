package wall

import (
	"slices"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/window"
	"build.example/turflast/schedule/show/wording"
)

// The measures of a brief chart, in millimetres.
const (
	briefWidth = 186.0
	briefNames = 31.0 // the column of the zones' names
	briefSize  = 3.3
	briefRow   = 4.7
	briefHead  = 15.0
)

// Brief is one picture for those who build nothing: in each zone on site what is built when, by
// stages, the moments at which somebody comes to sign, and the line.
func Brief(b *sheets.Book) Picture {
	days := daysOf(b.Case)
	if len(days) == 0 {
		return Picture{}
	}
	p := leaf{sheet: &sheet{c: b.Case, book: b, words: wording.New(b.Plan),
		font: font{briefSize, false}, bold: font{briefSize, true}}}
	p.axis = newAxis(days, briefNames, briefWidth-briefNames-lineWidth-1)
	p.lineX, p.edge = p.axis.to(b.Plan.Site.Handover), briefWidth
	zones := p.briefZones()
	low := briefHead + briefHigh(zones) + briefRow*0.6
	p.width, p.height = briefWidth, low+1
	c := &canvas{}
	c.rect("white", 0, 0, p.width, p.height)
	p.briefDays(c, low)
	y := briefHead
	for i := range zones {
		zones[i].draw(&p, c, y)
		y += briefHigh(zones[i : i+1])
		c.line("hair", 0, y-briefRow*0.25, p.lineX, y-briefRow*0.25)
	}
	c.rect("ink", p.lineX, 0, lineWidth, low)
	c.textEnd("", p.bold, p.lineX-1.5, briefSize, wording.HandoverAt(p.words.Moment(b.Plan.Site.Handover)))
	c.text("", p.bold, 0, low-0.6, wording.BriefSigned)
	for _, a := range b.Appointments() {
		if class := "open"; a.At.IsReal() && a.At >= b.Plan.Site.Opens {
			if a.Signed != 0 {
				class = "ink"
			}
			c.circle(class, min(p.axis.from(a.At), p.lineX-1.6), low-2, 1.3)
		}
	}
	name := wording.BriefName(clean(b.Plan.Garden))
	return Picture{svg(c, 0, name, wording.BriefSays, p.width, p.height), name, p.width, p.height}
}

// briefDays draws the ruler and the seams down to a height.
func (p *leaf) briefDays(c *canvas, low float64) {
	for i := range p.axis.days {
		d := &p.axis.days[i]
		c.text("", p.bold, d.x+0.4, briefHead-5.5, p.bold.day(p.words.Day(d.date), d.to-d.x))
		c.line("rule", d.x, briefHead-3, d.to, briefHead-3)
		if i+1 < len(p.axis.days) {
			c.rect("seam", d.to, briefHead-9, seamWidth, low-briefHead+9)
		}
	}
}

// briefBar is the work of one stage in a zone with its name.
type briefBar struct {
	x, to, at float64
	name      string
}

// briefZone is a zone with the rows of what is built in it.
type briefZone struct {
	name string
	rows [][]briefBar
}

// briefZones lists the zones on site as one walks in.
func (p *leaf) briefZones() (out []briefZone) {
	on := schedule.ZoneID(schedule.None)
	for _, b := range window.WhatIsBuilt(p.c) {
		if p.c.Plan.Zones[b.Zone].OffSite || !p.axis.has(b.Span) {
			continue
		}
		if b.Zone != on {
			on = b.Zone
			out = append(out, briefZone{name: clean(p.c.Plan.Zones[on].Name)})
		}
		z := &out[len(out)-1]
		x := briefBar{x: p.axis.from(b.Span.Start), name: p.c.Plan.Stages[b.Stage]}
		x.to = max(p.axis.to(b.Span.End), x.x+leastBar)
		x.at = min(x.x+0.8, max(p.lineX-1-p.font.wide(x.name), p.axis.left()))
		z.add(x, p.font)
	}
	return out
}

// add puts a bar on the first row with room for it and its name.
func (z *briefZone) add(x briefBar, f font) {
	end := func(b briefBar) float64 { return max(b.to, b.at+f.wide(b.name)) + 1 }
	at := slices.IndexFunc(z.rows, func(row []briefBar) bool {
		return !slices.ContainsFunc(row, func(o briefBar) bool { return min(x.x, x.at) < end(o) && min(o.x, o.at) < end(x) })
	})
	if at < 0 {
		z.rows = append(z.rows, []briefBar{x})
		return
	}
	z.rows[at] = append(z.rows[at], x)
}

// draw draws a zone from a height on.
func (z *briefZone) draw(p *leaf, c *canvas, y float64) {
	c.text("", p.bold, 0, y+briefSize*1.05, p.bold.cut(z.name, briefNames-2))
	for i, row := range z.rows {
		at := y + float64(i)*briefRow
		for _, b := range row {
			c.rect("free", b.x, at, b.to-b.x, briefRow*0.82)
			c.text("", p.font, b.at, at+briefSize*1.05, b.name)
		}
	}
}

// briefHigh is the height of some zones.
func briefHigh(zones []briefZone) (h float64) {
	for _, z := range zones {
		h += float64(len(z.rows))*briefRow + briefRow*0.4
	}
	return h
}
