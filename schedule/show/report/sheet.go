package report

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/mend"
	"build.example/turflast/schedule/safety"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
)

// Sheets are the sheets of a programme as pages.
type Sheets struct {
	r    *Report
	book *sheets.Book
	// Mends are what would mend the dates that break, for the run sheet of everyone; nil
	// when that isn't known.
	Mends *mend.Result
	// Said is a sentence for the top of every sheet; empty for none.
	Said string
	// Issued says which issue the sheet is of, or that it is of none; empty where that isn't said.
	Issued string
}

// NewSheets returns the sheets of a book as pages.
func NewSheets(b *sheets.Book) *Sheets {
	return &Sheets{r: New(b.Case), book: b}
}

// head adds the top of every sheet: the garden and what the sheet is about, the aim or, on
// the lead's copy, the margin, and which issue it is.
func (s *Sheets) head(w *page.Document, what string) {
	g := s.r.of.Programme
	w.Title(s.r.of.Plan.Garden, what)
	role, said := page.Strong, s.r.words.AimAlone()
	if s.book.Lead {
		role, said = handedOver(g), s.r.words.MarginAndBreaks(g)
	}
	w.In(role, strings.TrimSpace(s.r.words.AsAt()+" "+said))
	w.Say(s.Issued)
	w.Say(s.Said)
}

// Today is the run sheet of a day, of one crew or crew by crew.
func (s *Sheets) Today(d *sheets.Day) *page.Document {
	w := &page.Document{}
	what := s.r.words.Day(d.On)
	s.asked(w, d)
	if d.Crew == sheets.Everyone {
		s.head(w, what+s.r.words.SiteOn(d.On))
		s.accidents(w)
		s.failed(w, d)
		s.absent(w, d)
		s.everyone(w, d)
	} else {
		s.head(w, what+" · "+s.r.of.Plan.Crews[d.Crew].Name)
		s.failed(w, d)
		s.absent(w, d)
		w.Say(s.r.words.AtWork(d.Heads, d.Open) + ".")
		s.lines(w, d)
	}
	s.free(w, d)
	s.duties(w, d)
	s.gateOf(w, d)
	s.signOffs(w, d)
	s.notes(w, d)
	s.tired(w, d)
	s.weather(w, d)
	s.next(w, d)
	if !busy(d) {
		s.care(w, d)
	} else if care := s.r.words.CareInBrief(d.Hazards, safety.Deference); care != "" {
		w.Space()
		w.Say(care)
	}
	w.Space()
	toSign(w, 0, wording.CheckedBy)
	if d.Crew == sheets.Everyone && s.book.Lead {
		s.r.beyond(w)
		s.r.Mending(s.Mends).mending(w)
	}
	return w
}

// asked adds, before all else, what should have been ticked off by now.
func (s *Sheets) asked(w *page.Document, d *sheets.Day) {
	for _, q := range append(s.r.words.Undone(d.Undone), s.r.words.Questions(s.book, d.Asked)...) {
		w.Add(page.Paragraph{Mark: "? ", Text: page.As(page.Strong, q)})
	}
}

// accidents adds those that aren't dealt with, on the lead's copy alone: they may name who was
// hurt.
func (s *Sheets) accidents(w *page.Document) {
	if !s.book.Lead {
		return
	}
	for _, a := range s.book.Accidents() {
		w.Broken(0, s.r.words.OpenAccident(&a))
	}
}

// absent adds the machines that are away, on the sheets of the day of the moment.
func (s *Sheets) absent(w *page.Document, d *sheets.Day) {
	standing := s.book.Standing()
	if standing == nil || d.On != s.date(s.r.of.Plan.Now()) {
		return
	}
	for m := range s.r.of.Plan.Machines {
		if text := s.r.words.Absent(standing, schedule.MachineID(m)); text != "" {
			w.Broken(0, text)
		}
	}
}

