package planfile_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile"
)

func garden(t testing.TB) string {
	text, err := os.ReadFile("testdata/garden.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func read(t testing.TB, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if p == nil {
		t.Fatalf("the plan is refused: %v", problems)
	}
	return p
}

// wall writes a moment of a plan on its site's clock.
func wall(p *schedule.Plan, t calendars.Instant) string {
	if t == 0 {
		return "-"
	}
	return t.In(p.Site.Location).Format("2006-01-02 15:04")
}

func span(p *schedule.Plan, s calendars.Span) string {
	return wall(p, s.Start) + " to " + wall(p, s.End)
}

func spans(p *schedule.Plan, list []calendars.Span) string {
	var out []string
	for _, s := range list {
		out = append(out, span(p, s))
	}
	return strings.Join(out, ", ")
}

func hours(p *schedule.Plan, h calendars.Hours) string {
	var out []string
	for d, ranges := range h.Weekly {
		out = append(out, fmt.Sprint(d, " ", calendars.FormatRanges(ranges)))
	}
	for _, on := range h.On {
		out = append(out, on.On.String()+" "+calendars.FormatRanges(on.Ranges))
	}
	for _, c := range h.Closed {
		out = append(out, span(p, c.Span)+" "+c.Why)
	}
	return strings.Join(out, "; ")
}

func crewNeeds(p *schedule.Plan, needs []schedule.CrewNeed) string {
	var out []string
	for _, n := range needs {
		out = append(out, fmt.Sprintf("%s %d..%d", p.Crews[n.Crew].ID, n.Least, n.Most))
	}
	return strings.Join(out, ", ")
}

func links(p *schedule.Plan, list []schedule.Link) string {
	var out []string
	for _, l := range list {
		s := fmt.Sprint(p.Tasks[l.From].ID, " ", l.Kind)
		switch l.Wait.Kind {
		case schedule.Lag:
			s += fmt.Sprint(" lag ", l.Wait.Time)
		case schedule.Cure:
			s += fmt.Sprint(" cure ", l.Wait.Time)
		}
		if l.HasWithin {
			s += fmt.Sprint(" within ", l.Within)
		}
		out = append(out, s)
	}
	return strings.Join(out, ", ")
}

