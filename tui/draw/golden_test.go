package draw_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/tolerance"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/report"
	"build.example/turflast/tui/draw"
	"build.example/turflast/tui/gardentest"
)

var update = flag.Bool("update", false, "write the golden frames again")

// golden compares a frame with the one kept under its name.
func golden(t *testing.T, name, frame string) {
	t.Helper()
	path := filepath.Join("testdata", name+".golden")
	frame += "\n"
	if *update {
		if err := os.WriteFile(path, []byte(frame), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(frame, "\n")); d != "" {
		t.Errorf("%s differs; -update writes it again:\n%s", name, d)
	}
}

// shades stand for the grounds of bars where nothing is written on them: chain, tight, free,
// done, late.
var shades = []string{"█", "▓", "▒", "░", "▚"}

// shaded replaces the escape sequences of a frame drawn in [draw.Shaded].
func shaded(frame string) string {
	var b strings.Builder
	shade := " "
	for frame != "" {
		switch {
		case strings.HasPrefix(frame, "\x1b[0m"):
			shade, frame = " ", frame[len("\x1b[0m"):]
		case frame[0] == '\x1b':
			shade, frame = shades[frame[len("\x1b[4")]-'0'], frame[len("\x1b[40m"):]
		case frame[0] == ' ':
			b.WriteString(shade)
			frame = frame[1:]
		default:
			b.WriteByte(frame[0])
			frame = frame[1:]
		}
	}
	return b.String()
}

var sizes = []draw.Size{{Width: 80, Height: 24}, {Width: 120, Height: 40}, {Width: 300, Height: 80}}

func chrome(g *draw.Garden, s draw.Size, tab int) draw.Chrome {
	return draw.Chrome{
		Garden: g.Plan.Garden, Tabs: []string{"window", "day", "deliveries"}, Tab: tab,
		Status: draw.Status(g, s.Width-12), Alarm: draw.Alarm(g), Hint: "? help",
	}
}

// frames draws every view of a garden at one size, by name.
func frames(g *draw.Garden, s draw.Size, th draw.Theme) map[string]string {
	out := map[string]string{}
	sheet := draw.NewSheet(g, s, draw.Scale{})
	out["window"] = sheet.Draw(chrome(g, s, 0), draw.Look{Chosen: sheet.First()}, th)
	nights := draw.NewSheet(g, s, draw.Scale{Nights: true})
	out["window-nights"] = nights.Draw(chrome(g, s, 0), draw.Look{Chosen: nights.Top()}, th)
	closer := draw.NewSheet(g, s, draw.Scale{Zoom: 4})
	out["window-closer"] = closer.Draw(chrome(g, s, 0), closer.Follow(draw.Look{Chosen: closer.First()}), th)
	day := draw.DayLook{Date: g.Date(g.Plan.Site.Opens.Plus(5 * calendars.Day)), Crew: draw.Everyone}
	out["day-everyone"] = draw.Day(g, chrome(g, s, 1), day, s, th)
	if len(g.Plan.Crews) > 0 {
		day.Crew = schedule.CrewID(len(g.Plan.Crews) * 2 / 3)
		out["day"] = draw.Day(g, chrome(g, s, 1), day, s, th)
	}
	lorries := draw.NewLorries(g, s)
	chosen := schedule.DeliveryID(schedule.None)
	if list := lorries.List(); len(list) > 0 {
		chosen = list[len(list)/2]
	}
	out["deliveries"] = lorries.Draw(chrome(g, s, 2), chosen, 0, th)
	asked := *g
	asked.Tolerances = &draw.Tolerances{Known: gardentest.Tolerances(g.Case)}
	for _, d := range tolerance.ByHurt(g.Plan, asked.Tolerances.Known) {
		asked.Tolerances.Order = append(asked.Tolerances.Order, d.Delivery)
	}
	out["deliveries-hurt"] = draw.NewLorries(&asked, s).Draw(chrome(g, s, 2), chosen, 0, th)
	out["chain"] = draw.Page(chrome(g, s, 0), "WHAT DRIVES THE DATE", draw.ChainLines(g, s.Width), 0, s, th)
	heads := draw.Lines(report.New(g.Case).Heads(), s.Width-2, page.Rows)
	out["people"] = draw.Page(chrome(g, s, 0), "PEOPLE AND MACHINES BY HALF DAY", heads, 0, s, th)
	return out
}

func TestGoldenFrames(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Driven(t))
	for _, s := range sizes {
		for name, frame := range frames(g, s, draw.Shaded()) {
			golden(t, fmt.Sprintf("%s-%dx%d", name, s.Width, s.Height), shaded(frame))
		}
	}
}

// TestGoldenCrews draws the crew programme, whose rails are as long as tasks may
// really slip.
func TestGoldenCrews(t *testing.T) {
	g := gardentest.SolveCrews(t, gardentest.Demo(t))
	for name, frame := range frames(g, sizes[0], draw.Shaded()) {
		golden(t, name+"-crews-80x24", shaded(frame))
	}
}

