package wall

import (
	"fmt"
	"strconv"
	"strings"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/safety"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/web"
	"build.example/turflast/schedule/show/window"
	"build.example/turflast/schedule/show/wording"
)

// style is the look of a chart, for a laser printer without colours first: what fixes the date
// is black, what may slip little has a heavy edge, what breaks a date is hatched. Colours are
// of Okabe and Ito's palette (2008).
const style = `<style>
.wall text{font-family:Helvetica,Arial,"Liberation Sans",sans-serif;fill:#111}
.wall .b{font-weight:700}.wall .soft{fill:#555}.wall .white{fill:#fff}.wall .warm{fill:#8f3600}
.wall .seam{fill:#e7e4db}
.wall .hair{stroke:#c4c0b4;stroke-width:.2;fill:none}
.wall .rule{stroke:#111;stroke-width:.45;fill:none}
.wall .ink{fill:#111}.wall .pen{stroke:#111;stroke-width:.6;fill:none}
.wall .aim{stroke:#111;stroke-width:.5;stroke-dasharray:2.2 1.6;fill:none}
.wall .now{stroke:#111;stroke-width:.7;stroke-dasharray:.1 1.5;stroke-linecap:round;fill:none}
.wall .free{fill:#cfe0ec}.wall .tight{fill:#9cc6e2}.wall .done{fill:#fff;stroke:#8a8a8a;stroke-width:.25}
.wall .late{fill:#f6bf98;stroke:#8f3600;stroke-width:.5}.wall .hatch{stroke:#8f3600;stroke-width:.45;fill:none}
.wall .cure{stroke:#111;stroke-width:.75;stroke-dasharray:.05 1.7;stroke-linecap:round;fill:none}
.wall .pause{stroke:#111;stroke-width:.45;fill:none}.wall .open{fill:#fff;stroke:#111;stroke-width:.6}
.wall .living{fill:#005c43}.wall .halo{paint-order:stroke;stroke:#fff;stroke-width:1.1;stroke-linejoin:round}
</style>
`

// picture draws a leaf, one of so many.
func (p *leaf) picture(i, of int) Picture {
	c := &canvas{}
	p.behind(c)
	p.head(c, i, of)
	y := p.ruler(c, border+headHigh)
	y = p.strip(c, y)
	c.line("rule", border, y, p.end(), y)
	y += p.font.size * 0.5
	for k := range p.zones {
		y = p.zone(c, &p.zones[k], y)
	}
	p.foot(c, y)
	name := fmt.Sprintf("Wall chart of %s, sheet %d of %d: %s to %s", clean(p.c.Plan.Garden), i+1, of,
		p.words.Day(p.axis.days[0].date), p.words.Day(p.axis.days[len(p.axis.days)-1].date))
	return Picture{svg(c, i, name, wording.WallSays, p.width, p.height), name, p.width, p.height}
}

// svg is a whole picture with its name and what it is, for those who hear it.
func svg(c *canvas, i int, name, says string, w, h float64) string {
	id := strconv.Itoa(i + 1)
	return web.PictureMark + ` role="img" aria-labelledby="name` + id + ` says` + id +
		`" viewBox="0 0 ` + round(w) + " " + round(h) + `" width="` + round(w) + `mm" height="` + round(h) + `mm">` + "\n" +
		`<title id="name` + id + `">` + escape(name) + "</title>\n" +
		`<desc id="says` + id + `">` + escape(says) + "</desc>\n" + style + c.String() + "</svg>\n"
}

// behind draws the seams of the nights, under everything, from the ruler to the foot.
func (p *leaf) behind(c *canvas) {
	c.rect("white", 0, 0, p.width, p.height)
	top, high := border+headHigh, p.top()-border-headHigh+p.bodyHigh()
	for i := range p.axis.days {
		if d := &p.axis.days[i]; i+1 < len(p.axis.days) {
			c.rect("seam", d.to, top, seamWidth, high)
		}
	}
}

// head writes the garden, what the sheet belongs to, and the flag of the line.
func (p *leaf) head(c *canvas, i, of int) {
	name := font{9, true}
	flag := p.flag(c)
	room := flag - border - 8
	for name.size > 5 && name.wide(clean(p.c.Plan.Garden)) > room {
		name.size -= 0.5
	}
	c.text("", name, border, border+8.2, name.cut(clean(p.c.Plan.Garden), room))
	small := font{4, false}
	said := append([]string{wording.Wall}, p.o.Belong...)
	if of > 1 {
		said = append(said, fmt.Sprintf("sheet %d of %d", i+1, of))
	}
	c.text("soft", small, border, border+15, small.cut(clean(strings.Join(said, " · ")), room))
}