// free says who of the crews of a sheet is at work and has no work, and when.
func (s *Sheets) free(w *page.Document, d *sheets.Day) {
	var said []string
	for c := range s.r.of.Plan.Crews {
		id := schedule.CrewID(c)
		if d.Crew != sheets.Everyone && d.Crew != id {
			continue
		}
		if text := s.r.words.Free(id, s.book.Free(d.On, id)); text != "" {
			said = append(said, text)
		}
	}
	w.Section(wording.FreeTitle, said)
}

// failed adds what failed and must be put right, on what condition something was signed, and
// what was cancelled.
func (s *Sheets) failed(w *page.Document, d *sheets.Day) {
	for _, t := range d.Failed {
		w.Broken(0, s.r.words.FailedHead(s.book, t))
	}
	for _, c := range d.Terms {
		w.Say(s.r.words.OnCondition(s.book, c))
	}
	for _, g := range d.Gone {
		w.Say(s.r.words.Gone(g.Number, g.Cancelled))
	}
}

// everyone adds the lines crew by crew, then those without a crew. A line of several
// crews is in full under the first of them; the others refer to it.
func (s *Sheets) everyone(w *page.Document, d *sheets.Day) {
	told := make(map[schedule.Activity]string)
	for c := range s.r.of.Plan.Crews {
		one := s.book.Of(d.On, schedule.CrewID(c))
		if len(one.Lines)+len(one.Begun) == 0 {
			continue
		}
		name := s.r.of.Plan.Crews[c].Name
		w.Heading(name + " · " + s.r.words.AtWork(one.Heads, one.Open))
		s.begun(w, one, told)
		for i, l := range one.Lines {
			if i+len(one.Begun) > 0 {
				w.Space()
			}
			if first, known := told[l.Activity]; known {
				w.Add(page.Item{Lead: s.lead(l), Text: append(s.named(l.Activity, ""), page.Span{Text: " · see " + first})})
				continue
			}
			told[l.Activity] = name
			s.line(w, l, false)
		}
	}
	rest := sheets.Day{On: d.On}
	for _, l := range d.Lines {
		if _, known := told[l.Activity]; !known {
			rest.Lines = append(rest.Lines, l)
		}
	}
	for _, t := range d.Begun {
		if _, known := told[t.Activity()]; !known {
			rest.Begun = append(rest.Begun, t)
		}
	}
	if len(told) == 0 {
		s.lines(w, &rest)
	} else if len(rest.Lines)+len(rest.Begun) > 0 {
		w.Heading(wording.NoCrew)
		s.lines(w, &rest)
	}
}

// lines adds the work of a day: what is begun and has no line, then the lines.
func (s *Sheets) lines(w *page.Document, d *sheets.Day) {
	if len(d.Lines)+len(d.Begun) == 0 {
		w.Space()
		w.Say(wording.NoWork)
	}
	if len(d.Begun) > 0 {
		w.Space()
		s.begun(w, d, make(map[schedule.Activity]string))
	}
	for i, l := range d.Lines {
		if i == 0 || !busy(d) {
			w.Space()
		}
		s.line(w, l, busy(d))
	}
}

// mostLines is how many lines of a crew's sheet are told at length: with more of them a day
// would take more than two pages.
const mostLines = 11

// busy says whether the sheet of a crew's day is to be told closely, to fit two pages.
func busy(d *sheets.Day) bool { return d.Crew != sheets.Everyone && len(d.Lines) > mostLines }

// begun adds the work that is begun, isn't ticked as finished and has no line on the day,
// each once, and notes whose sheet it is on.
func (s *Sheets) begun(w *page.Document, d *sheets.Day, told map[schedule.Activity]string) {
	from, _ := calendars.At(s.r.of.Plan.Site.Location, d.On, 0)
	for i, t := range d.Begun {
		if i > 0 {
			w.Space()
		}
		label := fmt.Sprintf("begun %3d  ", s.book.Number(t.Activity()))
		first, known := told[t.Activity()]
		if known {
			w.Add(page.Item{Lead: label, Text: append(s.named(t.Activity(), ""), page.Span{Text: " · see " + first})})
			continue
		}
		w.Add(page.Item{Lead: label, Text: s.toTick(t.Activity(), "")})
		told[t.Activity()] = "above"
		if d.Crew != sheets.Everyone {
			told[t.Activity()] = s.r.of.Plan.Crews[d.Crew].Name
		}
		w.Add(page.Paragraph{Indent: underLine, Text: page.As(page.Strong, s.r.words.StillBegun(s.r.of.Programme, t, from))})
	}
}

