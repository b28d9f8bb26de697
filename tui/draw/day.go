package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// Everyone stands for all crews in a [DayLook].
const Everyone schedule.CrewID = schedule.None

// DayLook is what the day view shows: a date, a crew, whether how far each may slip is told,
// the first paragraph in sight, and which of the crew's shifts is chosen, counted from 1; 0
// means none.
type DayLook struct {
	Date   calendars.Date
	Crew   schedule.CrewID // or Everyone
	Slips  bool
	Top    int
	Chosen int
}

// Shift is a stretch of one day in which a task or an unloading is worked on: a line
// of the run sheet.
type Shift struct {
	Activity schedule.Activity
	Span     calendars.Span
	line     sheets.Line
}

// Shifts lists the shifts of a day, of one crew or of everyone: first what failed or isn't
// signed, what is in hand, and what should have been ticked off by now; then the rest in
// the order of the run sheet. It leaves out what the filter hides.
func (g *Garden) Shifts(look DayLook) []Shift {
	var out []Shift
	for _, l := range g.sheets().Lines(look.Date, look.Crew) {
		if g.Shown(l.Activity) {
			out = append(out, Shift{l.Activity, l.Span, l})
		}
	}
	out = append(g.open(look, out), out...)
	slices.SortStableFunc(out, func(a, b Shift) int { return cmp.Compare(g.urgency(a), g.urgency(b)) })
	return out
}

// open lists the tasks that have no shift on a date and still want something, as shifts
// without a time: those begun and not ticked as finished and those whose sign-off failed, the
// crew's or what its work waits for, on today's date and later ones, and on today's those
// whose sign-off is due.
func (g *Garden) open(look DayLook, shifts []Shift) []Shift {
	if g.Plan.Progress == nil || look.Date < g.Date(g.Plan.Now()) {
		return nil
	}
	var out []Shift
	failed := g.sheets().Failed(look.Date, look.Crew)
	for i := range g.Plan.Tasks {
		a := schedule.TaskID(i).Activity()
		theirs := look.Crew == Everyone || needs(g.Plan.Tasks[i].Crew, look.Crew)
		listed := slices.ContainsFunc(shifts, func(s Shift) bool { return s.Activity == a })
		due := g.State(a) == sheets.Unsigned && look.Date == g.Date(g.Plan.Now())
		wanted := theirs && (due || g.State(a) == sheets.InHand) || slices.Contains(failed, schedule.TaskID(i))
		if wanted && !listed && g.Shown(a) {
			out = append(out, Shift{Activity: a})
		}
	}
	return out
}

// urgency orders the shifts of a day: the less, the sooner somebody must look at it.
func (g *Garden) urgency(s Shift) int {
	now := g.Plan.Now()
	switch state := g.State(s.Activity); {
	case state == sheets.Unsigned, g.toPutRight(s.Activity):
		return 0
	case state == sheets.InHand:
		return 1
	case state == sheets.Ahead && now.IsReal() && s.Span.Start < now:
		return 2
	}
	return 3
}

// toPutRight says whether an activity is a task whose sign-off failed and that is to be put
// right.
func (g *Garden) toPutRight(a schedule.Activity) bool {
	t, task := g.Plan.Task(a)
	return task && g.Plan.ToPutRight(t)
}

func needs(crew []schedule.CrewNeed, c schedule.CrewID) bool { return sheets.Needs(crew, c) }

// paragraph is one block of the day: a big time at the left, if it has one,
// and lines beside it.
type paragraph struct {
	time  string
	lines []page.Text
	small bool // no gap between it and a small neighbour
}

func (p *paragraph) height() int {
	if p.time != "" {
		return max(len(p.lines), 3)
	}
	return len(p.lines)
}

