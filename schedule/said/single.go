package said

import (
	"errors"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// single is a text that stands for one moment, length or name.
type single struct {
	found
	normal string
}

func (x single) String() string { return x.normal }

// singles are the grammars of what stands alone, by the slot that it fills.
var singles map[string]grammar[single]

func init() {
	singles = make(map[string]grammar[single])
	for _, name := range [...]string{
		"when", "to", "asat", "spanned", "date", "ondate", "work", "length", "task", "act", "crew", "team"} {
		singles[name] = compile([]rule[single]{{[]string{"<" + name + ">"}, alone}})
	}
}

// alone is what is found, with all that it says as its normal form.
func alone(_ *Garden, f found) []meaning[single] {
	var parts []string
	for _, th := range f.things {
		parts = append(parts, th.id)
	}
	if f.crew != "" {
		parts = append(parts, (&Tick{Crew: f.crew, Heads: f.heads}).team())
	}
	for _, d := range f.dates {
		parts = append(parts, d.String())
	}
	switch {
	case f.span[0] != f.span[1]:
		parts = append(parts, f.span[0].String(), "to", f.span[1].String())
	case f.at != nil:
		parts = append(parts, f.at.String())
	case f.length != length{}:
		parts = append(parts, calendars.FormatWait(f.length.minutes))
	}
	return as(f, single{f, strings.Join(parts, " ")})
}

// only understands a text that fills one slot.
func (g *Garden) only(slot, text, example string) (found, error) {
	list, err := singles[slot].understand(g, text, example)
	switch {
	case err != nil:
		return found{}, err
	case len(list) > 1:
		return found{}, &Doubt{Said: text, Why: "these are several; give one", Example: example}
	}
	return list[0].found, nil
}

// Happened understands a moment at which something happened: "16:00", "yesterday 4pm",
// "saturday 10:00". The error is a *Doubt.
func (g *Garden) Happened(text string) (calendars.Instant, error) { return g.moment("when", text) }

// Coming understands a moment to come: "thursday 9am", "Thu 6 May 09:00". The error is a
// *Doubt.
func (g *Garden) Coming(text string) (calendars.Instant, error) { return g.moment("to", text) }

// AsAt understands a moment on either side of now: a time without a date is one of today.
// The error is a *Doubt.
func (g *Garden) AsAt(text string) (calendars.Instant, error) { return g.moment("asat", text) }

func (g *Garden) moment(slot, text string) (calendars.Instant, error) {
	example := "yesterday 16:00"
	if slot != "when" {
		example = g.Plan.Site.Figures().Moment(g.Plan.Site.Handover)
	}
	f, err := g.only(slot, text, example)
	switch {
	case err != nil:
		return 0, err
	case f.at == nil:
		return g.Now, nil
	}
	return g.Instant(*f.at)
}

// Hours understands a stretch of time that has been, today or on a date: "13:00-15:00",
// "yesterday 1 to 3". The error is a *Doubt.
func (g *Garden) Hours(text string) (from, until calendars.Instant, err error) {
	f, err := g.only("spanned", text, "13:00 to 15:00")
	if err != nil {
		return 0, 0, err
	}
	if from, err = g.Instant(f.span[0]); err == nil {
		until, err = g.Instant(f.span[1])
	}
	return from, until, err
}

// Instant is a moment of the site's clock. One that the clocks skip is a *Doubt.
func (g *Garden) Instant(m schedule.Moment) (calendars.Instant, error) {
	t, is := calendars.At(g.Plan.Site.Location, m.Date, m.Minute)
	if is == calendars.Skipped {
		return 0, &Doubt{Said: m.String(), Why: "the clocks skip that time; give one before or after"}
	}
	return t, nil
}

// Date understands a date to come, or of today: "tomorrow", "friday", "Thu 6 May". The
// error is a *Doubt.
func (g *Garden) Date(text string) (calendars.Date, error) { return g.date("date", text) }

// PastDate understands a date that has been, or today. The error is a *Doubt.
func (g *Garden) PastDate(text string) (calendars.Date, error) { return g.date("ondate", text) }

func (g *Garden) date(slot, text string) (calendars.Date, error) {
	example := "yesterday"
	if slot == "date" {
		_, last := g.window()
		example = g.Plan.Site.Figures().Day(last)
	}
	f, err := g.only(slot, text, example)
	if err != nil {
		return 0, err
	}
	return f.dates[0], nil
}

// Work understands a length of work: "1h30", "90 min", "an hour and a half". The error is
// a *Doubt.
func (g *Garden) Work(text string) (calendars.Minutes, error) {
	f, err := g.only("work", text, "1h30")
	return f.length.minutes, err
}

// Length understands a length on the clock: "2 days", "36 h". The error is a *Doubt.
func (g *Garden) Length(text string) (calendars.Minutes, error) {
	f, err := g.only("length", text, "2 days")
	return f.length.minutes, err
}

// Tasks understands the names or numbers of one or several tasks. The error is a *Doubt.
func (g *Garden) Tasks(text string) ([]schedule.TaskID, error) {
	f, err := g.named("task", tasks, text)
	var out []schedule.TaskID
	for _, th := range f.things {
		out = append(out, schedule.TaskID(th.at))
	}
	return out, err
}

// Activities understands the names or numbers of tasks and deliveries. The error is a
// *Doubt.
func (g *Garden) Activities(text string) ([]schedule.Activity, error) {
	f, err := g.named("act", tasks|lorries, text)
	var q Question
	q.about(g, f)
	return q.Of, err
}

// Crew understands the name of a crew. The error is a *Doubt.
func (g *Garden) Crew(text string) (schedule.CrewID, error) {
	f, err := g.named("crew", crews, text)
	if err == nil && len(f.things) > 1 {
		err = &Doubt{Said: text, Why: "these are several crews; name one"}
	}
	if err != nil {
		return schedule.None, err
	}
	return schedule.CrewID(f.things[0].at), nil
}

// named understands names of some kinds, and says of one that isn't understood what it is
// the name of, or which is near.
func (g *Garden) named(slot string, of kind, text string) (found, error) {
	f, err := g.only(slot, text, "")
	var d *Doubt
	if errors.As(err, &d) && len(d.Choices) == 0 {
		text = strings.TrimSpace(text)
		return f, &Doubt{Said: text, Why: g.unknown(text, text, of)}
	}
	return f, err
}
