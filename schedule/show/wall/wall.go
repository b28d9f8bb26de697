// Package wall draws the window for the wall of a hut: site hours from left to right with
// nights as narrow seams, zones as one walks in from the top, the gate at the foot, names on
// bars, the hand-over chain as its strip, and at the right the line. It knows nothing of
// files or browsers: what comes out is SVG in millimetres, a picture a sheet of paper.
package wall

import (
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/web"
	"build.example/turflast/schedule/show/window"
	"build.example/turflast/schedule/show/wording"
)

// Options say how a chart is drawn, and what is on it.
type Options struct {
	Paper  web.Sheet // one of its sheets, lying; ignored for the height of a long one
	Long   bool      // one picture, as wide and as high as it takes
	Slips  bool      // the lead's copy: how far each may slip, the margin, the chance
	Chance string    // how likely it is in time, in a few words; empty where nobody asked
	Belong []string  // whose copy it is, the issue, and its moment
}

// Picture is one sheet of the chart.
type Picture struct {
	SVG           string
	Name          string  // what it shows, in a sentence
	Width, Height float64 // in millimetres
}

// The measures of a chart, in millimetres, for letters of 1 mm where they are shares.
const (
	border    = 9.0
	lineWidth = 2.6
	rowShare  = 1.42 // from one row to the next
	barShare  = 1.22 // height of a bar
	namesCol  = 8.2  // the column of the zones' names
	beyondGap = 5.0  // right of the line, where nothing lies beyond it
	headHigh  = 24.0
)

// sheet is one picture while it is laid out: some days of the ruler, and some rows of zones.
type sheet struct {
	c     network.Case
	book  *sheets.Book
	words *wording.Writer
	o     Options
	chain map[schedule.Activity]bool

	width, height float64
	font, bold    font
	axis          *axis
	last          calendars.Instant // of all days
	lineX         float64           // of the line; negative where it isn't on this sheet
	edge          float64           // the right end of all that is drawn
}

// zone is the rows of one zone, or of the gate.
type zone struct {
	name  []string
	gate  bool
	told  string // said in place of what isn't drawn
	quiet string // said under its name
	rows  [][]bar
	more  bool // it began on the sheet before
}

// letters are the sizes of letters that are tried, in millimetres, from the largest on, for
// each hundred millimetres of a sheet's width.
var letters = []float64{1.7, 1.45, 1.24, 1.12, 1.0}

// longLetters is the size on a long picture.
const longLetters = 1.14

// Draw draws the chart of a book.
func Draw(b *sheets.Book, o Options) []Picture {
	days := daysOf(b.Case)
	if len(days) == 0 {
		return nil
	}
	var best []leaf
	for _, size := range letters {
		if o.Long {
			size = longLetters
		}
		leaves := laid(b, o, days, size*float64(o.Paper.Width)/100)
		if best == nil || len(leaves) < len(best) {
			best = leaves
		}
		if o.Long || len(leaves) == 1 {
			break
		}
	}
	out := make([]Picture, len(best))
	for i := range best {
		out[i] = best[i].picture(i, len(best))
	}
	return out
}

// leastDay is the least width of a day, in sizes of a letter.
const leastDay = 7.2

// laid lays a chart out in letters of a size.
func laid(b *sheets.Book, o Options, days []day, size float64) (all []leaf) {
	s := sheet{c: b.Case, book: b, words: wording.New(b.Plan), o: o, chain: map[schedule.Activity]bool{}}
	for _, a := range window.ChainOf(b.Programme) {
		s.chain[a] = true
	}
	s.width, s.height = float64(o.Paper.Width), float64(o.Paper.Height)
	s.font, s.bold = font{size, false}, font{size, true}
	left := border + namesCol*size
	room := s.width - border - left - lineWidth - beyondGap
	s.last = days[len(days)-1].open[len(days[len(days)-1].open)-1].End
	if o.Long {
		need := leastDay * size * float64(len(days)) * 1.2
		s.width += max(need-room, 0)
		room = max(room, need)
	}
	for _, part := range chunks(days, room, leastDay*size) {
		t := s
		t.axis = newAxis(part, left, room)
		t.lineX, t.edge = -1, s.width-border
		if line := b.Plan.Site.Handover; line > t.axis.start() && line <= t.axis.end() {
			t.lineX = t.axis.to(line)
		}
		all = append(all, t.pages()...)
	}
	return all
}

// leaf is a sheet with the zones that go on it.
type leaf struct {
	*sheet
	zones       []zone
	first, last bool // of the sheets with these days
}

// pages shares the zones out among as many sheets as they take. A zone that has no room left
// goes on on the next.
func (s *sheet) pages() []leaf {
	zones := s.zones()
	if s.o.Long {
		p := leaf{sheet: s, zones: zones, first: true, last: true}
		s.height = p.top() + p.bodyHigh() + p.footHigh()
		return []leaf{p}
	}
	out := []leaf{{sheet: s, first: true}}
	for len(zones) > 0 {
		p := &out[len(out)-1]
		rest, full := p.take(zones[0])
		if zones = zones[1:]; rest != nil {
			zones = append([]zone{*rest}, zones...)
		}
		if full {
			out = append(out, leaf{sheet: s})
		}
	}
	out[len(out)-1].last = true
	// The last sheet has the cautions at its foot as well.
	if p := &out[len(out)-1]; len(p.zones) > 1 && s.height-p.top()-p.bodyHigh()-p.footHigh() < 0 {
		moved := p.zones[len(p.zones)-1]
		p.zones, p.last = p.zones[:len(p.zones)-1], false
		out = append(out, leaf{sheet: s, zones: []zone{moved}, last: true})
	}
	return out
}