// Day draws the day of one crew, with a paragraph for each shift, or of everyone, with a
// line for each.
func Day(g *Garden, c Chrome, look DayLook, s Size, th Theme) string {
	if small, ok := tooSmallFor(s, pageWidth); ok {
		return small
	}
	cv := newCanvas(s)
	c.top(cv, g, nil, s.Width-2, 0)
	cv.set(s.Width-2, 1, markLine, Line)
	cv.put(2, 1, Cut(c.Keys, s.Width-6), Quiet)
	g.dayHead(cv, look)
	cv.put(2, dayRows-1, Cut(g.asked(look), s.Width-3), Strong)
	foot := s.Height - c.footRows()
	ps, y := g.dayText(look, s.Width), dayRows
	for i := max(look.Top, topIn(ps, look, foot-dayRows)); i < len(ps) && y < foot; i++ {
		if i+1 == look.Chosen {
			cv.set(0, y, markChosen, Strong)
		}
		y = ps[i].draw(cv, y, foot) + gap(ps, i)
	}
	c.foot(cv)
	return cv.render(th)
}

// DayAt returns the shift at a line of a day's frame, and its crew; ok is false where there
// is none.
func DayAt(g *Garden, c Chrome, look DayLook, s Size, line int) (at schedule.Activity, crew schedule.CrewID, ok bool) {
	foot, ps := s.Height-c.footRows(), g.dayText(look, s.Width)
	owners := []schedule.CrewID{look.Crew}
	if look.Crew == Everyone {
		owners = g.crewsOn(look.Date)
	}
	y := dayRows
	for i := max(look.Top, topIn(ps, look, foot-dayRows)); i < len(ps) && y < foot; i++ {
		row := line - y
		if row >= 0 && row < ps[i].height() && line < foot {
			if look.Crew != Everyone {
				return g.shiftAt(look, i)
			}
			if i >= len(owners) {
				return schedule.Nothing, schedule.None, false
			}
			return g.shiftAt(DayLook{Date: look.Date, Crew: owners[i]}, row-1) // below its heading
		}
		y += ps[i].height() + gap(ps, i)
	}
	return schedule.Nothing, schedule.None, false
}

// shiftAt returns a crew's shift by its place in the day.
func (g *Garden) shiftAt(look DayLook, i int) (at schedule.Activity, crew schedule.CrewID, ok bool) {
	shifts := g.Shifts(look)
	if i < 0 || i >= len(shifts) {
		return schedule.Nothing, schedule.None, false
	}
	return shifts[i].Activity, look.Crew, true
}

// crewsOn lists the crews that have shifts on a date.
func (g *Garden) crewsOn(on calendars.Date) []schedule.CrewID {
	var out []schedule.CrewID
	for c := range g.Plan.Crews {
		if id := schedule.CrewID(c); len(g.Shifts(DayLook{Date: on, Crew: id})) > 0 {
			out = append(out, id)
		}
	}
	return out
}

// dayRows is the height above the paragraphs of a day.
const dayRows = 4

// LastTop returns the first paragraph from which the rest of a day fits a frame.
// Scrolling farther shows nothing new.
func (g *Garden) LastTop(look DayLook, s Size) int {
	ps, room := g.dayText(look, s.Width), s.Height-dayRows-footRows
	top := len(ps)
	for top > 0 && room >= ps[top-1].height() {
		top--
		room -= ps[top].height() + gap(ps, top-1)
	}
	return min(top, max(len(ps)-1, 0))
}

// gap returns how many lines stay free after a paragraph: none between two small ones.
func gap(ps []paragraph, i int) int {
	if i >= 0 && i+1 < len(ps) && ps[i].small && ps[i+1].small {
		return 0
	}
	return 1
}

func (p *paragraph) draw(cv *canvas, y, foot int) int {
	x := 2
	if p.time != "" {
		x = 2 + bigWidth + 2
		if y+3 <= foot {
			cv.bigTime(2, y, p.time, Strong)
		} else {
			cv.put(2, y, p.time, Strong)
		}
	}
	for i, l := range p.lines {
		if y+i < foot {
			cv.line(x, y+i, l, cv.w-1-x)
		}
	}
	return y + p.height()
}