func TestGoldenColours(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Driven(t))
	all := frames(g, sizes[0], draw.NewTheme(draw.True, false))
	for _, name := range []string{"window", "day", "deliveries"} {
		golden(t, name+"-colours-80x24", all[name])
	}
}

// TestGoldenLate draws a hand-over that breaks: the turf comes a day late.
func TestGoldenLate(t *testing.T) {
	p := gardentest.Demo(t)
	d := p.FindDelivery("turf")
	late := p.Rebooked(d, p.Deliveries[d].Arrives.Plus(calendars.Day))
	g := gardentest.Solve(t, late)
	g.Filed = p
	for name, frame := range frames(g, sizes[0], draw.Shaded()) {
		if name == "window" || name == "deliveries" {
			golden(t, name+"-late-80x24", shaded(frame))
		}
	}
}

// TestTheLineCrossesNoWords draws what is said of a lorry that comes days after the
// hand-over: the line then stands well within the frame, and beside the words.
func TestTheLineCrossesNoWords(t *testing.T) {
	p := gardentest.Demo(t)
	d := p.FindDelivery("turf")
	g := gardentest.Solve(t, p.Rebooked(d, p.Deliveries[d].Arrives.Plus(3*calendars.Day)))
	g.Filed = p
	for _, s := range sizes {
		frame := draw.NewLorries(g, s).Draw(chrome(g, s, 2), d, 0, draw.Theme{})
		if !strings.Contains(frame, "Lay the turf is done") || regexp.MustCompile(`[a-z]┃|┃[a-z]`).MatchString(frame) {
			t.Errorf("the line crosses words at %d columns:\n%s", s.Width, frame)
		}
	}
}

func TestTooSmall(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Driven(t))
	for _, s := range []draw.Size{{Width: 59, Height: 24}, {Width: 39, Height: 24}, {Width: 120, Height: 14}} {
		for name, frame := range frames(g, s, draw.Theme{}) {
			narrow := strings.HasPrefix(name, "day") || name == "chain" || name == "people"
			want := s.Width < 40 || s.Height < 15 || !narrow
			if strings.Contains(strings.Join(strings.Fields(frame), " "), "Too small: turflast needs") != want {
				t.Errorf("%s at %d by %d says it is too small: %v:\n%s", name, s.Width, s.Height, !want, frame)
			}
		}
	}
}

// colours are the escape sequences that set one, in the words or the ground.
var colours = regexp.MustCompile(`\x1b\[([0-9]+;)*([3-4][0-8]|9[0-7]|10[0-7])(;[0-9]+)*m`)

// On a terminal that shows ASCII alone every frame has the same columns, in ASCII.
func TestASCII(t *testing.T) {
	p := gardentest.Driven(t)
	p.Tasks[0].Name, p.Tasks[1].Name = "Bepflanzen für Zoë — 漢字 🌱", "Pavé"
	g := gardentest.Solve(t, p)
	plain, ascii := frames(g, sizes[1], draw.Theme{}), frames(g, sizes[1], draw.Theme{}.ASCII())
	for name := range plain {
		lines, want := strings.Split(ascii[name], "\n"), strings.Split(plain[name], "\n")
		if len(lines) != len(want) {
			t.Fatalf("%s has %d lines, want %d", name, len(lines), len(want))
		}
		for i, line := range lines {
			if strings.IndexFunc(line, func(r rune) bool { return r >= 0x80 }) >= 0 {
				t.Errorf("%s, line %d isn't ASCII: %s", name, i, line)
			}
			if got, whole := draw.Columns(line), draw.Columns(want[i]); got != whole {
				t.Errorf("%s, line %d: %d columns, want %d:\n%s\n%s", name, i, got, whole, line, want[i])
			}
		}
	}
}

// TestThemeIsShape checks that colour only repeats what the marks say: without
// its escape sequences a coloured frame is the plain one, but for the marks that stand for
// a colour.
func TestThemeIsShape(t *testing.T) {
	g := gardentest.Solve(t, gardentest.Driven(t))
	for _, depth := range []draw.Depth{draw.Mono, draw.Sixteen, draw.Indexed, draw.True} {
		for _, light := range []bool{false, true} {
			plain, coloured := frames(g, sizes[1], draw.Theme{}), frames(g, sizes[1], draw.NewTheme(depth, light))
			for name := range plain {
				without := strings.NewReplacer("!", " ")
				if d := cmp.Diff(strip(without.Replace(plain[name])), strip(without.Replace(coloured[name]))); d != "" {
					t.Errorf("%s at depth %d: %s", name, depth, d)
				}
				if depth == draw.Mono && colours.MatchString(coloured[name]) {
					t.Errorf("%s has a colour in monochrome", name)
				}
			}
		}
	}
}
