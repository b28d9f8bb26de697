package wording

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/site/sitelog"
)

// weather says which weather a task needs, and when it may be loud.
func (w *Writer) weather(t *schedule.Task, l sheets.Line) string {
	var needs []string
	for i, name := range weathers {
		if t.Weather&(1<<i) != 0 {
			needs = append(needs, name)
		}
	}
	text := ""
	if len(needs) > 0 {
		text = "Must be " + list(needs) + "."
	}
	if t.Loud && w.plan.Site.Loud != nil && !w.plan.OffSite(t) {
		on := calendars.DateIn(l.Span.Start, w.plan.Site.Location)
		text += " Loud work, allowed " + calendars.FormatRanges(w.plan.Site.Loud[on.Weekday()]) + "."
	}
	return text
}

// weathers are the kinds of weather that tasks may need, by their bits.
var weathers = [...]string{"dry", "calm", "mild"}

// skies are the kinds of weather that are logged.
var skies = map[sitelog.Kind]string{
	sitelog.Wet: "wet", sitelog.Windy: "windy", sitelog.Frost: "frost", sitelog.Heat: "great heat",
}

// wary are the usual cautions in such weather.
var wary = map[sitelog.Kind]string{
	sitelog.Windy: " Make fast what can blow away; nobody lifts or works at height unless who is responsible says so.",
	sitelog.Frost: " Mind ice on boards and ladders; cover fresh mortar, concrete and plants.",
	sitelog.Heat:  " Water, shade and breaks for everybody; keep living stock and fresh mixes cool.",
}

// sky says which weather an event logs, and when: "Windy Tue 4 May 13:00 to 15:00".
func (w *Writer) sky(e *sitelog.Event) string {
	name := Capital(skies[e.What])
	if e.WholeDay() {
		return name + " on " + w.Day(e.Date)
	}
	return fmt.Sprintf("%s %s to %s", name, w.Moment(e.From), w.Then(e.Until, e.From))
}

// WeatherLogged says which weather was logged for a day, with the usual cautions, as
// sentences; empty if none was. The log takes no forecast, but a whole day may be logged
// before it is over: then it says when that was.
func (w *Writer) WeatherLogged(b *sheets.Book, day calendars.Date) string {
	var said []string
	cautions := ""
	for _, e := range b.WeatherOn(day) {
		text := Capital(skies[e.What])
		switch about := e.About(w.plan.Site.Location); {
		case !e.WholeDay():
			text += " " + w.Times(about) + ", logged."
		case w.plan.Now() < about.End:
			text += ", logged " + w.Then(e.At, about.Start) + " for the day."
		default:
			text += " all day, logged."
		}
		if !slices.Contains(said, text) {
			said = append(said, text)
		}
		if !strings.Contains(cautions, wary[e.What]) {
			cautions += wary[e.What]
		}
	}
	return strings.Join(said, " ") + cautions
}

// dries says how long dry work waits after a wet day, which may differ by task.
func dries(least, most calendars.Minutes) string {
	switch {
	case most == 0:
		return ""
	case least == most:
		return fmt.Sprintf(", and for the first %s of the day after a wet one", work(most))
	}
	return fmt.Sprintf(", and after a wet day for up to the first %s, each task as long as its plan says", work(most))
}

// Weather says which of a day's tasks need which weather, and what that means, as sentences;
// empty if none needs any.
func (w *Writer) Weather(tasks []schedule.TaskID) string {
	var said []string
	for i, name := range weathers {
		var needs []string
		var waits []calendars.Minutes
		for _, id := range slices.Compact(slices.Sorted(slices.Values(tasks))) {
			if t := &w.plan.Tasks[id]; t.Weather&(1<<i) != 0 {
				needs, waits = append(needs, w.Task(id)), append(waits, w.plan.Dries(t))
			}
		}
		if len(needs) == 0 {
			continue
		}
		means := [...]string{"stop when it rains", "stop in strong wind", "not in frost or great heat"}[i]
		if i == 0 {
			means += dries(slices.Min(waits), slices.Max(waits))
		}
		said = append(said, fmt.Sprintf("Must be %s for %s: %s.", name, listUpTo(mostNamed, needs), means))
	}
	return strings.Join(said, " ")
}