// TestReadGarden reads a plan that uses every key and compares what each one
// became.
func TestReadGarden(t *testing.T) {
	p := read(t, garden(t))
	site := &p.Site
	task := func(id string) *schedule.Task { return &p.Tasks[p.FindTask(id)] }
	lorry := func(id string) *schedule.Delivery { return &p.Deliveries[p.FindDelivery(id)] }
	holiday := func(day string) string {
		for _, h := range site.Holidays {
			if h.On.String() == day {
				return h.Name
			}
		}
		return "none"
	}
	nets, footing, tideWall, plant := task("tie-nets"), task("footing"), task("wall"), task("plant")
	for _, c := range []struct{ what, got, want string }{
		{"garden", p.Garden, "Tidewall Court: the sea wall"},
		{"currency", p.Currency, "EUR"},
		{"timezone", site.Location.String(), "Europe/Dublin"},
		{"opens", wall(p, site.Opens), "2027-06-03 06:30"},
		{"handover", wall(p, site.Handover), "2027-06-11 16:00"},
		{"aim", wall(p, site.Aim), "2027-06-11 10:00"},
		{"holidays", site.Region, "IE"},
		{"a holiday of the region", holiday("2027-05-03"), "First Monday in May"},
		{"a holiday added", holiday("2027-06-10"), "regatta day"},
		{"a holiday dropped", holiday("2027-06-07"), "none"},
		{"hours of the site", hours(p, site.Hours), "0 closed; 1 07:30-12:00 12:30-17:30; 2 07:30-12:00 12:30-17:30; " +
			"3 07:30-12:00 12:30-17:30; 4 07:30-12:00 12:30-17:30; 5 07:30-12:00 12:30-17:30; 6 08:00-13:00; " +
			"2027-06-06 10:00-14:00; 2027-06-10 closed; 2027-06-09 11:00 to 2027-06-09 12:00 low flight over the bay"},
		{"loud hours", hours(p, calendars.Hours{Weekly: *site.Loud}), "0 closed; 1 09:00-16:00; 2 09:00-16:00; " +
			"3 09:00-16:00; 4 09:00-16:00; 5 09:00-16:00; 6 closed"},
		{"gate", fmt.Sprint(site.Gate.AtOnce, " ", hours(p, *site.Gate.Hours)), "2 0 closed; 1 06:00-09:30; 2 06:00-09:30; " +
			"3 06:00-09:30; 4 06:00-09:30; 5 06:00-09:30; 6 06:00-09:30; " +
			"2027-06-06 10:00-11:00; 2027-06-04 06:00 to 2027-06-04 07:00 a wedding"},
		{"wet days", fmt.Sprint(*site.Wet), "{0.25 1 90}"},
		{"windy days", fmt.Sprint(*site.Windy), "{0.125 0.5}"},
		{"stages", strings.Join(p.Stages[14:], " "), "clean strike ropework"},
		{"zones", fmt.Sprint(p.Zones[0].ID, p.Zones[0].People, p.Zones[0].WayIn, p.Zones[2].Name, p.Zones[2].People),
			"wall8 [1]gatehouse0"},
		{"off site", fmt.Sprint(p.Zones[3].OffSite, " ", wall(p, p.Zones[3].From), " ", hours(p, p.Zones[3].Hours)),
			"true 2027-05-17 08:00 0 closed; 1 08:00-16:30; 2 08:00-16:30; " +
				"3 08:00-16:30; 4 08:00-16:30; 5 08:00-13:00; 6 closed; " +
				"2027-05-22 09:00-12:00; 2027-05-26 08:00 to 2027-05-27 08:00 launching day"},
		{"crew", fmt.Sprint(p.Crews[0].Name, " ", p.Crews[0].People, " ", p.Crews[0].PeopleOn, " ", p.Crews[0].Rate),
			"Wall masons 4 [{2027-06-07 3} {2027-06-08 6}] 4450"},
		{"crew hours", hours(p, *p.Crews[0].Hours),
			"0 closed; 1 07:30-15:30; 2 07:30-15:30; 3 07:30-15:30; 4 07:30-15:30; 5 07:30-15:30; 6 closed; " +
				"2027-06-05 08:00-12:00; 2027-06-11 12:00 to 2027-06-11 13:00 farewell"},
		{"crew on site hours", fmt.Sprint(p.Crews[1].Hours == nil, p.Crews[1].HoursOn), "true [{2027-06-06 [12:00-14:00]}]"},
		{"away a day", fmt.Sprint(span(p, p.Crews[0].Away[0].Span), p.Crews[0].Away[0].People, p.Crews[0].Away[0].All),
			"2027-06-04 00:00 to 2027-06-05 00:001 false"},
		{"away all", fmt.Sprint(span(p, p.Crews[0].Away[1].Span), p.Crews[0].Away[1].People, p.Crews[0].Away[1].All),
			"2027-06-09 09:00 to 2027-06-09 11:000 true"},
		{"machine", fmt.Sprint(p.Machines[0].Count, p.Machines[0].Places, p.Machines[0].Rate), "2 1 1205"},
		{"slots, sorted", spans(p, p.Machines[0].Ours),
			"2027-06-03 07:00 to 2027-06-05 12:00, 2027-06-08 07:00 to 2027-06-08 12:00"},
		{"machine always there", fmt.Sprint(len(p.Machines[1].Ours)), "0"},
		{"overtime", fmt.Sprint(p.Crews[0].Overtime, p.Crews[1].Overtime), "6675 0"},
		{"notice", fmt.Sprint(*p.Crews[0].Notice, p.Crews[1].Notice, *p.Machines[1].Notice, p.Machines[0].Notice,
			*lorry("granite").Notice, lorry("thrift").Notice, *tideWall.Hold.Notice, plant.Hold.Notice),
			"1440 <nil> 240 <nil> 2880 <nil> 2160 <nil>"},
		{"turns out", fmt.Sprint(*p.Crews[2].TurnsOut, p.Crews[1].TurnsOut), "0.75 <nil>"},
		{"hire", fmt.Sprint(*p.Machines[1].Hire, p.Machines[0].Hire), "{10080 24000 20160 3050} <nil>"},
		{"hire, the least not said", fmt.Sprint(*p.Machines[2].Hire), "{1440 8000 1440 0}"},
		{"waiting rate", fmt.Sprint(lorry("granite").WaitingRate, lorry("thrift").WaitingRate), "6250 0"},
		{"aged", fmt.Sprint(lorry("granite").Aged, lorry("thrift").Aged), "0 720"},
		{"short", tideWall.Short + nets.Short, "raise the tide wall up"},
		{"dries", fmt.Sprint(*tideWall.Dries, nets.Dries), "180 <nil>"},
		{"fails", fmt.Sprint(*tideWall.Hold.Fails, plant.Hold.Fails), "{0.25 90} <nil>"},
		{"on the clock", fmt.Sprint(task("rake").Hold.OnTheClock, task("rake").Hold.Takes, tideWall.Hold.OnTheClock),
			"true 2880 false"},
		{"given", p.Givens[0].What + " " + wall(p, p.Givens[0].From), "the slipway is free 2027-06-04 09:00"},
		{"arrival", wall(p, lorry("granite").Arrives), "2027-06-04 06:30"},
		{"unload", fmt.Sprint(lorry("granite").Unload.Takes, " ", crewNeeds(p, lorry("granite").Unload.Crew),
			lorry("granite").Unload.Machines), "75 masons 2..2[{0 1 []}]"},
		{"unload where it stands", fmt.Sprint(lorry("thrift").Unload.Machines), "[{0 2 [2 1]}]"},
		{"waits", fmt.Sprint(lorry("granite").Waits, lorry("thrift").Waits), "45 30"},
		{"keep", fmt.Sprint(lorry("granite").Keep, lorry("thrift").Keep), "0 2160"},
		{"movable", wall(p, lorry("granite").Movable.Earliest) + " " + wall(p, lorry("granite").Movable.Latest),
			"2027-06-03 06:30 2027-06-05 06:30"},
		{"late", fmt.Sprint(*lorry("granite").Late), "{0.125 120 2880}"},
		{"order ahead", fmt.Sprint(lorry("granite").OrderAhead), "80640"},
		{"delivery after", links(p, lorry("granite").After), "tie-nets finish-start"},
		{"delivery after a given", fmt.Sprint(lorry("granite").Givens, lorry("thrift").Givens), "[0] []"},
		{"delivery after work on site", links(p, lorry("sand").After), "footing finish-start"},
		{"collection", fmt.Sprint(lorry("spoil").Out, " ", links(p, lorry("spoil").After)),
			"true rake finish-start, tie-nets finish-start"},
		{"rules", fmt.Sprint(len(p.Rules), p.Rules[1].First, p.Rules[1].Then, p.Rules[1].Everywhere,
			p.Rules[1].After, p.Rules[1].HasAfter), "4 [16 11] [14] true 120 true"},
		{"rule text", p.Rules[2].Text, "planting before mulch, after 30m"},
		{"rule apart", fmt.Sprint(p.Rules[3].Kind == schedule.Apart, p.Rules[3].First,
			p.Rules[3].Then, p.Rules[3].Everywhere, p.Rules[3].HasAfter), "true [3] [11] false false"},
		{"duty", fmt.Sprint(p.Duties[0].ID, " ", crewNeeds(p, p.Duties[0].Crew), " ", p.Duties[0].At,
			p.Duties[0].From, p.Duties[0].To), "watering gardeners 1..1 07:30-08:15 2027-06-09 2027-06-11"},
		{"duty from a delivery at that time", fmt.Sprint(p.Duties[1].From, p.Duties[1].To), "2027-06-09 2027-06-11"},
		{"duty from a delivery after that time", fmt.Sprint(p.Duties[2].From), "2027-06-10"},
		{"task", fmt.Sprint(nets.Name, nets.Zones, p.Stages[nets.Stage], crewNeeds(p, nets.Crew), nets.Effort.Takes),
			"Tie the nets[3]ropeworkriggers 2..21200"},
		{"task without a name", footing.Name, "footing"},
		{"flags", fmt.Sprint(footing.Unbroken, footing.Loud, footing.Stays, footing.OnBoards, footing.Cure),
			"true true false false 1440"},
		{"task machines", fmt.Sprint(footing.Machines, tideWall.Machines), "[{1 1 []}] [{0 1 [2]} {2 1 []}]"},
		{"zones of a task", fmt.Sprint(tideWall.Zones), "[0 1]"},
		{"crew range", crewNeeds(p, tideWall.Crew), "masons 2..4, riggers 1..1"},
		{"person hours", fmt.Sprint(tideWall.Effort.Num, "/", tideWall.Effort.Den, " ", tideWall.Effort.Time(5)),
			"2250/1 450"},
		{"spread", fmt.Sprint(*tideWall.Spread), "{360 720}"},
		{"after", links(p, tideWall.After),
			"footing finish-start, tie-nets finish-finish lag -120, footing start-start cure 1800 within 4320"},
		{"given of a task", fmt.Sprint(tideWall.Givens), "[0]"},
		{"uses", fmt.Sprint(tideWall.Uses, plant.Uses), "[0] [1]"},
		{"stays, clears, apart", fmt.Sprint(tideWall.Stays, tideWall.Clears, tideWall.Apart), "true [2] [3]"},
		{"weather", fmt.Sprint(tideWall.Weather == schedule.Mild|schedule.Dry), "true"},
		{"hazards", strings.Join(tideWall.Hazards, " "), "lifting height"},
		{"hold point", fmt.Sprint(tideWall.Hold.What, tideWall.Hold.Takes), "engineer signs the wall45"},
		{"appointments, sorted", wall(p, tideWall.Hold.Appointments[0]) + " " + wall(p, tideWall.Hold.Appointments[1]),
			"2027-06-08 14:00 2027-06-09 09:00"},
		{"hold point as text", plant.Hold.What, "designer walks the drift"},
		{"done when", tideWall.DoneWhen, "plumb to 4 mm"},
		{"note over several lines", tideWall.Note, "the long level is in the shed"},
		{"amount", fmt.Sprint(plant.Effort.Num, "/", plant.Effort.Den, " ", plant.Effort.Amount, " ",
			plant.Effort.Rate, " ", plant.Effort.Unit), "1440/1 300 plants 12.5 plants/person-hour plants"},
		{"not before, by", wall(p, plant.NotBefore) + " " + wall(p, plant.By), "2027-06-09 08:00 2027-06-10 17:00"},
		{"on boards", fmt.Sprint(plant.OnBoards), "true"},
		{"excepts", fmt.Sprint(plant.Excepts), "[{2 shells go down first} {-2 boards}]"},
		{"closes the way in for a time", fmt.Sprint(task("shells").Closes), "{false 360 true}"},
		{"optional", fmt.Sprint(task("shells").Optional, task("shells").DropOrder), "true 2"},
		{"turf closes the way in", fmt.Sprint(task("turf").Closes), "{true 0 false}"},
		{"turf that does not", fmt.Sprint(task("turf-again").Closes), "{false 0 false}"},
		{"another that does", fmt.Sprint(task("rake").Closes), "{true 0 false}"},
		{"a task of no time", fmt.Sprint(task("done").Effort, links(p, task("done").After)),
			"{0 0 0   }rake finish-start, wall start-finish within 0"},
		{"longer hours", fmt.Sprint(*p.Measures[0].Longer, p.Measures[0].Cost), "{2027-06-08 1200} 35000"},
		{"more people", fmt.Sprint(crewNeeds(p, p.Measures[1].People.Crew), p.Measures[1].People.On,
			p.Measures[1].Cost, p.Measures[1].Why), "masons 2..2, gardeners 1..1[2027-06-08 2027-06-09] 41050cousins"},
		{"machine slot", fmt.Sprint(p.Measures[2].Machine.Machine, " ", span(p, p.Measures[2].Machine.Span)),
			"0 2027-06-09 07:00 to 2027-06-09 12:00"},
		{"earlier delivery", fmt.Sprint(*p.Measures[3].Earlier), "{0 1440}"},
		{"overlap", fmt.Sprint(*p.Measures[4].Overlap), "{1 2 90}"},
		{"drop", fmt.Sprint(p.Measures[5].Drop, p.Measures[4].Drop), "4 -1"},
		{"place of a task", fmt.Sprint(p.Tasks[0].Pos), "{110 3}"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %q, want %q", c.what, c.got, c.want)
		}
	}
}