// lead is the time and the number of a line.
func (s *Sheets) lead(l sheets.Line) string {
	return fmt.Sprintf("%s %3d  ", s.r.words.Time(l.Span.Start), l.Number)
}

// toTick is [Sheets.named] after a box to tick, for what isn't over.
func (s *Sheets) toTick(a schedule.Activity, way string) page.Text {
	if sheets.StateOf(s.r.of.Plan, a) == sheets.Ticked {
		return s.named(a, way)
	}
	return append(page.Text{page.ToTick(), {Text: " "}}, s.named(a, way)...)
}

// named is the name of an activity and, for a lorry, which way it goes, with marks for
// what is over and for the chain.
func (s *Sheets) named(a schedule.Activity, way string) page.Text {
	if sheets.StateOf(s.r.of.Plan, a) == sheets.Ticked {
		return page.As(page.Quiet, markTicked+" "+s.name(a)+way)
	}
	text := page.As(page.Plain, s.name(a)+way)
	if d, lorry := s.r.of.Plan.Delivery(a); lorry {
		text = append(s.r.lorry(d), page.Span{Text: way})
	}
	if s.book.Lead && s.r.of.Programme.Of(a).OnChain {
		text = append(text, page.Span{Text: " "}, page.Span{Text: markChain, Role: page.Chain})
	}
	return text
}

// name is the name of an activity, after its mark if it is a lorry.
func (s *Sheets) name(a schedule.Activity) string {
	if d, ok := s.r.of.Plan.Delivery(a); ok {
		return lorryMark(&s.r.of.Plan.Deliveries[d]) + " " + s.r.words.Delivery(d)
	}
	return s.r.words.Activity(a)
}

// underLine is the indent of what stands under the head of a line.
const underLine = len("07:00  ")

// line adds one line of the run sheet with all that there is to say about it, closely in one
// paragraph, but for dates that break.
func (s *Sheets) line(w *page.Document, l sheets.Line, closely bool) {
	w.Add(page.Item{Lead: s.lead(l), Text: s.toTick(l.Activity, "")})
	var all page.Text
	for _, f := range s.r.words.SheetParagraphs(s.book, l) {
		p := page.Paragraph{Indent: underLine, Text: page.As(f.Kind.Role(), f.Text)}
		switch {
		case f.Kind == wording.FactBreak:
			p.Mark = page.BreakMark
		case closely:
			all = append(append(all, p.Text...), page.Span{Text: closer(f.Text)})
			continue
		}
		w.Add(p)
	}
	if len(all) > 0 {
		w.Add(page.Paragraph{Indent: underLine, Text: all[:len(all)-1]})
	}
	if t, task := s.r.of.Plan.Task(l.Activity); task && l.Last && s.unsigned(t) {
		toSign(w, underLine, wording.SignedBy)
	}
}

// closer is what stands between a fact and the next in one paragraph.
func closer(fact string) string {
	if strings.HasSuffix(fact, ".") {
		return " "
	}
	return ". "
}

// unsigned says whether a task has a hold point that isn't signed.
func (s *Sheets) unsigned(t schedule.TaskID) bool {
	return s.r.of.Plan.Tasks[t].Hold != nil && sheets.StateOf(s.r.of.Plan, t.Activity()) != sheets.Ticked
}

// toSign adds room for a name and a time after a word that says whose.
func toSign(w *page.Document, indent int, who string) {
	w.Add(page.Paragraph{Indent: indent, Text: page.Text{
		{Text: who + " "}, page.ToSign(18), {Text: " " + wording.SignedAt + " "}, page.ToSign(6)}})
}