// flag writes on the line what it is, and on the lead's copy the margin and the chance; it
// returns where it begins.
func (p *leaf) flag(c *canvas) float64 {
	at := "Hand-over " + p.words.Moment(p.c.Plan.Site.Handover)
	big, small := font{8.4, true}, font{4.2, false}
	first, second := at, ""
	if p.o.Slips {
		first, second = p.words.InHand(p.c.Programme), at
		if p.o.Chance != "" {
			second += " · " + p.o.Chance
		}
	}
	w := max(big.wide(first), small.wide(second)) + 7
	x := p.edge
	if p.lineX >= 0 {
		x = p.lineX + lineWidth
	}
	from := max(x-w, border)
	high := 12.0
	if second != "" {
		high = 18
	}
	if p.lineX < 0 { // the line is on another sheet
		c.textEnd("", font{5, true}, x, border+6, first)
		c.textEnd("soft", small, x, border+12.5, second)
		return from
	}
	c.rect("ink", from, border, x-from, high)
	c.text("white", big, from+3.5, border+9, first)
	c.text("white", small, from+3.5, border+15, second)
	c.rect("ink", p.lineX, border+high, lineWidth, p.top()-border-high+p.bodyHigh())
	return from
}

// ruler writes the days and their hours, and returns the height below them.
func (p *leaf) ruler(c *canvas, y float64) float64 {
	size := p.font.size
	name, hours := font{size * 1.05, true}, font{size * 0.72, false}
	for i := range p.axis.days {
		d := &p.axis.days[i]
		room := d.to - d.x - 1
		if p.lineX > d.x && p.lineX < d.to {
			room = max(p.lineX-d.x-1, 0)
		}
		w := c.text("", name, d.x+0.6, y+size, name.day(p.words.Day(d.date), room))
		said := hour(p.words.Time(d.open[0].Start)) + "-" + hour(p.words.Time(d.open[len(d.open)-1].End))
		if w+hours.wide(said)+3 <= room {
			c.text("soft", hours, d.x+0.6+w+2, y+size, said)
		}
	}
	y += size * 1.5
	for i := range p.axis.days {
		c.line("rule", p.axis.days[i].x, y, p.axis.days[i].to, y)
	}
	p.moments(c)
	return y + size*0.5
}

// hour is a time of day without its minutes where it has none: "7", "12:30".
func hour(s string) string { return strings.TrimPrefix(strings.TrimSuffix(s, ":00"), "0") }

// moments draws the aim and now, from above the ruler down to the foot.
func (p *leaf) moments(c *canvas) {
	y, low := border+headHigh, p.top()+p.bodyHigh()
	small := font{p.font.size * 0.72, true}
	draw := func(class, name string, x float64) {
		c.line(class, x, y-3, x, low)
		c.textEnd("", small, x-0.8, y-1, name)
	}
	if aim := p.c.Plan.Site.Aim; aim != 0 && aim > p.axis.start() && aim <= p.axis.end() {
		draw("aim", "aim "+p.words.Time(aim), p.axis.to(aim))
	}
	if now := p.c.Plan.Now(); now > p.axis.start() && now < p.axis.end() {
		draw("now", "now", p.axis.from(now))
	}
}

// stripRows are the rows for the names of the chain's links.
const stripRows = 3

// strip draws the hand-over chain on one row, on the first sheet with names under it.
func (p *leaf) strip(c *canvas, y float64) float64 {
	size := p.font.size
	c.text("", font{size * 0.82, true}, border, y+size*1.15, wording.TheChain)
	var names []bar
	for _, a := range window.ChainOf(p.c.Programme) {
		b, ok := p.barOf(a)
		if !ok {
			continue
		}
		b.ground, b.number = p.ground(a), strconv.Itoa(p.book.Number(a))
		p.shape(c, &b, y)
		if w := p.bold.wide(b.number); !b.lorry && w+0.8 <= b.work[0][1]-b.x {
			c.text(ink(b.ground), p.bold, b.x+0.5, y+size*1.05, b.number)
		}
		b.slip, b.hold = "", -1
		p.place(&b)
		b.from, b.through = b.label, b.ends
		names = append(names, b)
	}
	y += size * rowShare
	if !p.first {
		return y + size*0.2
	}
	rows := packed(names, size*0.6)
	for i, row := range rows[:min(len(rows), stripRows)] {
		for k := range row {
			b := &row[k]
			base := y + size*(1.05+float64(i)*1.2)
			w := c.text("", p.bold, b.label, base, b.number)
			c.text("", p.font, b.label+w+size*gapShare, base, b.name)
		}
	}
	return y + size*(1.2*stripRows+0.3)
}

// barOf is the bar of an activity on this sheet.
func (p *leaf) barOf(a schedule.Activity) (bar, bool) {
	if t, task := p.c.Plan.Task(a); task {
		return p.taskBar(t)
	}
	d, _ := p.c.Plan.Delivery(a)
	return p.lorryBar(d)
}