// TestRepeatedTime reads a time that the clocks show twice: it is the first.
func TestRepeatedTime(t *testing.T) {
	text := strings.ReplaceAll(baseText, "2027-05-08 15:00", "2027-10-31 01:30")
	p := read(t, strings.ReplaceAll(text, "2027-04-30 07:00", "2027-10-20 07:00"))
	if _, offset := p.Site.Handover.In(p.Site.Location).Zone(); offset != 3600 {
		t.Errorf("the hand-over lies %d seconds from UTC, want summer time", offset)
	}
}

// TestReadsFrame reads plans with what may stand around one.
func TestReadsFrame(t *testing.T) {
	want := read(t, baseText)
	for name, text := range map[string]string{
		"a byte order mark":        "\uFEFF" + baseText,
		"CR LF":                    strings.ReplaceAll(baseText, "\n", "\r\n"),
		"a document mark":          "# the plan\n---\n" + baseText,
		"no last line end":         strings.TrimSuffix(baseText, "\n"),
		"comments and blank lines": "\n# a\n\n" + baseText + "\n  # b\n",
		"a tab before a comment":   strings.Replace(baseText, "Tidewall Court\n", "Tidewall Court\t# ours\n", 1),
	} {
		got := read(t, text)
		if got.Garden != want.Garden || len(got.Tasks) != 1 || got.Site.Opens != want.Site.Opens {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// TestCharacters reads plans with characters that no plan may hold.
func TestCharacters(t *testing.T) {
	_, withoutGarden, _ := strings.Cut(baseText, "\n")
	for _, c := range []struct{ name, text, want string }{
		{"invalid UTF-8", "garden: T\xffd\xfe\n",
			"1:10: a byte that is not UTF-8 text; take it out\n1:12: a byte that is not UTF-8 text; take it out\n"},
		{"a cut-off character", "garden: é\xc3\n", "1:10: a byte that is not UTF-8 text; take it out\n"},
		{"a null byte", "garden: a\x00b\n", "1:10: a control character (U+0000); take it out\n"},
		{"a bell in a comment", "garden: ab # \x07\n", "1:14: a control character (U+0007); take it out\n"},
		{"delete", "garden: a\x7fb\n", "1:10: a control character (U+007F); take it out\n"},
		{"a C1 control", "garden: a\u0085b\n", "1:10: a control character (U+0085); take it out\n"},
		{"a lone carriage return", "garden: a\rb\n", "1:10: a control character (U+000D); take it out\n"},
		{"an escape sequence", "garden: \x1b[31mred\n", "1:9: a control character (U+001B); take it out\n"},
		{"a bidirectional mark", "garden: a\u202eb\n", "1:10: an invisible character (U+202E); take it out\n"},
		{"a zero-width space", "garden: éé\u200bb\n", "1:11: an invisible character (U+200B); take it out\n"},
		{"a byte order mark inside", "garden: a\ufeffb\n", "1:10: an invisible character (U+FEFF); take it out\n"},
		{"a line separator", "garden: a\u2028b\n", "1:10: an invisible character (U+2028); take it out\n"},
		{"a filler", "garden: a\u3164b\n", "1:10: an invisible character (U+3164); take it out\n"},
		{"a private character", "garden: a\ue000b\n", "1:10: a character that can't be printed (U+E000); take it out\n"},
		{"a replacement character", "garden: a\ufffdb\n",
			"1:10: a replacement character (U+FFFD): a character was lost before; take it out\n"},
		{"in a key", "gar\u200bden: a\n" + withoutGarden, "1:4: an invisible character (U+200B); take it out\n"},
		{"in a name in use", "zones: {la\u00adwn: {}, lawn: {}, rear: {way_in: [la\u00adwn]}}\n",
			"1:11: an invisible character (U+00AD); take it out\n1:48: an invisible character (U+00AD); take it out\n"},
		{"and text that is no YAML", "garden: a\x07: b: c\n", "1:10: a control character (U+0007); take it out\n"},
		{"UTF-16", "\xff\xfeg\x00a\x00", "1:1: the file is not UTF-8 text; save it as UTF-8\n"},
		{"UTF-16 without a mark", "g\x00a\x00r\x00", "1:1: the file is not UTF-8 text; save it as UTF-8\n"},
	} {
		text := complete(c.text)
		if strings.HasPrefix(c.name, "UTF-16") || c.name == "in a key" {
			text = c.text
		}
		got, want := problemsOf(text), c.want
		if diff := cmp.Diff(sortedLines(want), sortedLines(got)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

// sortedLines lets a table list problems in any order.
func sortedLines(s string) map[string]bool {
	lines := map[string]bool{}
	for line := range strings.Lines(s) {
		lines[line] = true
	}
	return lines
}

// TestColumnsCountCharacters checks that columns count characters, whatever
// stands before.
func TestColumnsCountCharacters(t *testing.T) {
	got := problemsOf(complete("crews: {gang: {name: \"Gärtner 木 🌱\", peopl: 4}}\n"))
	if want := "1:37: unknown key \"peopl\" in crew gang; did you mean \"people\"?\n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestReaderFails(t *testing.T) {
	p, problems := planfile.Read(iotest.ErrReader(errors.New("the disk is gone")))
	if want := "1:1: the file can't be read: the disk is gone"; p != nil ||
		len(problems) != 1 || problems[0].String() != want {
		t.Errorf("%v %v, want %q", p, problems, want)
	}
}

// TestSameEveryTime reads every text that the tests have twice more.
func TestSameEveryTime(t *testing.T) {
	texts := []string{garden(t), baseText}
	for _, c := range badCases(t) {
		texts = append(texts, c.text)
	}
	for _, text := range texts {
		p, problems := planfile.Read(strings.NewReader(text))
		for range 2 {
			q, again := planfile.Read(bytes.NewReader([]byte(text)))
			if diff := cmp.Diff(problems, again); diff != "" {
				t.Fatalf("problems differ (-first +again):\n%s\nof:\n%s", diff, text)
			}
			if (p == nil) != (q == nil) || p != nil && fmt.Sprint(*p) != fmt.Sprint(*q) && diffPlans(p, q) != "" {
				t.Fatalf("plans differ: %s\nof:\n%s", diffPlans(p, q), text)
			}
		}
	}
}

// diffPlans compares all of two plans but the time zone, by its name.
func diffPlans(p, q *schedule.Plan) string {
	a, b := *p, *q
	if a.Site.Location.String() != b.Site.Location.String() {
		return "time zones differ"
	}
	a.Site.Location, b.Site.Location = nil, nil
	return cmp.Diff(a, b)
}