func (s *Sheets) duties(w *page.Document, d *sheets.Day) {
	if len(d.Duties) == 0 {
		return
	}
	w.Heading("Every day")
	for _, x := range d.Duties {
		text := page.Text{page.ToTick(), {Text: " " + s.r.words.Duty(&x)}}
		if x.Done != nil {
			text = page.As(page.Quiet, markTicked+" "+s.r.words.Duty(&x))
		}
		w.Add(page.Paragraph{Text: text})
	}
}

// gateOf adds the lorries that pass the gate on the day and have no line on the sheet.
func (s *Sheets) gateOf(w *page.Document, d *sheets.Day) {
	var rest []sheets.Pass
	for _, p := range d.Gate {
		if !slices.ContainsFunc(d.Lines, func(l sheets.Line) bool { return l.Activity == s.r.of.Plan.Unload(p.Delivery) }) {
			rest = append(rest, p)
		}
	}
	if len(rest) == 0 {
		return
	}
	w.Heading("Through the gate, for others")
	for _, p := range rest {
		s.pass(w, p, false)
	}
}

// signOffs adds the sign-offs of work that was finished on an earlier day. The others
// are in the lines.
func (s *Sheets) signOffs(w *page.Document, d *sheets.Day) {
	rest := slices.DeleteFunc(slices.Clone(d.SignOff), func(a sheets.Appointment) bool {
		return slices.ContainsFunc(d.Lines, func(l sheets.Line) bool { return l.Activity == a.Task.Activity() && l.Last })
	})
	if len(rest) == 0 {
		return
	}
	w.Heading("Sign-offs")
	for _, a := range rest {
		s.appointment(w, a, false)
		if a.Signed == 0 {
			toSign(w, underLine, wording.SignedBy)
		}
	}
}

// notes adds the notes of the day that are about no task or delivery.
func (s *Sheets) notes(w *page.Document, d *sheets.Day) {
	said := false
	for _, n := range s.book.Notes {
		if n.Activity != schedule.Nothing || s.date(n.At) != d.On {
			continue
		}
		if !said {
			w.Heading("Noted")
			said = true
		}
		w.Mark("- ", s.r.words.Noted(&n))
	}
}

func (s *Sheets) tired(w *page.Document, d *sheets.Day) {
	if len(d.Tired) == 0 {
		return
	}
	w.Heading("Hours over guidance")
	s.tiredHours(w, d)
}

// tiredHours adds where the hours of a day go over guidance.
func (s *Sheets) tiredHours(w *page.Document, d *sheets.Day) {
	for _, t := range d.Tired {
		w.Broken(0, s.r.words.Tired(t))
	}
}

// weather says which weather is logged for the day, and explains which its work needs.
func (s *Sheets) weather(w *page.Document, d *sheets.Day) {
	var tasks []schedule.TaskID
	for _, l := range d.Lines {
		if t, ok := s.r.of.Plan.Task(l.Activity); ok {
			tasks = append(tasks, t)
		}
	}
	text := strings.TrimSpace(s.r.words.WeatherLogged(s.book, d.On) + " " + s.r.words.Weather(tasks))
	if text != "" {
		w.Heading("Weather")
		w.Say(text)
	}
}

func (s *Sheets) next(w *page.Document, d *sheets.Day) {
	if len(d.Next) == 0 {
		return
	}
	w.Heading("Not before another day")
	for _, t := range d.Next {
		s.item(w, s.book.Number(t.Activity()), s.r.words.Why(s.r.of.Programme, t))
	}
}

// care adds the usual cautions for the hazards of the day.
func (s *Sheets) care(w *page.Document, d *sheets.Day) { s.careFor(w, safety.Cautions(d.Hazards)) }

func (s *Sheets) careFor(w *page.Document, all []safety.Caution) {
	if len(all) == 0 {
		return
	}
	w.Heading("Usual cautions")
	for _, c := range all {
		w.Mark("- ", wording.ShortCaution(c))
	}
	w.Say(safety.Deference)
}