// ink is the class of letters on a ground.
func ink(g window.Ground) string {
	if g == window.Chain {
		return "white"
	}
	return ""
}

// top is where the first zone begins.
func (p *leaf) top() float64 {
	size := p.font.size
	y := border + headHigh + size*2 + size*rowShare + size*0.5
	if p.first {
		return y + size*(1.2*stripRows+0.3)
	}
	return y + size*0.2
}

// zone draws the rows of a zone, and returns the height below them.
func (p *leaf) zone(c *canvas, z *zone, y float64) float64 {
	size, row := p.font.size, p.rowHigh()
	name := font{size * 0.82, true}
	for i, line := range z.name {
		c.text("", name, border, y+size*1.1+float64(i)*row*0.82, line)
	}
	if z.quiet != "" {
		c.text("soft", font{size * 0.72, false}, border, y+size*1.1+float64(len(z.name))*row*0.82, z.quiet)
	}
	at := y
	if z.told != "" {
		low := p.axis.left()
		c.text("soft", p.font, low, at+size*1.05, p.font.cut(clean(z.told), p.edge-low-lineWidth-8))
		at += row
	}
	for _, bars := range z.rows {
		for i := range bars {
			p.bar(c, &bars[i], at)
		}
		at += row
	}
	y += p.zoneHigh(z)
	c.line("hair", border, y-size*0.35, p.end(), y-size*0.35)
	return y
}

// end is where rules end: at the line, unless something lies beyond it.
func (p *leaf) end() float64 {
	if p.lineX >= 0 && p.axis.right() < p.lineX+1 {
		return p.lineX + lineWidth
	}
	return p.edge
}

// bar draws a bar with its label and marks on a row.
func (p *leaf) bar(c *canvas, b *bar, y float64) {
	size := p.font.size
	p.shape(c, b, y)
	if b.wait > b.to && !b.plain {
		if from := max(b.to, b.ends) + 1; from < b.wait {
			c.line("cure", from, y+size*barShare/2, b.wait, y+size*barShare/2)
		}
	}
	if b.plain {
		return
	}
	p.label(c, b, y, "")
	if b.ground == window.Chain && !b.lorry { // on black the letters are white
		for _, w := range b.work {
			c.within(w[0], y, w[1]-w[0], size*barShare, func() { p.label(c, b, y, "white") })
		}
	}
	if b.hold >= 0 {
		class := "open"
		if t, _ := p.c.Plan.Task(b.activity); p.c.Plan.Started(t) && p.c.Plan.Progress.Tasks[t].Signed != 0 {
			class = "ink"
		}
		c.circle(class, b.hold, y+size*barShare/2, size*0.3)
	}
}

// label writes number, name and figure.
func (p *leaf) label(c *canvas, b *bar, y float64, class string) {
	size := p.font.size
	gap, base, x := size*gapShare, y+size*0.97, b.label
	soft := class
	switch {
	case class == "" && b.ground == window.Done:
		soft = "soft"
	case class == "" && b.ground == window.Late: // the letters stand on hatching
		class, soft = "halo", "halo"
	}
	if b.state != sheets.Ahead {
		p.stateMark(c, b.state, x, y, class)
		x += p.mark() + gap
	}
	x += c.text(class, p.bold, x, base, b.number) + gap
	x += c.text(soft, p.font, x, base, b.name) + gap
	if b.slip != "" {
		if b.ground == window.Late {
			class = strings.TrimSpace(class + " warm")
		}
		c.text(class, p.bold, x, base, b.slip)
	}
}

// stateMark draws a tick for what is done, and an arrow for what is in hand.
func (p *leaf) stateMark(c *canvas, st sheets.State, x, y float64, class string) {
	m, mid := p.mark(), y+p.font.size*barShare/2
	if st >= sheets.Unsigned {
		c.path("pen", "M"+round(x)+" "+round(mid)+"l"+round(m*0.35)+" "+round(m*0.35)+"l"+round(m*0.55)+" "+round(-m*0.75))
		return
	}
	if class == "" {
		class = "ink"
	}
	half, wide := round(m*0.4), m*0.7
	c.path(class, "M"+round(x)+" "+round(mid-m*0.4)+"l"+round(wide)+" "+half+"l"+round(-wide)+" "+half+"z")
}

// grounds are the classes of the grounds.
var grounds = [...]string{
	window.Done: "done", window.Free: "free", window.Tight: "tight", window.Chain: "ink", window.Late: "late",
}

