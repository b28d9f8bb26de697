package main

import (
	"context"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/crews/solve"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/testdata"
)

func garden(t *testing.T, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if p == nil {
		t.Fatalf("it doesn't read: %v", problems)
	}
	return p
}

// The built-in garden has the size that the manual gives, and is tight: every
// date is met, with less than a day in hand.
func TestBuiltInGardenIsTight(t *testing.T) {
	p := garden(t, testdata.Demo)
	onSite := 0
	for i := range p.Zones {
		if !p.Zones[i].OffSite {
			onSite++
		}
	}
	if len(p.Tasks) < 65 || onSite != 6 || len(p.Zones) != 7 ||
		len(p.Crews) != 6 || len(p.Machines) != 4 || len(p.Deliveries) != 12 {
		t.Errorf("%s, %d zones on site", inventory(p), onSite)
	}
	s, err := solve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	c, err := verified(s.Crews(context.Background(), solve.Options{}))
	if err != nil {
		t.Fatal(err)
	}
	g := c.Programme
	if len(g.Breaks) > 0 || g.Blocked != nil {
		t.Errorf("dates break: %v", g.Breaks)
	}
	if m := g.Handover.Time; m <= 0 || m >= 10*calendars.Hour {
		t.Errorf("a margin of %d minutes", m)
	}
	if g.Finish != g.Bound {
		t.Errorf("the finish is not proven best")
	}
	early := false
	for i := range g.Tasks {
		early = early || g.Tasks[i].Start < p.Site.Opens
	}
	if !early {
		t.Error("no work before the gate opens")
	}
}

// The built-in garden shows nearly all that a plan file can say.
func TestBuiltInGardenShowsWhatPlansCanSay(t *testing.T) {
	for _, key := range []string{
		"aim", "holidays", "holidays_add", "holidays_drop", "hours", "hours_on", "closed", "loud_hours", "gate", "at_once",
		"wet_days", "dries", "stages", "people", "way_in", "off_site", "from", "away", "rate", "people_on", "count", "ours",
		"places", "givens", "arrives", "unload", "waits", "keep", "movable", "late", "order_ahead", "out", "rules", "daily",
		"takes", "person_hours", "amount", "spread", "lag", "link", "within", "uses", "stays", "clears", "weather", "hazards",
		"hold_point", "by_appointment", "done_when", "note", "loud",
		"on_boards", "unbroken", "cure", "closes_way_in", "apart",
		"except", "not_before", "short", "by", "optional", "drop_order", "longer",
		"machine", "earlier", "overlap", "drop", "cost", "why",
	} {
		if !strings.Contains(testdata.Demo, key+":") {
			t.Errorf("no %q", key)
		}
	}
	for _, phrase := range []string{"start-start", "finish-finish", "lag: -",
		" apart from ", ", after ", "..", "closes_way_in: true", "closes_way_in: false"} {
		if !strings.Contains(testdata.Demo, phrase) {
			t.Errorf("no %q", phrase)
		}
	}
}

func TestStarterReadsWithoutWarnings(t *testing.T) {
	p, problems := planfile.Read(strings.NewReader(testdata.Starter))
	if p == nil || len(problems) > 0 {
		t.Errorf("problems: %v", problems)
	}
}

// Each fault that the broken garden announces is found; the ring shows only
// once the rest is mended.
func TestBrokenGardenIsBroken(t *testing.T) {
	_, problems := planfile.Read(strings.NewReader(testdata.Broken))
	lines := strings.Split(testdata.Broken, "\n")
	announced, found := 0, make(map[int]bool)
	for _, q := range problems {
		// The announcement is the last comment above the fault.
		for at := q.Pos.Line - 2; at >= 0; at-- {
			if strings.HasPrefix(strings.TrimSpace(lines[at]), "# ") {
				found[at] = true
				break
			}
		}
	}
	for at, line := range lines {
		if rest, ok := strings.CutPrefix(strings.TrimSpace(line), "# "); ok &&
			rest != "" && rest[0] >= '1' && rest[0] <= '9' {
			announced++
			if !found[at] && !strings.Contains(rest, "once the file reads") {
				t.Errorf("line %d announces a fault that isn't found: %s", at+1, line)
			}
		}
	}
	if announced < 12 {
		t.Errorf("%d faults announced", announced)
	}
}