// take puts a zone on a leaf, as much of it as has room, and returns the rest of it. It is full
// when there is any.
func (p *leaf) take(z zone) (rest *zone, full bool) {
	empty := leaf{sheet: p.sheet}
	room := p.height - p.top() - p.bodyHigh() - p.footHigh()
	high := p.zoneHigh(&z)
	rows := int((room - p.zoneHigh(&zone{told: z.told})) / p.rowHigh())
	switch {
	case high <= room:
		p.zones = append(p.zones, z)
		return nil, false
	case len(p.zones) > 0 && (high <= p.height-empty.top()-empty.footHigh() || rows < leastSplit):
		return &z, true
	}
	more := z
	rows = min(max(rows, 1), len(z.rows))
	z.rows, more.rows, more.told, more.more = z.rows[:rows], z.rows[rows:], "", true
	if p.zones = append(p.zones, z); len(more.rows) == 0 {
		return nil, false
	}
	return &more, true
}

// leastSplit is how many rows of a zone stand on a sheet at least, where it is split.
const leastSplit = 3

func (s *sheet) rowHigh() float64 { return s.font.size * rowShare }

// zoneHigh is the height of a zone with the gap after it.
func (s *sheet) zoneHigh(z *zone) float64 {
	n := len(z.rows)
	if z.told != "" {
		n++
	}
	return float64(max(n, len(z.name)))*s.rowHigh() + s.font.size*0.7
}

func (p *leaf) bodyHigh() (h float64) {
	for i := range p.zones {
		h += p.zoneHigh(&p.zones[i])
	}
	return h
}

// zones lists what is on the sheet: zones as one walks in, then the gate.
func (s *sheet) zones() []zone {
	p := s.c.Plan
	var out []zone
	named := make([]bool, len(p.Tasks))
	for _, id := range window.Order(p) {
		if z, ok := s.zone(id, named); ok {
			out = append(out, z)
		}
	}
	var lorries []bar
	for i := range p.Deliveries {
		if b, ok := s.lorryBar(schedule.DeliveryID(i)); ok {
			lorries = append(lorries, s.labelled(b))
		}
	}
	if len(lorries) > 0 {
		out = append(out, zone{name: []string{wording.GateLane}, gate: true, rows: packed(lorries, s.font.size*0.5)})
	}
	return out
}

// zone makes the rows of a zone; ok is false where nothing is done in it. A task in several
// zones is named in the first of them.
func (s *sheet) zone(id schedule.ZoneID, named []bool) (z zone, ok bool) {
	all, gone := s.tasksIn(id), 0
	var bars []bar
	done := true
	for _, t := range all {
		done = done && window.GroundOf(s.c, t.Activity(), false) == window.Done
		if b, here := s.taskBar(t); here {
			over := s.overLongAgo(t)
			if over && !named[t] {
				gone++
			}
			b.plain, named[t] = named[t] || over, true
			bars = append(bars, s.labelled(b))
		}
	}
	if len(all) == 0 {
		return z, false
	}
	z.rows = packed(bars, s.font.size*0.5)
	switch {
	case done:
		z.told, z.rows = s.words.ZoneDone(s.c.Programme, all), nil
	case s.early(all) > 0:
		z.told = s.told(all)
	case gone > 0:
		z.quiet = wording.DoneTasks(gone)
	}
	z.name = s.zoneName(id, max(len(z.rows)+btoi(z.told != ""), 1))
	return z, true
}

// tasksIn lists the tasks of a zone that have dates.
func (s *sheet) tasksIn(id schedule.ZoneID) (all []schedule.TaskID) {
	for i := range s.c.Plan.Tasks {
		if slices.Contains(s.c.Plan.Tasks[i].Zones, id) && onAxis(s.c, schedule.Activity(i)) {
			all = append(all, schedule.TaskID(i))
		}
	}
	return all
}

// overLongAgo says whether a task was done on a day that is over.
func (s *sheet) overLongAgo(t schedule.TaskID) bool {
	loc := s.c.Plan.Site.Location
	return s.c.Plan.Finished(t) &&
		calendars.DateIn(s.c.Programme.Tasks[t].Finish, loc) < calendars.DateIn(s.c.Plan.Now(), loc)
}

// early counts the tasks that are done before the gate opens.
func (s *sheet) early(all []schedule.TaskID) (n int) {
	for _, t := range all {
		if s.c.Programme.Tasks[t].Start < s.c.Plan.Site.Opens {
			n++
		}
	}
	return n
}

// told says in a sentence what a place off site holds; the lead's copy also what hurts first.
func (s *sheet) told(all []schedule.TaskID) string {
	hurt, least := schedule.TaskID(schedule.None), schedule.FreeRange
	for _, t := range all {
		if slip, known := window.Slip(s.c, t.Activity()); known && slip < least {
			hurt, least = t, slip
		}
	}
	if hurt == schedule.None || !s.o.Slips {
		return s.words.ZoneReady(s.c.Programme, all)
	}
	return s.words.ZoneHurts(s.c.Programme, all, clean(s.words.Task(hurt)), window.Really(s.c, hurt))
}

// zoneName is the name of a zone on at most so many lines.
func (s *sheet) zoneName(id schedule.ZoneID, lines int) []string {
	name := clean(s.c.Plan.Zones[id].Name)
	if name == "" {
		name = s.c.Plan.Zones[id].ID
	}
	f := font{s.font.size * 0.82, true}
	return f.wrap(strings.ToUpper(name), namesCol*s.font.size-s.font.size*0.6, min(lines, 4))
}