// dayHead names the day and the crew, and says how many are there.
func (g *Garden) dayHead(cv *canvas, look DayLook) {
	x := cv.put(2, 2, strings.ToUpper(g.Words.Day(look.Date)), Strong)
	who := "everyone"
	if look.Crew != Everyone {
		who = g.crewName(look.Crew)
	}
	x = cv.put(x, 2, " · "+Cut(who, 30), Strong)
	note := g.dayNote(look)
	if now := g.Plan.Now(); now.IsReal() {
		from, _ := calendars.At(g.Plan.Site.Location, look.Date, 0)
		note += " · as at " + g.Words.Then(now, from)
	}
	if len(g.Issues) > 0 {
		note += " · " + wording.IssueInBrief(g.standing(look.Crew))
	}
	cv.put(x, 2, Cut(" · "+note, cv.w-1-x), Quiet)
}

// asked is the first question about what should have been ticked off by now, with its keys;
// empty for none, and on a date that is over.
func (g *Garden) asked(look DayLook) string {
	if g.Plan.Progress == nil || look.Date < g.Date(g.Plan.Now()) {
		return ""
	}
	said := g.Words.QuestionInBrief(g.sheets(), g.sheets().Questions(look.Crew), g.TickNow, g.TickEarlier)
	if said == "" {
		return ""
	}
	return "? " + Clean(said)
}

// dayNote says how many people of the crew are there or, for everyone, when the site is
// open.
func (g *Garden) dayNote(look DayLook) string {
	from, _ := calendars.At(g.Plan.Site.Location, look.Date, 0)
	to, _ := calendars.At(g.Plan.Site.Location, look.Date+1, 0)
	if look.Crew == Everyone {
		var open []string
		for s := range g.Hours.Site.Openings(from, to) {
			open = append(open, g.clock(s.Start)+"-"+g.clock(s.End))
		}
		if len(open) == 0 {
			return "the site is closed"
		}
		return "site open " + strings.Join(open, ", ")
	}
	most := 0
	g.Hours.Crews[look.Crew].Steps(func(s calendars.Span, n int) bool {
		if s.Start < to && s.End > from {
			most = max(most, n)
		}
		return s.Start < to
	})
	switch most {
	case 0:
		return "nobody there"
	case 1:
		return "1 there"
	}
	return fmt.Sprintf("%d there", most)
}

// dayText returns the paragraphs of a day.
func (g *Garden) dayText(look DayLook, width int) []paragraph {
	if look.Crew == Everyone {
		return g.everyone(look, width)
	}
	shifts := g.Shifts(look)
	var out []paragraph
	for _, s := range shifts {
		out = append(out, g.shiftText(look, s, width))
	}
	if len(out) == 0 {
		out = append(out, paragraph{lines: []page.Text{page.As(page.Plain, wording.NoWork)}})
	}
	out = append(out, g.free(look, width)...)
	out = append(out, g.duties(look, width)...)
	out = append(out, g.sky(look, shifts, width)...)
	out = append(out, g.tired(look, width)...)
	out = append(out, g.through(look, width)...)
	out = append(out, g.noted(look, width)...)
	out = append(out, g.issued(look, width)...)
	out = append(out, g.notYet(look, width)...)
	out = append(out, g.leftOut(look, width)...)
	out = append(out, g.mended(width)...)
	return append(out, g.cautions(shifts, width)...)
}