// shape draws the ground of a bar: its work, with a thin line through its pauses; of a lorry
// its mark.
func (p *leaf) shape(c *canvas, b *bar, y float64) {
	size := p.font.size
	high := size * barShare
	if b.lorry {
		p.lorry(c, b, y+high/2)
		return
	}
	for i, w := range b.work {
		if i > 0 {
			p.pause(c, b, b.work[i-1][1], w[0], y+high/2)
		}
		c.rect(grounds[b.ground], w[0], y, w[1]-w[0], high)
		switch b.ground {
		case window.Tight:
			c.rect("ink", w[0], y+high-size*0.2, w[1]-w[0], size*0.2)
		case window.Late:
			c.within(w[0], y, w[1]-w[0], high, func() { c.path("hatch", hatching(w[0], y, w[1]-w[0], high)) })
		}
	}
}

// pause draws a pause from x to to as a thin line, where the label leaves it free.
func (p *leaf) pause(c *canvas, b *bar, x, to, y float64) {
	gap := p.font.size * padShare
	if b.plain || b.ends == b.label {
		c.line("pause", x, y, to, y)
		return
	}
	if end := min(to, b.label-gap); x < end {
		c.line("pause", x, y, end, y)
	}
	if from := max(x, b.ends+gap); from < to {
		c.line("pause", from, y, to, y)
	}
}

// hatching is slanting lines over a rectangle.
func hatching(x, y, w, h float64) string {
	var b strings.Builder
	for at := x - h; at < x+w; at += 2.4 {
		fmt.Fprintf(&b, "M%s %sL%s %s", round(at), round(y+h), round(at+h), round(y))
	}
	return b.String()
}

// lorry draws a lorry's mark: pointing down for one that comes in, up for one that goes out.
func (p *leaf) lorry(c *canvas, b *bar, mid float64) {
	m := p.mark()
	class := "ink"
	d, _ := p.c.Plan.Delivery(b.activity)
	lorry := &p.c.Plan.Deliveries[d]
	if lorry.Keep > 0 {
		class = "living"
	}
	if b.ground == window.Late {
		class = "warm"
	}
	up := m * 0.42
	if lorry.Out {
		up = -up
	}
	c.path(class, fmt.Sprintf("M%s %sh%sL%s %sz", round(b.x-m/2), round(mid-up), round(m), round(b.x), round(mid+up)))
}

// foot writes what the marks mean, and on the last sheet the verdict and the usual cautions.
func (p *leaf) foot(c *canvas, y float64) {
	size := p.font.size
	y = max(y, p.height-border-p.footHigh()+size*0.6)
	p.marks(c, y)
	if !p.last {
		return
	}
	y += size * 1.9
	tiny := font{cautionSize, false}
	for i, column := range p.cautions() {
		for k, line := range column {
			x := border + float64(i)*(p.cautionWide()+6)
			c.text("", tiny, x, y+cautionSize+float64(k)*cautionSize*1.32, line)
		}
	}
}

// marks writes the legend, in letters that leave it room on a line.
func (p *leaf) marks(c *canvas, y float64) {
	of := *p.sheet
	of.font.size = min(of.font.size, float64(p.o.Paper.Width)*mostLegend)
	q, x := leaf{sheet: &of}, border
	for _, k := range q.legend() {
		x += k.draw(c, x, y, font{of.font.size * 0.74, false}) + of.font.size*0.9
	}
}

// mostLegend is the largest size of the legend's letters, for each millimetre of a sheet's width.
const mostLegend = 0.0118

// The letters of the cautions, which are read from near, and the columns they stand in.
const (
	cautionSize    = 2.7
	cautionColumns = 3
)

func (p *leaf) cautionWide() float64 {
	return (p.width - 2*border - 6*(cautionColumns-1)) / cautionColumns
}

// cautions are the usual cautions for all hazards, in lines of columns.
func (p *leaf) cautions() (columns [cautionColumns][]string) {
	var hazards []string
	for i := range p.c.Plan.Tasks {
		hazards = append(hazards, p.c.Plan.Tasks[i].Hazards...)
	}
	var lines []string
	tiny := font{cautionSize, false}
	for _, x := range safety.Cautions(hazards) {
		lines = append(lines, tiny.wrap(wording.ShortCaution(x), p.cautionWide(), 9)...)
	}
	if len(lines) > 0 {
		lines = append(lines, safety.Deference)
	}
	each := (len(lines) + cautionColumns - 1) / cautionColumns
	for i := range columns {
		columns[i] = lines[min(i*each, len(lines)):min((i+1)*each, len(lines))]
	}
	return columns
}

// footHigh is the height of the foot.
func (p *leaf) footHigh() float64 {
	h := p.font.size * 2
	if p.last {
		if n := len(p.cautions()[0]); n > 0 {
			h += p.font.size*0.6 + float64(n)*cautionSize*1.32
		}
	}
	return h
}
