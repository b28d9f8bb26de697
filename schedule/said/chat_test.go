package said_test

import (
	"strings"
	"testing"

	"build.example/turflast/calendars"
)

// Lines of a crew's chat, with who wrote them and when.
func TestMessage(t *testing.T) {
	g := garden(t)
	figures := g.Plan.Site.Figures()
	for _, c := range []struct{ line, by, at, ticks string }{
		{"58 done", "", "Tue 4 May 17:30", "finish pool-plants"},
		{"Ann: 58 done 4pm", "Ann", "Tue 4 May 17:30", "finish pool-plants 2027-05-04 16:00"},
		{"[14:02] Ann: 58 done", "Ann", "Tue 4 May 14:02", "finish pool-plants"},
		{"14:02 Ann B.: 58 done, 59 started", "Ann B.", "Tue 4 May 14:02", "finish pool-plants; start pots"},
		{"[03/05/2027, 14:02:11] Ben: 58 started an hour ago", "Ben", "Mon 3 May 14:02",
			"start pool-plants 2027-05-03 13:02"},
		{"03.05.2027, 14:02 - Ben: 21 on hold: no saw", "Ben", "Mon 3 May 14:02", "pause wall-face: no saw"},
		{"[2027-05-03 14:02] 58 done", "", "Mon 3 May 14:02", "finish pool-plants"},
		{"Pool plants: done", "", "Tue 4 May 17:30", "finish pool-plants"},
		{"Ann: extra work: oil the gate in front, 1h, masons 1", "Ann", "Tue 4 May 17:30",
			"add: Oil the gate in front, 1h, masons 1"},
		{"note 21: grey mortar", "", "Tue 4 May 17:30", "note wall-face: grey mortar"},
	} {
		m, err := g.Message(c.line)
		if err != nil {
			t.Errorf("%q: %v", c.line, err)
			continue
		}
		var ticks []string
		for _, tick := range m.Ticks {
			ticks = append(ticks, tick.String())
		}
		if got := strings.Join(ticks, "; "); m.By != c.by || figures.Moment(m.At) != c.at || got != c.ticks {
			t.Errorf("%q: by %q at %s: %q", c.line, m.By, figures.Moment(m.At), got)
		}
	}
	for line, why := range map[string]string{
		"Ann: ok thanks":           "",
		"[18:40] Ann: 58 done":     "still to come",
		"Ann: dig done":            `"finish dig-wall"`,
		"lunch at 12":              "",
		"add: 58 done":             "in which zone",
		"Ann: add: 58 done":        "in which zone",
		"[31.04.2027 10:00] 58 ok": "",
	} {
		if m, err := g.Message(line); err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("%q is understood as %v, %v", line, m.Ticks, err)
		}
	}
}

// Moments, lengths and names that stand alone.
func TestAlone(t *testing.T) {
	g := garden(t)
	figures := g.Plan.Site.Figures()
	moment := func(read func(string) (calendars.Instant, error)) func(string) (string, error) {
		return func(text string) (string, error) {
			at, err := read(text)
			return figures.Moment(at), err
		}
	}
	day := func(read func(string) (calendars.Date, error)) func(string) (string, error) {
		return func(text string) (string, error) {
			d, err := read(text)
			return figures.Day(d), err
		}
	}
	readers := map[string]func(string) (string, error){
		"happened": moment(g.Happened), "coming": moment(g.Coming), "as at": moment(g.AsAt),
		"date": day(g.Date), "past": day(g.PastDate),
		"work": func(text string) (string, error) {
			m, err := g.Work(text)
			return calendars.FormatWait(m), err
		},
		"task": func(text string) (string, error) {
			list, err := g.Tasks(text)
			var ids []string
			for _, id := range list {
				ids = append(ids, g.Plan.Tasks[id].ID)
			}
			return strings.Join(ids, " "), err
		},
		"crew": func(text string) (string, error) {
			id, err := g.Crew(text)
			if err != nil {
				return "", err
			}
			return g.Plan.Crews[id].ID, nil
		},
	}
	for _, c := range []struct{ kind, text, want string }{
		{"happened", "now", "Tue 4 May 17:30"},
		{"happened", "16:00", "Tue 4 May 16:00"},
		{"happened", "saturday 10:00", "Sat 1 May 10:00"},
		{"happened", "Tue 4 May 2027 8:00", "Tue 4 May 08:00"},
		{"coming", "saturday 10:00", "Sat 8 May 10:00"},
		{"coming", "18:00", "Tue 4 May 18:00"},
		{"as at", "18:00", "Tue 4 May 18:00"},
		{"as at", "8:00", "Tue 4 May 08:00"},
		{"as at", "2027-05-03 12:00", "Mon 3 May 12:00"},
		{"date", "saturday", "Sat 8 May"},
		{"past", "saturday", "Sat 1 May"},
		{"work", "1 h 30", "1h30m"},
		{"work", "an hour and a half", "1h30m"},
		{"task", "58 59", "pool-plants pots"},
		{"task", "58-60", "pool-plants pots mulch-rear"},
		{"crew", "Stone Masons", "masons"},
		// What is asked back, with what must be said of it.
		{"happened", "18:00", `?say "2027-05-03 18:00"`},
		{"coming", "16:00", `?say "2027-05-05 16:00"`},
		{"as at", "saturday 10:00", `?say "2027-05-01 10:00", or "2027-05-08 10:00"`},
		{"happened", "2027-03-28 01:30", "?the clocks skip that time"},
		{"happened", "2027-02-30 10:00", "?is a day that does not exist"},
		{"happened", "tuesday", "?say the time of day too"},
		{"work", "half a day", `?say it in hours; say "5h15m"`},
		{"work", "2", "?"},
		{"task", "slate", `?"slate" is also the name of a lorry; say "wall-face"`},
		{"task", "81", "?81 is slate, a lorry, not a task"},
		{"task", "900", "?nothing has the number 900"},
		{"task", "lay-tuft", `?did you mean "lay-turf"?`},
		{"task", "skip", "?skip is a lorry, not a task"},
		{"crew", "joinres", `?did you mean "joiners"?`},
	} {
		got, err := readers[c.kind](c.text)
		if why, asked := strings.CutPrefix(c.want, "?"); asked {
			if err == nil || !strings.Contains(err.Error(), why) {
				t.Errorf("%s %q: %q, %v; want %s", c.kind, c.text, got, err, why)
			}
		} else if err != nil || got != c.want {
			t.Errorf("%s %q: %q, %v; want %q", c.kind, c.text, got, err, c.want)
		}
	}
}