// shiftText returns the paragraph of one shift for a frame of some width: what the run
// sheet says of it, or a single line if it is ticked off. On a narrow frame its time is no
// big one.
func (g *Garden) shiftText(look DayLook, s Shift, width int) paragraph {
	p, number := paragraph{time: g.clock(s.Span.Start)}, g.Number(s.Activity)
	t, _ := g.Plan.Task(s.Activity)
	switch {
	case g.State(s.Activity) == sheets.Ticked:
		text := fmt.Sprintf("%3d %s %s · %s", number, markTicked, g.Name(s.Activity), Clean(g.happened(s)))
		return paragraph{lines: []page.Text{page.As(page.Quiet, text)}, small: true}
	case s.Span.Start == 0: // it is only to be signed, or its planned time has run out
		name := fmt.Sprintf("%3d %s %s", number, stateMark(g.State(s.Activity)), g.Name(s.Activity))
		return paragraph{lines: told(width-4, page.Whole(page.As(page.Strong, Cut(name, width-4))),
			page.Paragraph{Mark: "      ", Text: page.As(page.Strong, g.Words.SoFar(t, g.Plan.Now()))})}
	}
	head, tail := fmt.Sprintf("%d  ", number), ""
	if width < minWidth {
		head, p.time, width = p.time+"  "+head, "", width-4
	} else {
		width -= bigWidth + 6
	}
	if look.Slips && g.onChain(s.Activity) {
		tail = "  " + markChain + " on the chain"
	}
	head += g.nameFor(s.Activity, width-Columns(head)-Columns(tail)) + tail
	blocks := []page.Block{page.Whole(page.As(page.Strong, Cut(head, width)))}
	for _, f := range g.sheet(s.line, look.Slips) {
		text := f.Text
		if f.Kind == wording.FactBreak {
			text = page.BreakMark + text
		}
		blocks = append(blocks, page.Paragraph{Mark: "   ", Text: page.As(f.Kind.Role(), text)})
	}
	p.lines = told(width, blocks...)
	return p
}

// everyone lists the shifts of all crews, crew by crew.
func (g *Garden) everyone(look DayLook, width int) []paragraph {
	var out []paragraph
	for c := range g.Plan.Crews {
		mine := DayLook{Date: look.Date, Crew: schedule.CrewID(c)}
		var lines []page.Block
		for _, s := range g.Shifts(mine) {
			lines = append(lines, g.shiftLine(s, mine.Crew, width))
		}
		out = append(out, titled(g.crewName(mine.Crew)+" · "+g.dayNote(mine), width, lines)...)
	}
	if len(out) == 0 {
		out = append(out, paragraph{lines: []page.Text{page.As(page.Plain, wording.NoWork)}})
	}
	out = append(out, g.through(look, width)...)
	out = append(out, g.noted(look, width)...)
	out = append(out, g.issued(look, width)...)
	return append(out, g.mended(width)...)
}

func (g *Garden) shiftLine(s Shift, crew schedule.CrewID, width int) page.Block {
	st := page.Plain
	if g.onChain(s.Activity) {
		st = page.Strong
	}
	where := "Gate"
	if t, ok := g.Plan.Task(s.Activity); ok {
		where = g.Words.Where(t)
	}
	state := g.State(s.Activity)
	switch state {
	case sheets.InHand:
		st = page.Strong
	case sheets.Ticked:
		st = page.Quiet
	}
	tick := stateMark(state)
	head := fmt.Sprintf("%s-%s  %3d %s ", g.clock(s.Span.Start), g.clock(s.Span.End), g.Number(s.Activity), tick)
	tail, columns := " · "+Clean(where), width-3
	switch {
	case s.Span.Start == 0:
		want := "to be signed"
		if state == sheets.InHand {
			want = "finished?"
		}
		head = fmt.Sprintf("%11s  %3d %s ", want, g.Number(s.Activity), tick)
	case width < minWidth:
		head, tail = fmt.Sprintf("%s %3d %s ", g.clock(s.Span.Start), g.Number(s.Activity), tick), ""
	}
	name := g.nameFor(s.Activity, columns-Columns(head)-Columns(tail))
	return page.Whole(page.As(st, Cut(head+name+tail, columns)))
}

// stateMark is the mark of how far an activity is: a space before it is begun.
func stateMark(s sheets.State) string {
	return [...]string{
		sheets.Ahead: " ", sheets.InHand: markInHand, sheets.Unsigned: markHold, sheets.Ticked: markTicked,
	}[s]
}