// What isn't understood is told with how far it was, and what is near.
func TestDoubts(t *testing.T) {
	g := garden(t)
	for _, c := range []struct{ kind, text, want string }{
		{"whatif", "slate 2d latter", `"slate 2d latter": "slate 2d" is understood, but not "latter"; did you mean "later"?`},
		{"whatif", "slaet 2d later", `"slaet 2d later": there is no thing in the plan called "slaet"; did you mean "slate"?`},
		{"whatif", "drop", `"drop": name the task to leave out, or the lorry whose drop is late`},
		{"whatif", "xyzzy", `"xyzzy": there is no thing in the plan called "xyzzy"; say it like "blocks 2 days late"`},
		{"whatif", "crane away 2027-02-30", `"crane away 2027-02-30": "crane away" is understood, but ` +
			`"2027-02-30" is a day that does not exist; that month has the days 01 to 28; say it like "blocks 2 days late"`},
		{"tick", "rain since 2pm", `"rain since 2pm": say for which day, or from when to when, ` +
			`like rain from 13:00 to 15:00; say "wet 2027-05-04", or "wet 2027-05-04 from 14:00 to 18:00"`},
		{"tick", "slate left", `"slate left": "slate" brings something: was it unloaded, or sent away, and why; ` +
			`say "unloaded slate"`},
		{"tick", "start dig-wal", `"start dig-wal": "start" is understood, but there is no task called "dig-wal"; ` +
			`did you mean "dig-wall"?`},
		{"tick", "", `"": nothing is said; say it like "cut-frame started"`},
		{"tick", "58 done\u202e", `"58 done": there is a character that can't be seen; take it out`},
	} {
		_, err := meaning(g, c.kind, c.text)
		if err == nil || err.Error() != c.want {
			t.Errorf("%s %q: %v\nwant %s", c.kind, c.text, err, c.want)
		}
	}
	long := strings.Repeat("58 done, ", 100)
	if _, err := g.Ticks(long); err == nil || !strings.Contains(err.Error(), "too long") {
		t.Errorf("a long text: %v", err)
	}
}

// No line of a chat makes it panic, and what it tells is told at or before its moment.
func FuzzMessage(f *testing.F) {
	for _, line := range []string{
		"[14:02] Ann: 58 done", "03.05.2027, 14:02 - Ben: 21 on hold: no saw", "Ann: hello", ": x"} {
		f.Add(line)
	}
	g := garden(f)
	f.Fuzz(func(t *testing.T, line string) {
		m, err := g.Message(line)
		if err == nil && (len(m.Ticks) == 0 || m.At > g.Now.Plus(10)) {
			t.Errorf("%q: %+v", line, m)
		}
	})
}

// Hours that have been, today or on a date.
func TestHours(t *testing.T) {
	g := garden(t)
	figures := g.Plan.Site.Figures()
	for text, want := range map[string]string{
		"13:00-15:00":              "Tue 4 May 13:00-15:00",
		"from 1 to 3":              "Tue 4 May 13:00-15:00",
		"10:00 to 14:00 yesterday": "Mon 3 May 10:00-14:00",
		"saturday 9 to 12":         "Sat 1 May 09:00-12:00",
	} {
		from, until, err := g.Hours(text)
		if got := figures.Span(calendars.Span{Start: from, End: until}); err != nil || got != want {
			t.Errorf("%q is %s, %v", text, got, err)
		}
	}
	if _, _, err := g.Hours("15:00-13:00"); err == nil || !strings.Contains(err.Error(), "it ends before it starts") {
		t.Error(err)
	}
}
